// The folder of the books, sealed. The pool of SQLite's files asks the browser for its handles; in this
// worker it gets sealed ones. Records that lay open before are taken over once: copied, read back, and only
// then removed. A browser that ends anywhere in between loses nothing, since the open folder is the truth
// until a mark says otherwise.

import { Failure, workerFailure } from "./failure.ts";
import { SealedFile, type SyncHandle } from "./sealed-file.ts";

type Handles = FileSystemFileHandle & { createSyncAccessHandle(): Promise<SyncHandle> };

/** In the sealed folder: it is whole. Holds the names of the files it was made from, one a line. */
const WHOLE = ".whole";
/** Where the pool keeps its files. */
const POOL = ".opaque";
const PIECE = 256 * 4096;

let plainHandle: ((this: FileSystemFileHandle) => Promise<SyncHandle>) | undefined;
let key: Uint8Array | undefined;

/** From now on every file that this worker opens is a sealed one. */
function sealAllFrom(now: Uint8Array): void {
  const kind = FileSystemFileHandle.prototype as Handles;
  key = now;
  if (plainHandle) return;
  // eslint-disable-next-line @typescript-eslint/unbound-method -- it is called on the handle it is asked of
  const plain = (plainHandle = kind.createSyncAccessHandle);
  kind.createSyncAccessHandle = async function (this: FileSystemFileHandle) {
    const raw = await plain.call(this);
    try {
      return key ? new SealedFile(raw, key, this.name) : raw;
    } catch (error) {
      raw.close();
      throw error;
    }
  };
}
const raw = (file: FileSystemFileHandle) =>
  (plainHandle ?? (file as Handles).createSyncAccessHandle).call(file);

const missing = (error: unknown) => error instanceof DOMException && error.name === "NotFoundError";
async function maybe<T>(found: Promise<T>): Promise<T | null> {
  try {
    return await found;
  } catch (error) {
    if (missing(error)) return null;
    throw error;
  }
}
async function filesOf(folder: FileSystemDirectoryHandle): Promise<FileSystemFileHandle[]> {
  const all: FileSystemFileHandle[] = [];
  for await (const entry of folder.values())
    if (entry.kind === "file") all.push(entry as FileSystemFileHandle);
  return all;
}

/** What of the sealed folder a shell has to know. */
export interface SealedFolder {
  folder: string;
  /** Sealed folders under other keys. */ aside: number;
}

/**
 * Makes the sealed twin of `folder` ready and from then on seals every file this worker opens. Nothing where
 * the open one cannot be taken over for now (no room): it then stays in use as it is.
 */
export async function sealFolder(
  folder: string,
  id: string,
  records: Uint8Array,
): Promise<SealedFolder | { why: string }> {
  const root = await navigator.storage.getDirectory(),
    sealed = `${folder}-${id}`;
  const into = await root.getDirectoryHandle(sealed, { create: true });
  try {
    const mark = await maybe(into.getFileHandle(WHOLE));
    if (mark) await removeTaken(root, folder, (await (await mark.getFile()).text()).split("\n"));
    else await takeOver(root, folder, sealed, into, records);
  } catch (error) {
    const why = String(error);
    if (why.includes("NoModificationAllowedError")) throw new Failure(workerFailure("OpenElsewhere", why));
    if (await maybe(into.getFileHandle(WHOLE))) throw error;
    await root.removeEntry(sealed, { recursive: true }).catch(() => undefined);
    return { why };
  }
  sealAllFrom(records);
  let aside = 0;
  for await (const name of root.keys()) if (name.startsWith(`${folder}-`) && name !== sealed) aside++;
  return { folder: sealed, aside };
}

async function takeOver(
  root: FileSystemDirectoryHandle,
  folder: string,
  sealed: string,
  into: FileSystemDirectoryHandle,
  records: Uint8Array,
): Promise<void> {
  // A try before may have ended half way.
  if (await maybe(into.getDirectoryHandle(POOL))) await into.removeEntry(POOL, { recursive: true });
  const pool = await into.getDirectoryHandle(POOL, { create: true });
  const open = await maybe(root.getDirectoryHandle(folder)),
    old = open && (await maybe(open.getDirectoryHandle(POOL)));
  const taken: string[] = [];
  for (const file of old ? await filesOf(old) : []) {
    const from = await raw(file);
    try {
      // A file of the pool without a name in its first bytes holds nothing.
      const name = new Uint8Array(1);
      if (from.read(name, { at: 0 }) === 1 && name[0] !== 0)
        await copy(from, await pool.getFileHandle(file.name, { create: true }), records);
      taken.push(file.name);
    } finally {
      from.close();
    }
  }
  const mark = await raw(await into.getFileHandle(`${WHOLE}.new`, { create: true }));
  try {
    mark.truncate(0);
    mark.write(new TextEncoder().encode(taken.join("\n")));
    mark.flush();
  } finally {
    mark.close();
  }
  // From here on the sealed folder is the truth.
  await rename(into, `${WHOLE}.new`, WHOLE);
  await removeTaken(root, folder, taken);
}

/** Makes `from` again under the name `to`, which appears whole or not at all. */
async function rename(folder: FileSystemDirectoryHandle, from: string, to: string): Promise<void> {
  const file = (await folder.getFileHandle(from)) as FileSystemFileHandle & {
    move?(name: string): Promise<void>;
  };
  if (file.move) return file.move(to);
  const text = new Uint8Array(await (await file.getFile()).arrayBuffer());
  const made = await raw(await folder.getFileHandle(to, { create: true }));
  try {
    made.write(text);
    made.flush();
  } finally {
    made.close();
  }
}

async function copy(from: SyncHandle, to: FileSystemFileHandle, records: Uint8Array): Promise<void> {
  const size = from.getSize(),
    piece = new Uint8Array(PIECE),
    again = new Uint8Array(PIECE);
  const part = (at: number) => Math.min(PIECE, size - at);
  const made = new SealedFile(await raw(to), records, to.name);
  try {
    for (let at = 0; at < size; at += PIECE) {
      if (from.read(piece.subarray(0, part(at)), { at }) !== part(at))
        throw new Error("a file could not be read");
      made.write(piece.subarray(0, part(at)), { at });
    }
    made.flush();
  } finally {
    made.close();
  }
  const back = new SealedFile(await raw(to), records, to.name);
  try {
    if (back.getSize() !== size) throw new Error("the sealed copy has another length");
    for (let at = 0; at < size; at += PIECE) {
      from.read(piece.subarray(0, part(at)), { at });
      back.read(again.subarray(0, part(at)), { at });
      for (let n = 0; n < part(at); n++)
        if (piece[n] !== again[n]) throw new Error("the sealed copy reads otherwise");
    }
  } finally {
    back.close();
  }
}

/** Removes the open files that were taken over, and their folder when nothing else is in it. */
async function removeTaken(root: FileSystemDirectoryHandle, folder: string, taken: string[]): Promise<void> {
  const open = await maybe(root.getDirectoryHandle(folder)),
    pool = open && (await maybe(open.getDirectoryHandle(POOL)));
  if (!open || !pool) return;
  for (const name of taken) if (name) await maybe(pool.removeEntry(name));
  if ((await filesOf(pool)).length > 0) return;
  await root.removeEntry(folder, { recursive: true }).catch(() => undefined);
}
