/**
 * The device's signing key: 32 random bytes, made once, kept in this origin's database and never overwritten. Losing it loses no
 * record; the phone is then enrolled anew. Called once at the start.
 */
const wish = <T>(request: IDBRequest<T>) => new Promise<T>((resolve, reject) => { request.onsuccess = () => resolve(request.result); request.onerror = () => reject(request.error); });

export async function deviceKey(): Promise<Uint8Array> {
  const opening = indexedDB.open("farsiding", 1);
  opening.onupgradeneeded = () => opening.result.createObjectStore("key");
  const base = await wish(opening);
  try {
    const store = base.transaction("key", "readwrite", { durability: "strict" }).objectStore("key");
    const kept = (await wish(store.get("device"))) as Uint8Array | undefined;
    if (kept) return kept;
    const fresh = crypto.getRandomValues(new Uint8Array(32));
    await wish(store.add(fresh, "device")); // add, not put: a second tab that was quicker wins
    return fresh;
  } catch {
    const kept = (await wish(base.transaction("key").objectStore("key").get("device"))) as Uint8Array | undefined;
    if (kept) return kept;
    throw new Error("the device's key could not be kept");
  } finally {
    base.close();
  }
}
