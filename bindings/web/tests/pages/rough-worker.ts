// A worker of the tests: the real books, with ways to break that a right program does not have.

import { books } from "../../src/books.ts";
import { serve } from "../../src/serve.ts";

// The smallest module whose only function traps, as a Rust panic does.
const TRAP = Uint8Array.of(
  0, 97, 115, 109, 1, 0, 0, 0, 1, 4, 1, 96, 0, 0, 3, 2, 1, 0, 7, 5, 1, 1, 116, 0, 0, 10, 5, 1, 3, 0, 0, 11,
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

serve({
  load: books.load,
  async open(options) {
    if (location.search === "?hopeless") await rough.trap();
    return Object.assign(await books.open(options), rough);
  },
});
