/**
 * Takes the place a photograph was taken at out of its file, byte for byte in the same length, so that
 * nothing else in it moves: the picture, its turn and its time stay. Looks wherever a file may carry it: Exif
 * blocks (JPEG, WebP, HEIC, and pictures inside pictures), XMP texts, and PNG, whose pieces carry sums of
 * their own. Pure; reads only within the bytes it is given.
 *
 * Taken out of an Exif block: the GPS table with all its values, and the maker's own note, which nobody but
 * the maker can read.
 */
const GPS = 0x8825,
  EXIF = 0x8769,
  MAKER_NOTE = 0x927c;
/** Bytes of one value of each Exif type; 0 is none. */
const SIZE = [0, 1, 1, 2, 4, 8, 1, 1, 2, 4, 8, 4, 8, 4];
/** Tables of tables of tables are no camera's. */
const DEEPEST = 4;

const ascii = (text: string) => Uint8Array.from(text, (c) => c.charCodeAt(0));
/** Where Exif blocks begin: a byte order, 42, and mostly the offset of a first table right behind. */
const STARTS = [ascii("II*\0"), ascii("MM\0*")];
const XMP = [
  [ascii("<x:xmpmeta"), ascii("</x:xmpmeta>")],
  [ascii("<rdf:RDF"), ascii("</rdf:RDF>")],
] as const;
const XMP_MORE = ascii("http://ns.adobe.com/xmp/extension/\0");
/** What speaks of a place in an XMP text. */
const PLACE = /GPS|Latitude|Longitude|Location|geo:|City|Country|Province|State/i;

function find(bytes: Uint8Array, what: Uint8Array, from: number, until = bytes.length): number {
  for (
    let at = bytes.indexOf(what[0] ?? 0, from);
    at >= 0 && at + what.length <= until;
    at = bytes.indexOf(what[0] ?? 0, at + 1)
  )
    if (what.every((byte, n) => bytes[at + n] === byte)) return at;
  return -1;
}

/** Empties the Exif block that begins at `at`, if one does. */
function emptyExif(bytes: Uint8Array, at: number): void {
  const view = new DataView(bytes.buffer, bytes.byteOffset + at, bytes.length - at),
    little = bytes[at] === 0x49;
  const short = (where: number) =>
    where >= 0 && where + 2 <= view.byteLength ? view.getUint16(where, little) : -1;
  const long = (where: number) =>
    where >= 0 && where + 4 <= view.byteLength ? view.getUint32(where, little) : -1;
  const clear = (from: number, length: number) => {
    if (from >= 0 && from < view.byteLength)
      bytes.fill(0, at + from, at + Math.min(view.byteLength, from + length));
  };
  /** The values of the entry at `entry`, wherever they lie. */
  const clearValues = (entry: number) => {
    const length = (SIZE[short(entry + 2)] ?? 0) * Math.max(0, long(entry + 4));
    if (length > 4) clear(long(entry + 8), length);
    clear(entry + 8, 4);
  };
  const seen = new Set<number>();
  const table = (where: number, depth: number, all: boolean): void => {
    const count = short(where);
    if (
      where < 8 ||
      depth > DEEPEST ||
      seen.has(where) ||
      count < 1 ||
      where + 2 + count * 12 > view.byteLength
    )
      return;
    seen.add(where);
    // From the last to the first, since what is taken out draws the others up.
    for (let n = count - 1, left = count; n >= 0; n--) {
      const entry = where + 2 + n * 12,
        tag = short(entry);
      if (tag === EXIF) table(long(entry + 8), depth + 1, false);
      else if (tag === GPS) table(long(entry + 8), depth + 1, true);
      if (!all && tag !== GPS && tag !== MAKER_NOTE) continue;
      if (tag !== GPS) clearValues(entry);
      const end = where + 2 + left * 12,
        next = Math.min(view.byteLength, end + 4);
      bytes.copyWithin(at + entry, at + entry + 12, at + next);
      clear(next - 12, 12);
      left--;
      view.setUint16(where, left, little);
    }
    if (!all) table(long(where + 2 + Math.max(0, short(where)) * 12), depth + 1, false);
  };
  table(long(4), 0, false);
}

function emptyTexts(bytes: Uint8Array): void {
  const says = (from: number, until: number) =>
    PLACE.test(new TextDecoder("latin1").decode(bytes.subarray(from, until)));
  for (const [start, stop] of XMP)
    for (let at = find(bytes, start, 0); at >= 0; at = find(bytes, start, at + 1)) {
      const end = find(bytes, stop, at),
        until = end < 0 ? Math.min(bytes.length, at + 65_536) : end + stop.length;
      if (says(at, until)) bytes.fill(0x20, at, until);
    }
  // A JPEG's further pieces of XMP: 32 letters and eight bytes of counting, then text, to the end of the
  // segment.
  for (let at = find(bytes, XMP_MORE, 0); at >= 4; at = find(bytes, XMP_MORE, at + 1)) {
    const until = Math.min(bytes.length, at - 2 + ((bytes[at - 2] ?? 0) << 8) + (bytes[at - 1] ?? 0)),
      from = at + XMP_MORE.length + 40;
    if (from < until && says(from, until)) bytes.fill(0x20, from, until);
  }
}

const PNG = Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10);
/** Texts of a PNG in which editing programs lay Exif and XMP down, often compressed. */
const PNG_TEXTS = /^(XML:com\.adobe\.xmp|Raw profile type (exif|APP1|xmp))\0/i;

let sums: Uint32Array | undefined;
function sum(bytes: Uint8Array): number {
  sums ??= Uint32Array.from({ length: 256 }, (_, n) => {
    for (let k = 0; k < 8; k++) n = n & 1 ? 0xedb88320 ^ (n >>> 1) : n >>> 1;
    return n;
  });
  let c = 0xffffffff;
  for (const byte of bytes) c = (sums[(c ^ byte) & 255] ?? 0) ^ (c >>> 8);
  return (c ^ 0xffffffff) >>> 0;
}

function emptyPng(bytes: Uint8Array): void {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  for (let at = 8; at + 12 <= bytes.length;) {
    const length = view.getUint32(at),
      end = at + 8 + length;
    if (end + 4 > bytes.length) return;
    const kind = new TextDecoder("latin1").decode(bytes.subarray(at + 4, at + 8)),
      inside = bytes.subarray(at + 8, end);
    if (kind === "eXIf") emptyExif(inside, 0);
    else if (
      /^(iTXt|zTXt|tEXt)$/.test(kind) &&
      PNG_TEXTS.test(new TextDecoder("latin1").decode(inside.subarray(0, 80)))
    ) {
      // A comment without a word, in its place.
      bytes.set(ascii("tEXt"), at + 4);
      inside.fill(0x20);
      inside.set(ascii("Comment\0"));
    }
    view.setUint32(end, sum(bytes.subarray(at + 4, end)));
    at = end + 4;
  }
}

/** A copy without the place. What is no picture comes back as it was. */
export function withoutPlace(given: Uint8Array): Uint8Array {
  const bytes = given.slice();
  if (PNG.every((byte, n) => bytes[n] === byte)) {
    emptyPng(bytes);
    return bytes;
  }
  for (const start of STARTS)
    for (let at = find(bytes, start, 0); at >= 0; at = find(bytes, start, at + 1)) {
      const first =
        new DataView(bytes.buffer, bytes.byteOffset + at).byteLength >= 8
          ? new DataView(bytes.buffer, bytes.byteOffset + at).getUint32(4, bytes[at] === 0x49)
          : 0;
      // In the picture's own data these four bytes come about by chance; a table right behind them does not.
      if (first === 8 || find(bytes, ascii("Exif\0\0"), Math.max(0, at - 6), at) === at - 6)
        emptyExif(bytes, at);
    }
  emptyTexts(bytes);
  return bytes;
}
