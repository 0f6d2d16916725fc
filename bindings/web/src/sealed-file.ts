// A file that is sealed block by block, offered in the same way as the browser offers a plain one. Whoever
// has the bytes without the key learns the length and nothing else, and a block that was altered, or moved to
// another place or file, does not open. An older whole file put in place of a newer one does open: what tells
// that are the signed entries inside. Lives here: the form on the disk. Not here: whose key it is, any SQL.
//
// The form: the first block lies twice, each time with a count, and the copies are written in turn, because
// the pool above writes a file's name into it in place and a torn name would lose the file. All other blocks
// lie once: SQLite's journal is made for a torn sector, and a block is a sector. What is written waits in
// memory until `flush`, which is the only order SQLite relies on.

import { xchacha20poly1305 } from "@noble/ciphers/chacha.js";

/** The synchronous half of the file system, which TypeScript's page library leaves out. */
export interface SyncHandle {
  read(into: Uint8Array, options?: { at?: number }): number;
  write(bytes: Uint8Array, options?: { at?: number }): number;
  getSize(): number;
  truncate(size: number): void;
  flush(): void;
  close(): void;
}

/** Bytes of a block: SQLite's page, and the pool's sector. */
export const BLOCK = 4096;
const NONCE = 24;
const MORE = NONCE + 16;
const COUNT = 8;
/** On the disk: one copy of the first block, both of them, any other block. */
const HEAD = MORE + COUNT + BLOCK;
const HEADS = 2 * HEAD;
const SEALED = MORE + BLOCK;
/**
 * So many blocks may wait in memory, and so many that were opened are kept there: what a long list goes over
 * twice.
 */
const MOST_WAITING = 512;
const MOST_OPENED = 2048;

/** A block that does not open: the wrong key, or bytes that are not what was written. */
export class NotSealedHere extends Error {
  override readonly name = "NotSealedHere";
}

/** Random bytes by the piece; asking the platform for each block would cost more than sealing it. */
const random = new Uint8Array(NONCE * 256);
let used = random.length;
function nonce(): Uint8Array {
  if (used === random.length) {
    crypto.getRandomValues(random);
    used = 0;
  }
  return random.slice(used, (used += NONCE));
}

const zero = new Uint8Array(BLOCK);
const ending = new TextEncoder().encode("-journal");

export class SealedFile implements SyncHandle {
  readonly #raw: SyncHandle;
  readonly #key: Uint8Array;
  /** What every block is bound to: form, file, number of the block. */
  readonly #about: Uint8Array;
  readonly #number: DataView;
  /** Length as the caller sees it, and as much of it as has reached the disk. */
  #size = 0;
  #disk = 0;
  readonly #waiting = new Map<number, Uint8Array>();
  readonly #opened = new Map<number, Uint8Array>();
  #count = 0;
  #journal: boolean | undefined;

  /**
   * `name` is the file's own, 32 bytes `key`. Throws `NotSealedHere` when it holds something this key does
   * not open.
   */
  constructor(raw: SyncHandle, key: Uint8Array, name: string) {
    this.#raw = raw;
    this.#key = key;
    const text = new TextEncoder().encode(`farsiding sealed 1 ${name}\n`);
    this.#about = new Uint8Array(text.length + 8);
    this.#about.set(text);
    this.#number = new DataView(this.#about.buffer, text.length);
    const size = raw.getSize();
    // Shorter: the browser ended while the file was being made, before anything was in it.
    if (size < HEADS) return;
    const first = this.#readHead();
    if (first) {
      this.#keep(0, first);
      const more = size - HEADS;
      this.#size = BLOCK + Math.floor(more / SEALED) * BLOCK + Math.max(0, (more % SEALED) - MORE);
    } else if (size > HEADS) throw new NotSealedHere(`${name} does not open`);
    this.#disk = this.#size;
  }

  getSize(): number {
    return this.#size;
  }

  read(into: Uint8Array, { at = 0 } = {}): number {
    const until = Math.min(this.#size, at + into.length);
    for (let from = at; from < until;) {
      const number = Math.floor(from / BLOCK),
        inside = from - number * BLOCK;
      const take = Math.min(BLOCK - inside, until - from);
      into.set(this.#block(number).subarray(inside, inside + take), from - at);
      from += take;
    }
    return Math.max(0, until - at);
  }

  write(bytes: Uint8Array, { at = 0 } = {}): number {
    const until = at + bytes.length;
    for (let from = at; from < until;) {
      const number = Math.floor(from / BLOCK),
        inside = from - number * BLOCK;
      const take = Math.min(BLOCK - inside, until - from);
      let block = this.#waiting.get(number);
      if (!block) {
        block = take === BLOCK ? new Uint8Array(BLOCK) : this.#block(number).slice();
        this.#waiting.set(number, block);
        this.#opened.delete(number);
      }
      block.set(bytes.subarray(from - at, from - at + take), inside);
      if (number === 0) this.#journal = undefined;
      from += take;
    }
    this.#size = Math.max(this.#size, until);
    if (this.#waiting.size > MOST_WAITING) this.#store();
    return bytes.length;
  }

  truncate(size: number): void {
    if (size > 0 && size < BLOCK) throw new RangeError("a sealed file has one block at least");
    this.#opened.clear();
    if (size >= this.#size) {
      this.#size = size;
      return;
    }
    const tail = Math.floor(size / BLOCK),
      kept = size % BLOCK;
    if (kept > 0) {
      const block = this.#block(tail).slice();
      block.fill(0, kept);
      this.#waiting.set(tail, block);
      this.#opened.clear();
    }
    for (const number of [...this.#waiting.keys()]) if (number * BLOCK >= size) this.#waiting.delete(number);
    this.#size = size;
    if (this.#disk <= tail * BLOCK) return;
    // The last block is sealed anew by its new length; what is before it stays.
    this.#disk = tail * BLOCK;
    this.#raw.truncate(tail === 0 ? 0 : HEADS + (tail - 1) * SEALED);
    if (tail === 0) this.#count = 0;
  }

  flush(): void {
    this.#store();
    this.#raw.flush();
  }

  close(): void {
    try {
      this.#store();
    } finally {
      this.#raw.close();
    }
  }

  #block(number: number): Uint8Array {
    const waiting = this.#waiting.get(number);
    if (waiting) return waiting;
    const opened = this.#opened.get(number);
    if (opened) return opened;
    const length = Math.min(BLOCK, this.#disk - number * BLOCK);
    if (length <= 0) return zero;
    let block = number === 0 ? this.#readHead() : this.#open(HEADS + (number - 1) * SEALED, length, number);
    if (!block) {
      if (!this.#mayBeTorn(number)) throw new NotSealedHere(`block ${number} does not open`);
      block = zero;
    }
    if (block.length < BLOCK) {
      const whole = new Uint8Array(BLOCK);
      whole.set(block);
      block = whole;
    }
    this.#keep(number, block);
    return block;
  }

  #keep(number: number, block: Uint8Array): void {
    // The one that was opened first goes first.
    if (this.#opened.size >= MOST_OPENED)
      for (const oldest of this.#opened.keys()) {
        this.#opened.delete(oldest);
        break;
      }
    this.#opened.set(number, block);
  }

  /**
   * Where a block that was being written as the power went reads as nothing, as SQLite expects of a sector:
   * in a journal, which then ends there or is none, and for the first page, which the journal puts back.
   * Without a journal SQLite says of such a page that this is no database.
   */
  #mayBeTorn(number: number): boolean {
    if (number === 0) return false;
    if (number === 1) return true;
    if (this.#journal === undefined) {
      const first = this.#block(0),
        end = first.indexOf(0);
      this.#journal =
        end >= ending.length && ending.every((byte, n) => first[end - ending.length + n] === byte);
    }
    return this.#journal;
  }

  #aboutBlock(number: number): Uint8Array {
    this.#number.setBigUint64(0, BigInt(number));
    return this.#about;
  }

  #open(at: number, length: number, number: number): Uint8Array | undefined {
    const sealed = new Uint8Array(MORE + length);
    if (this.#raw.read(sealed, { at }) !== sealed.length) return undefined;
    try {
      return xchacha20poly1305(this.#key, sealed.subarray(0, NONCE), this.#aboutBlock(number)).decrypt(
        sealed.subarray(NONCE),
      );
    } catch {
      return undefined;
    }
  }

  #put(at: number, plain: Uint8Array, number: number): void {
    const sealed = new Uint8Array(MORE + plain.length),
      fresh = nonce();
    sealed.set(fresh);
    xchacha20poly1305(this.#key, fresh, this.#aboutBlock(number)).encrypt(plain, sealed.subarray(NONCE));
    if (this.#raw.write(sealed, { at }) !== sealed.length)
      throw new DOMException("the disk took only a part", "QuotaExceededError");
  }

  /** The newer copy of the first block that opens. */
  #readHead(): Uint8Array | undefined {
    let newest: Uint8Array | undefined;
    for (const at of [0, HEAD]) {
      const copy = this.#open(at, COUNT + BLOCK, 0);
      if (!copy) continue;
      const count = Number(new DataView(copy.buffer, copy.byteOffset).getBigUint64(0));
      if (newest && count < this.#count) continue;
      this.#count = count;
      newest = copy;
    }
    return newest?.subarray(COUNT);
  }

  #writeHead(block: Uint8Array): void {
    if (this.#raw.getSize() < HEADS) this.#raw.truncate(HEADS);
    const plain = new Uint8Array(COUNT + BLOCK);
    plain.set(block, COUNT);
    // Both copies of a new file, one after the other ever after.
    for (let copies = this.#count === 0 ? 2 : 1; copies > 0; copies--) {
      const next = this.#count + 1;
      new DataView(plain.buffer).setBigUint64(0, BigInt(next));
      this.#put((next % 2) * HEAD, plain, 0);
      this.#count = next;
    }
  }

  /** Writes what waits, in order, and whatever was skipped between the end of before and now. */
  #store(): void {
    if (this.#waiting.size === 0 && this.#disk === this.#size) return;
    if (this.#disk < this.#size)
      for (let number = Math.floor(this.#disk / BLOCK); number * BLOCK < this.#size; number++)
        if (!this.#waiting.has(number)) this.#waiting.set(number, this.#block(number).slice());
    for (const number of [...this.#waiting.keys()].sort((a, b) => a - b)) {
      const block = this.#waiting.get(number) ?? zero,
        end = Math.min(this.#size, (number + 1) * BLOCK);
      if (number === 0) this.#writeHead(block);
      else this.#put(HEADS + (number - 1) * SEALED, block.subarray(0, end - number * BLOCK), number);
      this.#disk = Math.max(this.#disk, end);
      this.#waiting.delete(number);
    }
  }
}
