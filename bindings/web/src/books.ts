// The generated API as `serve.ts` hosts it. The one place of the web layer that names it; grows with it.

import {
  Book,
  calculate,
  coreVersion,
  formulas,
  newKey,
  pinMayBeChosen,
  pinStorageKey,
  prepareStorage,
  readAmount,
  type BookLike,
} from "../generated/farsiding_bindings.ts";
import { uniffiInitAsync } from "../generated/index.ts";
import { openKeys, setPin, type Keys, type KeyStanding } from "./keys.ts";
import { sealFolder } from "./sealed-folder.ts";
import type { Hosted } from "./serve.ts";

/** What the page hands over to open a book. */
export interface BookSettings {
  /** Name of the book. */
  book: string;
  /** Six digits, where this phone opens with a PIN. */
  pin?: string;
  /** A device's 32-byte Ed25519 secret of the caller's own: the book then lies open in the folder. */
  key?: Uint8Array;
}

const bytes = (given: ArrayBuffer | Uint8Array) => new Uint8Array(given);
const stretch = (pin: string, beside: Uint8Array, salt: Uint8Array) =>
  bytes(pinStorageKey(pin, beside, salt));

/** Calls that need no book. */
const withoutBook = { calculate, coreVersion, formulas, newKey, readAmount };

/**
 * What protects this phone, and the key for its photographs, which no page can read but every worker can use.
 */
const protecting = (standing: KeyStanding, sealing: Keys["sealing"]) => ({
  protection: (): KeyStanding => standing,
  /** Puts this phone under a PIN (`fresh`), another one, or none. */
  async setPhonePin(old: string | undefined, fresh: string | undefined): Promise<void> {
    if (fresh !== undefined) pinMayBeChosen(fresh);
    await setPin(old, fresh, stretch);
    standing.lock = fresh !== undefined;
  },
  photoKey: () => (sealing ? { id: sealing.id, key: sealing.photos } : null),
});

/** Everything the page may call. */
export type BookApi = BookLike & typeof withoutBook & ReturnType<typeof protecting>;

/** Loads the module that lies beside the worker, and opens the book. */
export const books: Hosted<BookApi> = {
  load: () => uniffiInitAsync(new URL("./farsiding_bindings.wasm", import.meta.url)),
  async open({ folder, settings }) {
    const { book, pin, key } = settings as BookSettings;
    if (key) {
      await prepareStorage(folder);
      const standing: KeyStanding = {
        key: "open",
        records: "open",
        lock: false,
        why: "the caller keeps the key",
        aside: 0,
      };
      return Object.assign(Book.open(folder, book, key), withoutBook, protecting(standing, null));
    }
    const keys = await openKeys(pin, stretch),
      { sealing } = keys;
    const made = sealing ? await sealFolder(folder, sealing.id, sealing.records) : { why: keys.why };
    const sealed = "folder" in made;
    const standing: KeyStanding = {
      key: sealing ? "wrapped" : "open",
      records: sealed ? "sealed" : "open",
      lock: keys.lock,
      why: sealed ? keys.why : made.why,
      aside: sealed ? made.aside : 0,
    };
    const place = sealed ? made.folder : folder;
    await prepareStorage(place);
    const opened = Book.open(place, book, keys.device);
    opened.keepBeside(keys.beside);
    return Object.assign(opened, withoutBook, protecting(standing, sealing));
  },
};
