// The page of the browser tests: opens a connection the way an app would and lends it to the test.

import { askToKeep, connect, roomNow, type BookApi, type Connection, type Standing } from "../../src/index.ts";

interface Opened {
  connection: Connection<BookApi>;
  /** Every standing seen, in order. */
  seen: string[];
  restarts: string[];
  /** Set by the test: whether this tab lets another one take over. */
  mayLetGo: boolean;
}

const open = (worker: string, folder = "books"): Opened => {
  const opened: Opened = { seen: [], restarts: [], mayLetGo: true, connection: undefined as never };
  opened.connection = connect<BookApi>({
    folder,
    settings: { book: "test.book", key: new Uint8Array(32).fill(7) },
    worker: () => new Worker(worker, { type: "module" }),
    mayLetGo: () => opened.mayLetGo,
    onRestart: (failure) => opened.restarts.push(failure.why),
  });
  opened.connection.onStanding((standing) => opened.seen.push(standing.is));
  return opened;
};

/** Resolves when the connection stands as `is`. */
const until = (opened: Opened, is: Standing["is"]) =>
  new Promise<Standing>((resolve) => {
    opened.connection.onStanding((standing) => standing.is === is && resolve(standing));
  });

Object.assign(globalThis, { open, until, roomNow, askToKeep });
