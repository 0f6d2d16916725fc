/// <reference lib="webworker" />
/**
 * Keeps photographs: hashes the exact bytes, writes and flushes them into a folder of their own beside the books, and makes a small
 * picture to look at. In a worker, because only there a file can be flushed to the disk on every browser.
 */
export type ToPhotos = { id: number; bytes: ArrayBuffer; media: string } | { id: number; room: true };
export type FromPhotos = { id: number; sha256: string; length: number } | { id: number; failed: string; full: boolean } | { id: number; room: number };

const folder = async () => (await navigator.storage.getDirectory()).getDirectoryHandle("photos", { create: true });

async function write(name: string, bytes: Uint8Array): Promise<void> {
  const all = await folder();
  const file = await all.getFileHandle(name, { create: true });
  const handle = await file.createSyncAccessHandle();
  let whole = false;
  try {
    if (handle.getSize() !== bytes.length) handle.truncate(0);
    for (let at = 0; at < bytes.length; ) {
      const wrote = handle.write(bytes.subarray(at) as BufferSource, { at });
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

async function small(bytes: ArrayBuffer, media: string): Promise<Blob | null> {
  try {
    const whole = await createImageBitmap(new Blob([bytes], { type: media }));
    const k = Math.min(1, 320 / Math.max(whole.width, whole.height));
    const canvas = new OffscreenCanvas(Math.max(1, Math.round(whole.width * k)), Math.max(1, Math.round(whole.height * k)));
    canvas.getContext("2d")?.drawImage(whole, 0, 0, canvas.width, canvas.height);
    whole.close();
    return await canvas.convertToBlob({ type: "image/jpeg", quality: 0.7 });
  } catch {
    return null; // a kind of picture this browser cannot draw is kept all the same
  }
}

/**
 * A number of bytes that would still fit: the largest power of two up to a gigabyte. Asked by making an empty file so long, because
 * browsers answer a plain question with a figure that says nothing of the disk; undone in the same breath, so that it is in nobody's way.
 */
async function fitting(): Promise<number> {
  const handle = await (await (await navigator.storage.getDirectory()).getFileHandle("room", { create: true })).createSyncAccessHandle();
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
  if ("room" in data) return self.postMessage({ id, room: await fitting().catch(() => -1) } satisfies FromPhotos);
  const { bytes, media } = data;
  try {
    const hash = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
    const sha256 = [...hash].map((b) => b.toString(16).padStart(2, "0")).join("");
    await write(sha256, new Uint8Array(bytes));
    const thumb = await small(bytes, media);
    // Without room for the small picture the whole one is shown in its place.
    if (thumb) await write(`${sha256}.small`, new Uint8Array(await thumb.arrayBuffer())).catch(() => {});
    self.postMessage({ id, sha256, length: bytes.byteLength } satisfies FromPhotos);
  } catch (error) {
    const full = error instanceof DOMException && error.name === "QuotaExceededError";
    self.postMessage({ id, failed: String(error), full } satisfies FromPhotos);
  }
};
