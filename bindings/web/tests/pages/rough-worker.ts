// A worker of the tests: the real books, with ways to break that a right program does not have.

import { books } from "../../src/books.ts";
import { serve } from "../../src/serve.ts";

// The smallest module whose only function traps, as a Rust panic does.
const TRAP = Uint8Array.of(
  0,
  97,
  115,
  109,
  1,
  0,
  0,
  0,
  1,
  4,
  1,
  96,
  0,
  0,
  3,
  2,
  1,
  0,
  7,
  5,
  1,
  1,
  116,
  0,
  0,
  10,
  5,
  1,
  3,
  0,
  0,
  11,
);

const rough = {
  /** Ends in a WebAssembly.RuntimeError. */
  async trap(): Promise<never> {
    const { instance } = await WebAssembly.instantiate(TRAP);
    (instance.exports.t as () => void)();
    throw new Error("the trap did not trap");
  },
  /** Never answers. */
  hang: () => new Promise<never>(() => undefined),
};

// Browsers that keep nothing in a private window refuse the directory.
if (location.search === "?private") {
  StorageManager.prototype.getDirectory = () =>
    Promise.reject(new DOMException("Security error when calling GetDirectory", "SecurityError"));
}
if (location.search === "?old") {
  Reflect.deleteProperty(FileSystemFileHandle.prototype, "createSyncAccessHandle");
}

if (location.search === "?plain") {
  Reflect.deleteProperty(SubtleCrypto.prototype, "generateKey");
}

// `cut=n`: from the n-th change of any file on, nothing reaches the disk. `tear=n`: the same for what the
// book writes after it was opened, and the n-th write is half done.
const [, how, number] = /^\?(cut|tear)=(\d+)$/.exec(location.search) ?? [];
let left = how === "cut" ? Number(number) : Infinity;
interface Writes {
  write(bytes: Uint8Array, options?: { at?: number }): number;
  truncate(size: number): void;
}
declare const FileSystemSyncAccessHandle: { prototype: Writes };
function mayGo(torn: () => void): void {
  if (left <= 0) throw new DOMException("the power is off", "InvalidStateError");
  if (--left > 0) return;
  torn();
  throw new DOMException("the power went", "InvalidStateError");
}
if (how) {
  const files = FileSystemSyncAccessHandle.prototype,
    { write, truncate } = files;
  files.write = function (bytes, options) {
    mayGo(() => {
      if (how === "tear") write.call(this, bytes.subarray(0, bytes.length >> 1), options);
    });
    return write.call(this, bytes, options);
  };
  files.truncate = function (size) {
    mayGo(() => undefined);
    return truncate.call(this, size);
  };
  const folders = FileSystemDirectoryHandle.prototype,
    { removeEntry } = folders;
  folders.removeEntry = async function (name, options) {
    mayGo(() => undefined);
    return removeEntry.call(this, name, options);
  };
  const rows = IDBObjectStore.prototype,
    erase = rows.delete;
  rows.delete = function (query) {
    mayGo(() => undefined);
    return erase.call(this, query);
  };
}

serve({
  load: books.load,
  async open(options) {
    if (location.search === "?hopeless") await rough.trap();
    const opened = Object.assign(await books.open(options), rough);
    if (how === "tear") left = Number(number);
    return opened;
  },
});
