// The page of the browser tests: opens a connection the way an app would and lends it to the test, with the
// few calls every test makes. Decides nothing.

import {
  askToKeep,
  connect,
  roomNow,
  type BookApi,
  type Connection,
  type Standing,
} from "../../src/index.ts";

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

  /** `key` null: this phone's own keys, behind `pin` if there is one. */
  constructor(worker: string, folder: string, key: number | null, pin?: string) {
    this.connection = connect<BookApi>({
      folder,
      settings: { book: "test.book", ...(key === null ? { pin } : { key: new Uint8Array(32).fill(key) }) },
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
      history: { slot: string; sentence: { args: { text: { typed: string } } } }[];
    };
    const remarks = view.history.filter((line) => line.slot === "series/remark");
    return remarks.map((line) => line.sentence.args.text.typed);
  }
}

const open = (worker: string, folder = "books", key: number | null = 7, pin?: string) =>
  new Opened(worker, folder, key, pin);

/** Resolves when the connection stands as `is`. */
const until = (opened: Opened, is: Standing["is"]) =>
  new Promise<Standing>((resolve) => {
    opened.connection.onStanding((standing) => standing.is === is && resolve(standing));
  });
/** Resolves when it is ready, or will not be. */
const settled = (opened: Opened) =>
  new Promise<Standing>((resolve) => {
    opened.connection.onStanding(
      (standing) => ["ready", "refused", "broken"].includes(standing.is) && resolve(standing),
    );
  });

const wish = <T>(request: IDBRequest<T>) =>
  new Promise<T>((yes, no) => {
    request.onsuccess = () => yes(request.result);
    request.onerror = () => no(request.error);
  });
async function keyRows<T>(act: (rows: IDBObjectStore) => Promise<T>): Promise<T> {
  const opening = indexedDB.open("farsiding", 1);
  opening.onupgradeneeded = () => opening.result.createObjectStore("key");
  const base = await wish(opening);
  try {
    return await act(base.transaction("key", "readwrite").objectStore("key"));
  } finally {
    base.close();
  }
}
/** What lies in the database of keys, by name; a key by what may be done with it. */
const stored = () =>
  keyRows(async (rows) => {
    const [names, values] = [await wish(rows.getAllKeys()), (await wish(rows.getAll())) as unknown[]];
    const word = (value: unknown) =>
      value instanceof CryptoKey
        ? [
            "CryptoKey",
            value.type,
            value.extractable ? "extractable" : "not extractable",
            ...value.usages,
          ].join(" ")
        : typeof value;
    return Object.fromEntries(names.map((name, at) => [String(name), word(values[at])]));
  });
/** Lays the secrets down as earlier versions did. */
const keepOpen = (device: Uint8Array, beside: Uint8Array) =>
  keyRows(async (rows) => {
    rows.put(device, "device");
    await wish(rows.put(beside, "beside"));
  });
const forgetKeys = () => keyRows(async (rows) => void (await wish(rows.clear())));
/** As if the wait after wrong PINs were over. */
const waited = () =>
  keyRows(async (rows) => {
    const kept = (await wish(rows.get("kept"))) as { lock: { last: number } };
    kept.lock.last = 0;
    await wish(rows.put(kept, "kept"));
  });
async function folders(): Promise<string[]> {
  const all: string[] = [];
  for await (const name of (await navigator.storage.getDirectory()).keys()) all.push(name);
  return all;
}

/** Lays a database down as the pool of SQLite's files keeps one, in the open. */
async function layPool(folder: string, name: string, bytes: Uint8Array): Promise<void> {
  const root = await navigator.storage.getDirectory();
  const pool = await (
    await root.getDirectoryHandle(folder, { create: true })
  ).getDirectoryHandle(".opaque", { create: true });
  const file = new Uint8Array(4096 + bytes.length);
  file.set(new TextEncoder().encode(name));
  new DataView(file.buffer).setUint32(512, 0x106); // a main database, to be read and written
  file.set(bytes, 4096);
  const stream = await (await pool.getFileHandle("A".repeat(32), { create: true })).createWritable();
  await stream.write(file);
  await stream.close();
}

Object.assign(globalThis, {
  layPool,
  open,
  until,
  settled,
  stored,
  keepOpen,
  forgetKeys,
  waited,
  folders,
  roomNow,
  askToKeep,
});
