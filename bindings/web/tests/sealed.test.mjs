// The form on the disk of what is sealed, without a browser: it does what a plain file does, gives nothing
// away, notices every change, and survives being cut off in the middle of any write.

import assert from "node:assert/strict";
import { test } from "node:test";
import { bundle } from "../bundle.mjs";

await bundle({ "sealed-file": "src/sealed-file.ts" }, "build/test-modules");
const { BLOCK, NotSealedHere, SealedFile } = await import("../build/test-modules/sealed-file.js");

const KEY = new Uint8Array(32).fill(5);

/** A disk in memory. After `left` more writes and cuts it is gone, the last of them half done. */
class Disk {
  constructor(bytes = new Uint8Array(0)) {
    this.bytes = bytes;
  }
  left = Infinity;
  #alive(torn) {
    if (this.left <= 0) throw new Error("the power is off");
    if (--this.left === 0) {
      torn();
      throw new Error("the power went");
    }
  }
  #grow(size) {
    const was = this.bytes;
    this.bytes = new Uint8Array(size);
    this.bytes.set(was.subarray(0, size));
  }
  #put(bytes, at) {
    if (at + bytes.length > this.bytes.length) this.#grow(at + bytes.length);
    this.bytes.set(bytes, at);
  }
  getSize() {
    return this.bytes.length;
  }
  read(into, { at = 0 } = {}) {
    const part = this.bytes.subarray(at, at + into.length);
    into.set(part);
    return part.length;
  }
  write(bytes, { at = 0 } = {}) {
    this.#alive(() => this.#put(bytes.subarray(0, bytes.length >> 1), at));
    this.#put(bytes, at);
    return bytes.length;
  }
  truncate(size) {
    this.#alive(() => undefined);
    this.#grow(size);
  }
  flush() {}
  close() {}
}

/** A small generator, so that a failure can be played again. */
const dice = (seed) => () => (seed = (seed * 1103515245 + 12345) & 0x7fffffff) / 0x7fffffff;
const all = (file) => {
  const out = new Uint8Array(file.getSize());
  assert.equal(file.read(out), out.length);
  return out;
};
const sealed = (disk, key = KEY, name = "slot") => new SealedFile(disk, key, name);

test("it does what a plain file does, whatever is asked in whatever order", () => {
  for (let seed = 1; seed <= 20; seed++) {
    const roll = dice(seed);
    const n = (most) => Math.floor(roll() * most);
    const plain = new Disk();
    const disk = new Disk();
    let file = sealed(disk);
    for (let step = 0; step < 120; step++) {
      const at = n(6 * BLOCK);
      const size = n(3) === 0 ? BLOCK : n(2 * BLOCK);
      switch (n(6)) {
        case 0:
        case 1:
        case 2: {
          const bytes = Uint8Array.from({ length: size }, () => n(256));
          const from = plain.getSize() < BLOCK ? 0 : n(3) === 0 ? at - (at % BLOCK) : at;
          const whole =
            from === 0 && plain.getSize() < BLOCK ? Uint8Array.from({ length: BLOCK }, () => n(256)) : bytes;
          plain.write(whole, { at: from });
          assert.equal(file.write(whole, { at: from }), whole.length);
          break;
        }
        case 3: {
          const to = n(4) === 0 ? 0 : BLOCK + n(4 * BLOCK);
          plain.truncate(to);
          file.truncate(to);
          break;
        }
        case 4:
          file.flush();
          break;
        default:
          file.close();
          file = sealed(disk);
      }
      assert.equal(file.getSize(), plain.getSize(), `length, seed ${seed} step ${step}`);
      assert.deepEqual(all(file), all(plain), `seed ${seed} step ${step}`);
      const [one, two] = [new Uint8Array(size), new Uint8Array(size)];
      assert.equal(file.read(one, { at }), plain.read(two, { at }));
      assert.deepEqual(one, two);
    }
  }
});

test("what was written is not readable on the disk, nor opened with another key or another name", () => {
  const disk = new Disk();
  const file = sealed(disk);
  const words = new TextEncoder().encode("emergency number 555-0142 ");
  for (let at = 0; at < 3 * BLOCK; at += words.length) file.write(words, { at });
  file.flush();
  assert.ok(Buffer.from(all(file)).includes(Buffer.from(words)));
  assert.ok(!Buffer.from(disk.bytes).includes("555-0142"));
  assert.throws(() => sealed(disk, new Uint8Array(32).fill(6)), NotSealedHere);
  assert.throws(() => sealed(disk, KEY, "another"), NotSealedHere);
});

test("the same bytes written twice are sealed differently", () => {
  const disk = new Disk();
  const file = sealed(disk);
  file.write(new Uint8Array(3 * BLOCK));
  file.flush();
  const first = disk.bytes.slice();
  file.write(new Uint8Array(BLOCK), { at: BLOCK });
  file.flush();
  assert.notDeepEqual(
    disk.bytes.subarray(first.length - 2 * 4136, first.length - 4136),
    first.subarray(first.length - 2 * 4136, first.length - 4136),
  );
});

test("a block that was altered, or put in another place, does not open", () => {
  const disk = new Disk();
  const file = sealed(disk);
  file.write(Uint8Array.from({ length: 5 * BLOCK }, (_, at) => at >> 12));
  file.flush();
  const whole = disk.bytes.slice();
  const start = whole.length - 4 * 4136;
  const opened = (bytes) => all(sealed(new Disk(bytes)));
  for (let at = start + 4136; at < whole.length; at += 509) {
    const bent = whole.slice();
    bent[at] ^= 1;
    assert.throws(() => opened(bent), NotSealedHere, `byte ${at}`);
  }
  const moved = whole.slice();
  moved.set(whole.subarray(start + 4136, start + 2 * 4136), start + 2 * 4136);
  assert.throws(() => opened(moved), NotSealedHere);
  for (const at of [0, 100, start - 100]) {
    const bent = whole.slice();
    bent[at] ^= 1;
    assert.deepEqual(opened(bent), opened(whole), "the other copy of the first block stands in");
  }
});

test("cut off at any write, the file's name and every block not being written are as they were", () => {
  for (let cut = 1; cut < 40; cut++) {
    const disk = new Disk();
    const file = sealed(disk);
    const name = new Uint8Array(BLOCK).fill(7);
    file.write(name);
    file.write(
      Uint8Array.from({ length: 6 * BLOCK }, (_, at) => at >> 12),
      { at: BLOCK },
    );
    file.flush();
    const before = all(file);
    disk.left = cut;
    let written = -1;
    try {
      for (let round = 0; round < 8; round++) {
        written = round % 7;
        file.write(new Uint8Array(BLOCK).fill(100 + round), { at: written * BLOCK });
        before.set(new Uint8Array(BLOCK).fill(100 + round), written * BLOCK);
        file.flush();
        written = -1;
      }
    } catch {
      /* the power */
    }
    disk.left = Infinity;
    const after = sealed(disk);
    assert.equal(after.getSize(), before.length);
    for (let block = 0; block < 7; block++) {
      if (block === written && block > 0) continue; // a torn sector, as SQLite expects
      const now = new Uint8Array(BLOCK);
      after.read(now, { at: block * BLOCK });
      const want = before.subarray(block * BLOCK, (block + 1) * BLOCK);
      if (block === 0 && written === 0)
        assert.ok(now[0] === 7 || now[0] >= 100, "the old name or the new one");
      else assert.deepEqual(now, want, `cut ${cut}, block ${block}`);
    }
  }
});

test("a torn block reads as nothing in a journal; in a database it is refused until restored", () => {
  const torn = (name) => {
    const disk = new Disk();
    const file = sealed(disk);
    const first = new Uint8Array(BLOCK);
    first.set(new TextEncoder().encode(name));
    file.write(first);
    file.write(new Uint8Array(3 * BLOCK).fill(9), { at: BLOCK });
    file.flush();
    disk.bytes[disk.bytes.length - 1] ^= 1;
    disk.bytes[disk.bytes.length - 2 * 4136 - 1] ^= 1; // the first page too
    return sealed(disk);
  };
  const read = (file, block) => {
    const out = new Uint8Array(BLOCK).fill(1);
    file.read(out, { at: block * BLOCK });
    return out;
  };
  assert.deepEqual(read(torn("book-journal"), 3), new Uint8Array(BLOCK));
  assert.deepEqual(read(torn("book"), 1), new Uint8Array(BLOCK));
  assert.throws(() => read(torn("book"), 3), NotSealedHere);
});
