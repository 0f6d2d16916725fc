// What an app imports from `@farsiding/web`: the page's end, and types of the API.

export { connect, type Connection, type ConnectOptions, type Standing } from "./client.ts";
export { Failure, type FailureData, type WorkerVariant } from "./failure.ts";
export { askToKeep, roomNow, type Room } from "./storage.ts";
export type { Remote, StartTimings } from "./wire.ts";
export type { BookApi, BookSettings } from "./books.ts";
export type { ReadAmount, FarsidingError } from "../generated/farsiding_bindings.ts";
export type { KeyStanding } from "./keys.ts";
