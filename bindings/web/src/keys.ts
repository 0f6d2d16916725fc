// The secrets of this phone, and what keeps them. In the origin's database lies a wrapping key that the
// browser hands to no script (WebCrypto, not extractable). Under it lies a random data key; from that come
// the keys for the records, for the photographs and for the device's own secrets, so that none of them lies
// readable beside the records. Where a PIN opens the phone, the data key lies under the PIN as well. Read and
// made in the worker; no page sees them. Where the browser cannot do this, the secrets lie as they are, and
// `standing` says so.

import { Failure, workerFailure } from "./failure.ts";

/** What is in force, for the screen that says so. */
export interface KeyStanding {
  /**
   * `wrapped`: under a key the browser hands to no page. `open`: readable by whoever copies this phone's
   * files.
   */
  key: "wrapped" | "open";
  /** Whether the records on the disk are sealed. */
  records: "sealed" | "open";
  /** A PIN is asked for before anything is opened. */
  lock: boolean;
  /** Why something is open, for the log. */
  why: string;
  /** Folders of records whose key is gone; they are left where they are. */
  aside: number;
}

export interface Keys {
  /** The device's 32-byte Ed25519 secret. */
  device: Uint8Array;
  /** The random 32 bytes without which nobody's PIN is worth anything. */
  beside: Uint8Array;
  /** Names what is sealed under these keys; nothing where nothing is. */
  sealing: { id: string; records: Uint8Array; photos: CryptoKey } | null;
  lock: boolean;
  why: string;
}

/** A secret under a key of the platform (AES-GCM). */
interface Box {
  iv: Uint8Array;
  bytes: Uint8Array;
}
interface Lock {
  salt: Uint8Array;
  beside: Uint8Array;
  wrong: number;
  last: number;
}
interface Kept {
  form: 1;
  id: string;
  data: Box;
  secrets: Box;
  lock?: Lock;
}

/** The slow way from six digits to 32 bytes; the module's. */
export type Stretch = (pin: string, beside: Uint8Array, salt: Uint8Array) => Uint8Array;

const wish = <T>(request: IDBRequest<T>) =>
  new Promise<T>((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error ?? new Error("the browser gave no reason"));
  });
const random = (length: number) => crypto.getRandomValues(new Uint8Array(length));
const bytes = (text: string) => new TextEncoder().encode(text);
const hex = (all: Uint8Array) => [...all].map((byte) => byte.toString(16).padStart(2, "0")).join("");
const same = (a: Uint8Array, b: Uint8Array) => a.length === b.length && a.every((byte, at) => byte === b[at]);
const use = (plain: Uint8Array) => plain as Uint8Array<ArrayBuffer>;

async function withBase<T>(act: (base: IDBDatabase) => Promise<T>): Promise<T> {
  const opening = indexedDB.open("farsiding", 1);
  opening.onupgradeneeded = () => opening.result.createObjectStore("key");
  const base = await wish(opening);
  try {
    return await act(base);
  } finally {
    base.close();
  }
}
const read = <T>(base: IDBDatabase, name: string) =>
  wish(base.transaction("key").objectStore("key").get(name)) as Promise<T | undefined>;

/** Several rows or none; they are on the disk when this resolves. */
function change(base: IDBDatabase, act: (rows: IDBObjectStore) => void): Promise<void> {
  return new Promise((resolve, reject) => {
    const transaction = base.transaction("key", "readwrite", { durability: "strict" });
    transaction.oncomplete = () => resolve();
    transaction.onabort = transaction.onerror = () =>
      reject(transaction.error ?? new Error("the browser gave no reason"));
    act(transaction.objectStore("key"));
  });
}

async function shut(key: CryptoKey, about: string, plain: Uint8Array): Promise<Box> {
  const iv = random(12);
  return {
    iv,
    bytes: new Uint8Array(
      await crypto.subtle.encrypt({ name: "AES-GCM", iv, additionalData: bytes(about) }, key, use(plain)),
    ),
  };
}
async function open(key: CryptoKey, about: string, box: Box): Promise<Uint8Array> {
  return new Uint8Array(
    await crypto.subtle.decrypt(
      { name: "AES-GCM", iv: use(box.iv), additionalData: bytes(about) },
      key,
      use(box.bytes),
    ),
  );
}
const sealer = (raw: Uint8Array) =>
  crypto.subtle.importKey("raw", use(raw), "AES-GCM", false, ["encrypt", "decrypt"]);

/** The keys that come out of the data key. */
async function derive(data: Uint8Array) {
  const root = await crypto.subtle.importKey("raw", use(data), "HKDF", false, ["deriveBits", "deriveKey"]);
  const from = (info: string) => ({
    name: "HKDF",
    hash: "SHA-256",
    salt: new Uint8Array(0),
    info: bytes(info),
  });
  const aes = (info: string) =>
    crypto.subtle.deriveKey(from(info), root, { name: "AES-GCM", length: 256 }, false, [
      "encrypt",
      "decrypt",
    ]);
  return {
    records: new Uint8Array(await crypto.subtle.deriveBits(from("farsiding records 1"), root, 256)),
    photos: await aes("farsiding photographs 1"),
    secrets: await aes("farsiding secrets 1"),
  };
}

/**
 * Milliseconds to wait before the next try after so many wrong ones. Never for ever: behind the PIN lie
 * records.
 */
const waitAfter = (wrong: number) => (wrong < 5 ? 0 : ([30, 120, 600, 1_800][wrong - 5] ?? 7_200) * 1_000);

/** Opens the secrets of this phone, or makes them; takes over what lay open before. */
export function openKeys(pin: string | undefined, stretch: Stretch): Promise<Keys> {
  return withBase(async (base) => {
    const kept = await read<Kept>(base, "kept");
    if (kept) return unlock(base, kept, pin, stretch);
    try {
      return await make(base);
    } catch (error) {
      return await lieOpen(base, String(error));
    }
  });
}

async function make(base: IDBDatabase): Promise<Keys> {
  const device = (await read<Uint8Array>(base, "device")) ?? random(32);
  const beside = (await read<Uint8Array>(base, "beside")) ?? random(32);
  const wrap = await crypto.subtle.generateKey({ name: "AES-GCM", length: 256 }, false, [
    "encrypt",
    "decrypt",
  ]);
  const data = random(32),
    id = hex(random(8)),
    secrets = new Uint8Array(64);
  secrets.set(device);
  secrets.set(beside, 32);
  const kept: Kept = {
    form: 1,
    id,
    data: await shut(wrap, `data ${id}`, data),
    secrets: await shut((await derive(data)).secrets, `secrets ${id}`, secrets),
  };
  await change(base, (rows) => {
    rows.add(wrap, "wrap");
    rows.add(kept, "kept");
  });
  try {
    const again = await read<Kept>(base, "kept");
    if (!again) throw new Error("the keys were not kept");
    // What lay open goes only once what was made of it was read back.
    return await unlock(base, again, undefined, () => new Uint8Array());
  } catch (error) {
    // Nothing is sealed under them yet, and what lay open is still there.
    await change(base, (rows) => {
      rows.delete("wrap");
      rows.delete("kept");
    });
    throw error;
  }
}

async function unlock(
  base: IDBDatabase,
  kept: Kept,
  pin: string | undefined,
  stretch: Stretch,
): Promise<Keys> {
  const wrap = await read<CryptoKey>(base, "wrap");
  if (!wrap)
    throw new Failure(workerFailure("KeyGone", "the browser no longer has the key of what is kept here"));
  let data = await open(wrap, `data ${kept.id}`, kept.data);
  if (kept.lock) data = await underPin(base, kept, data, pin, stretch);
  const { records, photos, secrets } = await derive(data),
    both = await open(secrets, `secrets ${kept.id}`, kept.secrets);
  const device = both.slice(0, 32),
    beside = both.slice(32, 64);
  const [was, lay] = [await read<Uint8Array>(base, "device"), await read<Uint8Array>(base, "beside")];
  if ((was || lay) && (!was || same(was, device)) && (!lay || same(lay, beside)))
    await change(base, (rows) => {
      rows.delete("device");
      rows.delete("beside");
    });
  return {
    device,
    beside,
    sealing: { id: kept.id, records, photos },
    lock: kept.lock !== undefined,
    why: "",
  };
}

/** Opens what lies under the PIN. A try is counted before it is made. */
async function underPin(
  base: IDBDatabase,
  kept: Kept,
  under: Uint8Array,
  pin: string | undefined,
  stretch: Stretch,
): Promise<Uint8Array> {
  const lock = kept.lock;
  if (!lock) return under;
  const now = Date.now(),
    until = Math.min(lock.last, now) + waitAfter(lock.wrong);
  if (until > now) throw new Failure(workerFailure("PinWaits", "too many wrong tries", { until }));
  if (pin === undefined) throw new Failure(workerFailure("PinNeeded", "this phone opens with a PIN"));
  const counted = (wrong: number) =>
    change(base, (rows) => {
      rows.put({ ...kept, lock: { ...lock, wrong, last: now } } satisfies Kept, "kept");
    });
  await counted(lock.wrong + 1);
  try {
    const data = await open(await sealer(stretch(pin, lock.beside, lock.salt)), `pin ${kept.id}`, {
      iv: under.slice(0, 12),
      bytes: under.slice(12),
    });
    await counted(0);
    return data;
  } catch (error) {
    if (!(error instanceof DOMException)) throw error;
    throw new Failure(workerFailure("WrongPin", "wrong PIN", { until: now + waitAfter(lock.wrong + 1) }));
  }
}

/** Puts the phone under another PIN, or under none. Where there is one already it is asked for. */
export function setPin(old: string | undefined, fresh: string | undefined, stretch: Stretch): Promise<void> {
  return withBase(async (base) => {
    const kept = await read<Kept>(base, "kept"),
      wrap = await read<CryptoKey>(base, "wrap");
    if (!kept || !wrap) throw new Failure(workerFailure("NoStorage", "this browser keeps no key to lock"));
    let data = await open(wrap, `data ${kept.id}`, kept.data);
    if (kept.lock) data = await underPin(base, kept, data, old, stretch);
    const next: Kept = { form: 1, id: kept.id, secrets: kept.secrets, data: kept.data };
    if (fresh === undefined) next.data = await shut(wrap, `data ${kept.id}`, data);
    else {
      const lock: Lock = { salt: random(16), beside: random(32), wrong: 0, last: 0 };
      const box = await shut(await sealer(stretch(fresh, lock.beside, lock.salt)), `pin ${kept.id}`, data);
      const under = new Uint8Array(12 + box.bytes.length);
      under.set(box.iv);
      under.set(box.bytes, 12);
      next.data = await shut(wrap, `data ${kept.id}`, under);
      next.lock = lock;
    }
    await change(base, (rows) => {
      rows.put(next, "kept");
    });
  });
}

/** As it was before: 32 random bytes each, made once, never overwritten. */
async function lieOpen(base: IDBDatabase, why: string): Promise<Keys> {
  const lying = async (name: string) => {
    const fresh = random(32);
    await change(base, (rows) => {
      rows.add(fresh, name);
    }).catch(() => undefined); // one that was there stays
    const kept = await read<Uint8Array>(base, name);
    if (!kept) throw new Failure(workerFailure("NoStorage", "the phone's secrets could not be kept"));
    return kept;
  };
  return { device: await lying("device"), beside: await lying("beside"), sealing: null, lock: false, why };
}
