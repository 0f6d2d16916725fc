/**
 * A photograph as it lies on the disk: sealed whole (AES-GCM) under a key no page can read, bound to its own
 * name. The first byte says the form. Used where photographs are kept and where they are read; decides
 * nothing.
 */
import type { PhotoKey } from "../core/calls";

/** The folder of photographs that lie open, and the one of those under a key. */
export const OPEN = "photos";
export const folderOf = (under: PhotoKey | null): string => (under ? `${OPEN}-${under.id}` : OPEN);

const FORM = 1,
  IV = 12;
const how = (name: string, iv: Uint8Array) => ({
  name: "AES-GCM",
  iv: iv as BufferSource,
  additionalData: new TextEncoder().encode(`photograph ${name}`) as BufferSource,
});

export async function sealed(under: PhotoKey, name: string, bytes: BufferSource): Promise<Uint8Array> {
  const iv = crypto.getRandomValues(new Uint8Array(IV)),
    shut = new Uint8Array(await crypto.subtle.encrypt(how(name, iv), under.key, bytes));
  const whole = new Uint8Array(1 + IV + shut.length);
  whole[0] = FORM;
  whole.set(iv, 1);
  whole.set(shut, 1 + IV);
  return whole;
}

/** What is in it; nothing when it is only a piece, another form, or under another key. */
export async function unsealed(under: PhotoKey, name: string, bytes: ArrayBuffer): Promise<Blob | null> {
  const whole = new Uint8Array(bytes);
  if (whole[0] !== FORM) return null;
  try {
    return new Blob([
      await crypto.subtle.decrypt(how(name, whole.slice(1, 1 + IV)), under.key, whole.subarray(1 + IV)),
    ]);
  } catch {
    return null;
  }
}
