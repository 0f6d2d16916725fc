/**
 * The secrets of this phone: the device's signing key and, beside it, the random bytes without which nobody's
 * PIN is worth anything. 32 random bytes each, made once, kept in this origin's database, never overwritten.
 * Losing the key loses no record; the phone is then enrolled anew. Losing what lies beside it means that
 * people make new PINs. Called once at the start.
 */
const wish = <T>(request: IDBRequest<T>) => new Promise<T>((resolve, reject) => {
  request.onsuccess = () => resolve(request.result);
  request.onerror = () => reject(request.error);
});

export interface Secrets { key: Uint8Array; beside: Uint8Array }

export async function secrets(): Promise<Secrets> {
  const opening = indexedDB.open("farsiding", 1);
  opening.onupgradeneeded = () => opening.result.createObjectStore("key");
  const base = await wish(opening);
  try {
    return { key: await secret(base, "device"), beside: await secret(base, "beside") };
  } finally {
    base.close();
  }
}

async function secret(base: IDBDatabase, name: string): Promise<Uint8Array> {
  try {
    const store = base.transaction("key", "readwrite", { durability: "strict" }).objectStore("key");
    const kept = (await wish(store.get(name))) as Uint8Array | undefined;
    if (kept) return kept;
    const fresh = crypto.getRandomValues(new Uint8Array(32));
    await wish(store.add(fresh, name)); // add, not put: a second tab that was quicker wins
    return fresh;
  } catch {
    const kept = (await wish(base.transaction("key").objectStore("key").get(name))) as Uint8Array | undefined;
    if (kept) return kept;
    throw new Error("the phone's secrets could not be kept");
  }
}
