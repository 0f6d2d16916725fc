// The place a photograph was taken at is taken out of every kind of file a camera or an editing program
// makes; what else stands in it, and its length, stay. Pictures: `test/pictures`, drawn, at an invented place
// in the sea, with Exif of both byte orders, XMP (in the PNG compressed), a maker's note, an orientation and
// a time. Needs no browser: the module is pure.
import assert from "node:assert/strict";
import { mkdtempSync, readFileSync, readdirSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "node:test";
import { pathToFileURL } from "node:url";
import { inflateSync } from "node:zlib";
import ts from "typescript";

const source = readFileSync(new URL("../src/field/photo-place.ts", import.meta.url), "utf8");
const options = { module: ts.ModuleKind.ESNext, target: ts.ScriptTarget.ES2022 };
const file = join(mkdtempSync(join(tmpdir(), "place-")), "photo-place.mjs");
writeFileSync(file, ts.transpileModule(source, { compilerOptions: options }).outputText);
const { withoutPlace } = await import(pathToFileURL(file).href);

const folder = new URL("./pictures/", import.meta.url);
const pictures = readdirSync(folder).filter((name) => name.startsWith("place"));
const load = (name) => new Uint8Array(readFileSync(new URL(name, folder)));
const number = (value, big) => {
  const out = Buffer.alloc(4);
  if (big) out.writeUInt32BE(value);
  else out.writeUInt32LE(value);
  return out;
};
/**
 * Everything that gives the place away: seconds of latitude and longitude, height, the place's name, a day in
 * the GPS table, the note.
 */
const telling = [
  ...[7654321, 1234567, 314159].flatMap((value) => [number(value, true), number(value, false)]),
  ..."Demo place,2026:03:01\0GPS,maker's own,GPSLatitude,7654321S"
    .split(",")
    .map((text) => Buffer.from(text, "latin1")),
];
/** The file with what a PNG keeps compressed laid open behind it. */
const laidOpen = (bytes) => {
  const all = [Buffer.from(bytes)];
  for (let at = 0; at < bytes.length - 1; at++)
    if (bytes[at] === 0x78 && [0x01, 0x5e, 0x9c, 0xda].includes(bytes[at + 1]))
      try {
        all.push(inflateSync(bytes.subarray(at)));
      } catch {
        /* not the start of anything */
      }
  return Buffer.concat(all);
};
const found = (bytes) => telling.filter((part) => laidOpen(bytes).includes(part)).map(String);

for (const name of pictures)
  test(`nothing in ${name} says where it was taken`, () => {
    const before = load(name);
    const after = withoutPlace(before);
    assert.ok(found(before).length >= 3, `the picture gives its place away: ${found(before)}`);
    assert.deepEqual(found(after), []);
    assert.equal(after.length, before.length);
    const when = Buffer.from("2026:03:01 10:11:12");
    assert.ok(Buffer.from(before).includes(when) && Buffer.from(after).includes(when), "the time stays");
    assert.deepEqual(withoutPlace(after), after, "done once is done");
    assert.deepEqual(before, load(name), "what was handed in is as it was");
  });

test("no bytes break it, and what is no picture stays as it is", () => {
  let seed = 1;
  const roll = () => (seed = (seed * 1103515245 + 12345) & 0x7fffffff);
  for (let n = 0; n < 4_000; n++) {
    const bytes = load(pictures[n % pictures.length]);
    for (let k = 0; k < 6; k++) bytes[roll() % bytes.length] = roll() & 255;
    const cut = n % 3 === 0 ? bytes.subarray(0, roll() % bytes.length) : bytes;
    assert.equal(withoutPlace(cut).length, cut.length);
  }
  const noise = Uint8Array.from({ length: 100_000 }, () => roll() & 255);
  assert.deepEqual(withoutPlace(noise), noise);
});

test("a photograph of twelve megabytes takes no time anybody notices", () => {
  const whole = new Uint8Array(12_000_000);
  const picture = load("place-ii.jpg");
  for (let at = 0, n = 7; at < whole.length; at++)
    whole[at] = (n = (n * 1103515245 + 12345) & 0x7fffffff) >> 16;
  whole.set(picture);
  const began = performance.now();
  assert.deepEqual(found(withoutPlace(whole).subarray(0, picture.length)), []);
  const took = performance.now() - began;
  console.log(`place taken out of 12 MB in ${took.toFixed(0)} ms (aim < 1000)`);
  assert.ok(took < 1_000);
});
