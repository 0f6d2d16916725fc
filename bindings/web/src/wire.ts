// What travels between the page and the worker, and nothing that acts on it. Everything here must survive
// structured clone: plain objects, no prototypes. `serve.ts` and `client.ts` are the two ends.

import type { FailureData } from "./failure.ts";

/** How the page wants the worker to start. */
export interface StartOptions {
  /** Folder of the origin's private file system that holds the books, and the name of the owner lock. */
  folder: string;
  /** Passed to the hosted API untouched: book name, key and the like. */
  settings: unknown;
}

/** Page to worker. */
export type ToWorker =
  { kind: "start"; options: StartOptions } | { kind: "ask"; id: number; call: string; args: unknown[] };

/** Worker to page. */
export type ToPage =
  | { kind: "answer"; id: number; value: unknown }
  | { kind: "failed"; id: number; failure: FailureData }
  /** Another tab owns the storage; this worker stands in line. */
  | { kind: "waiting" }
  /** Owner, storage open, calls are taken. */
  | { kind: "ready"; timings: StartTimings }
  /** This place cannot keep records. Final for this worker. */
  | { kind: "refused"; failure: FailureData }
  /** The module broke off in the middle of something. Final for this worker: nothing in it is trusted. */
  | { kind: "fatal"; failure: FailureData };

/** Milliseconds of each part of a start, for the tests and the support page. */
export interface StartTimings {
  /** Fetching, compiling and starting the module. */
  load: number;
  /** Waiting for another tab to let go. */
  wait: number;
  /** Taking hold of the storage and opening. */
  open: number;
}

/** An API as it looks from the page: every method by its name, answered later. */
export type Remote<A> = {
  readonly [
    Name in keyof A as A[Name] extends (...args: never[]) => unknown ? Name : never
  ]: A[Name] extends (...args: infer Args) => infer Result
    ? (...args: Args) => Promise<Awaited<Result>>
    : never;
};
