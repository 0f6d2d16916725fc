// The generated API as `serve.ts` hosts it. The one place of the web layer that names it; grows with it.

import {
  Book,
  calculate,
  coreVersion,
  formulas,
  newKey,
  prepareStorage,
  readAmount,
  type BookLike,
} from "../generated/farsiding_bindings.ts";
import { uniffiInitAsync } from "../generated/index.ts";
import type { Hosted } from "./serve.ts";

/** What the page hands over to open a book. */
export interface BookSettings {
  /** Name of the book. */
  book: string;
  /** The device's 32-byte Ed25519 secret. */
  key: Uint8Array;
  /** The random 32 bytes kept beside the key: people's PINs are worth nothing without them. */
  beside?: Uint8Array;
}

/** Calls that need no book. */
const withoutBook = { calculate, coreVersion, formulas, newKey, readAmount };

/** Everything the page may call. */
export type BookApi = BookLike & typeof withoutBook;

/** Loads the module that lies beside the worker, and opens the book. */
export const books: Hosted<BookApi> = {
  load: () => uniffiInitAsync(new URL("./farsiding_bindings.wasm", import.meta.url)),
  async open({ folder, settings }) {
    const { book, key, beside } = settings as BookSettings;
    await prepareStorage(folder);
    const opened = Book.open(folder, book, key);
    if (beside) opened.keepBeside(beside);
    return Object.assign(opened, withoutBook);
  },
};
