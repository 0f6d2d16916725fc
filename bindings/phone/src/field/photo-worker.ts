/// <reference lib="webworker" />
/**
 * Keeps photographs: hashes the bytes, writes and flushes them into a folder of their own beside the books,
 * sealed where there is a key, and makes a small picture to look at. In a worker, because only there a file
 * can be flushed to the disk on every browser.
 */
import type { PhotoKey } from "../core/calls";
import { withoutPlace } from "./photo-place";
import { OPEN, folderOf, sealed, unsealed } from "./photo-seal";

export type ToPhotos =
  | { id: number; bytes: ArrayBuffer; media: string; bare: boolean; under: PhotoKey | null }
  | { id: number; room: true }
  | { id: number; seal: PhotoKey }
  | { id: number; remove: string[] };
export type FromPhotos =
  | { id: number; sha256: string; length: number }
  | { id: number; failed: string; full: boolean }
  | { id: number; room: number }
  | { id: number; sealed: number }
  | { id: number; removed: true };

const folder = async (name: string) =>
  (await navigator.storage.getDirectory()).getDirectoryHandle(name, { create: true });

async function write(name: string, plain: Uint8Array, under: PhotoKey | null): Promise<void> {
  const all = await folder(folderOf(under)),
    bytes = under ? await sealed(under, name, plain as BufferSource) : plain;
  const file = await all.getFileHandle(name, { create: true });
  const handle = await file.createSyncAccessHandle();
  let whole = false;
  try {
    if (handle.getSize() !== bytes.length) handle.truncate(0);
    for (let at = 0; at < bytes.length;) {
      const wrote = handle.write(bytes.subarray(at), { at });
      if (wrote <= 0) throw new Error("the disk took nothing");
      at += wrote;
    }
    handle.flush();
    whole = true;
  } finally {
    handle.close();
    if (!whole) await all.removeEntry(name); // a piece is no photograph, and takes room the records need
  }
}

/** Seals what lies open: an open file goes only when its sealed twin was read back. Returns how many went. */
async function sealAll(under: PhotoKey): Promise<number> {
  const open = await folder(OPEN),
    into = await folder(folderOf(under));
  const names: string[] = [];
  for await (const name of open.keys()) names.push(name);
  let done = 0;
  for (const name of names) {
    const bytes = new Uint8Array(await (await (await open.getFileHandle(name)).getFile()).arrayBuffer());
    await write(name, bytes, under);
    const back = await unsealed(
      under,
      name,
      await (await (await into.getFileHandle(name)).getFile()).arrayBuffer(),
    );
    const again = back && new Uint8Array(await back.arrayBuffer());
    if (!again || again.length !== bytes.length || !again.every((byte, at) => byte === bytes[at]))
      throw new Error(`${name} did not read back`);
    await open.removeEntry(name);
    done++;
  }
  return done;
}

/** Removes photographs and their small pictures, sealed or open. What is not there is no trouble. */
async function removeAll(digests: string[]): Promise<void> {
  const root = await navigator.storage.getDirectory();
  const folders: string[] = [];
  for await (const name of root.keys()) if (name.startsWith(OPEN)) folders.push(name);
  for (const name of folders) {
    const kept = await root.getDirectoryHandle(name);
    for (const digest of digests)
      for (const file of [digest, `${digest}.small`]) await kept.removeEntry(file).catch(() => {});
  }
}

async function small(bytes: Uint8Array, media: string): Promise<Blob | null> {
  try {
    const whole = await createImageBitmap(new Blob([bytes as BlobPart], { type: media }));
    const k = Math.min(1, 320 / Math.max(whole.width, whole.height));
    const canvas = new OffscreenCanvas(
      Math.max(1, Math.round(whole.width * k)),
      Math.max(1, Math.round(whole.height * k)),
    );
    canvas.getContext("2d")?.drawImage(whole, 0, 0, canvas.width, canvas.height);
    whole.close();
    return await canvas.convertToBlob({ type: "image/jpeg", quality: 0.7 });
  } catch {
    return null; // a kind of picture this browser cannot draw is kept all the same
  }
}

/**
 * A number of bytes that would still fit: the largest power of two up to a gigabyte. Asked by making an empty
 * file so long, because browsers answer a plain question with a figure that says nothing of the disk; undone
 * in the same breath, so that it is in nobody's way.
 */
async function fitting(): Promise<number> {
  const handle = await (
    await (await navigator.storage.getDirectory()).getFileHandle("room", { create: true })
  ).createSyncAccessHandle();
  try {
    for (let size = 2 ** 30; size >= 2 ** 20; size /= 2) {
      try {
        handle.truncate(size);
        return size;
      } catch {
        // Half of it, then.
      } finally {
        handle.truncate(0);
      }
    }
    return 0;
  } finally {
    handle.close();
  }
}

self.onmessage = async ({ data }: MessageEvent<ToPhotos>) => {
  const { id } = data;
  if ("room" in data)
    return self.postMessage({ id, room: await fitting().catch(() => -1) } satisfies FromPhotos);
  // Without room for the twins, or ended in between: what is left goes another time.
  if ("seal" in data)
    return self.postMessage({ id, sealed: await sealAll(data.seal).catch(() => 0) } satisfies FromPhotos);
  if ("remove" in data) {
    await removeAll(data.remove).catch(() => {});
    return self.postMessage({ id, removed: true } satisfies FromPhotos);
  }
  const { media, under } = data;
  try {
    const plain = new Uint8Array(data.bytes),
      bytes = data.bare ? withoutPlace(plain) : plain;
    const hash = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes as BufferSource));
    const sha256 = [...hash].map((b) => b.toString(16).padStart(2, "0")).join("");
    await write(sha256, bytes, under);
    const thumb = await small(bytes, media);
    // Without room for the small picture the whole one is shown in its place.
    if (thumb)
      await write(`${sha256}.small`, new Uint8Array(await thumb.arrayBuffer()), under).catch(() => {});
    self.postMessage({ id, sha256, length: bytes.byteLength } satisfies FromPhotos);
  } catch (error) {
    const full = error instanceof DOMException && error.name === "QuotaExceededError";
    self.postMessage({ id, failed: String(error), full } satisfies FromPhotos);
  }
};
