// What the browser promises about the storage, asked and told honestly: `roomFor` and `askToKeep` on the
// page, `whyNoStorage` in the worker. Nothing here ever deletes anything.

import { workerFailure, type FailureData } from "./failure.ts";
import type { SyncHandle } from "./sealed-file.ts";

/** How well the records are kept, and how much more fits. */
export interface Room {
  /** The browser has promised not to clear the storage by itself. */
  kept: boolean;
  /** Bytes used by this origin. */
  used: number;
  /** Bytes this origin may use in all, as the browser estimates it. */
  quota: number;
}

/** What the browser says now. */
export async function roomNow(): Promise<Room> {
  const [kept, { usage = 0, quota = 0 }] = await Promise.all([
    navigator.storage.persisted(),
    navigator.storage.estimate(),
  ]);
  return { kept, used: usage, quota };
}

/**
 * Asks the browser to keep the records until the person removes them. Browsers grant it to installed or
 * often used sites, some after a question, so ask again after installing. Returns whether it is granted.
 */
export async function askToKeep(): Promise<boolean> {
  return (await navigator.storage.persisted()) || (await navigator.storage.persist());
}

/**
 * In the worker: why this place cannot keep records, or nothing when it can. Writes, flushes and reads back a
 * small file beside the books, because a private window may offer the interface and refuse the file.
 */
export async function whyNoStorage(): Promise<FailureData | undefined> {
  const no = (why: string) => workerFailure("NoStorage", why);
  if (!isSecureContext) return no("not a secure context: serve the page over https");
  if (!navigator.locks) return no("the browser has no Web Locks");
  if (!navigator.storage?.getDirectory) return no("the browser has no private file system");
  if (!("createSyncAccessHandle" in FileSystemFileHandle.prototype)) return no("no synchronous file access");
  try {
    const root = await navigator.storage.getDirectory();
    // One name per worker: a second tab may be trying at the same time.
    const name = `.try-${crypto.randomUUID()}`;
    const file = (await root.getFileHandle(name, { create: true })) as SyncFileHandle;
    try {
      const handle = await file.createSyncAccessHandle();
      try {
        handle.write(Uint8Array.of(1, 2, 3));
        handle.flush();
        const back = new Uint8Array(4);
        if (handle.read(back, { at: 0 }) !== 3 || back[2] !== 3)
          return no("a file did not read back as written");
      } finally {
        handle.close();
      }
    } finally {
      await root.removeEntry(name);
    }
  } catch (error) {
    return no(error instanceof Error ? `${error.name}: ${error.message}` : String(error));
  }
  return undefined;
}

interface SyncFileHandle extends FileSystemFileHandle {
  createSyncAccessHandle(): Promise<SyncHandle>;
}
