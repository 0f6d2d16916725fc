// The page of the browser tests: opens a connection the way an app would and lends it to the test, with the
// few calls every test makes. Decides nothing.

import { askToKeep, connect, roomNow, type BookApi, type Connection, type Standing } from "../../src/index.ts";

/** Who makes the entries of these tests. */
const OPERATOR = "op-1";

class Opened {
  readonly connection: Connection<BookApi>;
  /** Every standing seen, in order. */
  readonly seen: string[] = [];
  readonly restarts: string[] = [];
  /** Set by the test: whether this tab lets another one take over. */
  mayLetGo = true;
  #visit: Promise<string> | undefined;

  constructor(worker: string, folder: string, key: number) {
    this.connection = connect<BookApi>({
      folder,
      settings: { book: "test.book", key: new Uint8Array(32).fill(key) },
      worker: () => new Worker(worker, { type: "module" }),
      mayLetGo: () => this.mayLetGo,
      onRestart: (failure) => this.restarts.push(failure.why),
    });
    this.connection.onStanding((standing) => this.seen.push(standing.is));
  }

  /** The one visit of this book; opened when there is none yet. */
  visit(): Promise<string> {
    const found = async () => {
      const { api } = this.connection;
      const [row] = JSON.parse(await api.visits()) as { visits: string[] }[];
      const opening = { car: "ZZQX 4417", site: "04".repeat(16), receiver: "truck" };
      return row?.visits[0] ?? (await api.openVisit(JSON.stringify(opening), OPERATOR));
    };
    return (this.#visit ??= found());
  }

  /** Makes remarks in one commit; resolves when they are on the disk. */
  async write(...texts: string[]): Promise<string[]> {
    const drafts = texts.map((text) => ({ says: { remark: { text } } }));
    return this.connection.api.append(`visit:${await this.visit()}`, JSON.stringify(drafts), OPERATOR);
  }

  /** The remarks of the visit, in order. */
  async texts(): Promise<string[]> {
    const view = JSON.parse(await this.connection.api.visit(await this.visit())) as {
      history: { slot: string; sentence: string }[];
    };
    const remarks = view.history.filter((line) => line.slot === "series/remark");
    return remarks.map((line) => line.sentence.replace(/^Remark: /, ""));
  }
}

const open = (worker: string, folder = "books", key = 7) => new Opened(worker, folder, key);

/** Resolves when the connection stands as `is`. */
const until = (opened: Opened, is: Standing["is"]) =>
  new Promise<Standing>((resolve) => {
    opened.connection.onStanding((standing) => standing.is === is && resolve(standing));
  });

Object.assign(globalThis, { open, until, roomNow, askToKeep });
