// A photograph as it lies on the disk: read back under its own key and name, and under no other.
import assert from "node:assert/strict";
import { test } from "node:test";
import { folderOf, sealed, unsealed } from "../src/field/photo-seal.ts";

const makeKey = async (id) => ({
  id,
  key: await crypto.subtle.generateKey({ name: "AES-GCM", length: 256 }, false, ["encrypt", "decrypt"]),
});
const picture = Uint8Array.from({ length: 5_000 }, (_, n) => n % 251);
const bytesOf = async (blob) => blob && new Uint8Array(await blob.arrayBuffer());

test("what was sealed is read back, byte for byte", async () => {
  const under = await makeKey("k1");
  const kept = await sealed(under, "name", picture);
  assert.deepEqual(await bytesOf(await unsealed(under, "name", kept.buffer)), picture);
});

test("nothing of the picture is seen, and twice the same picture is not the same file", async () => {
  const under = await makeKey("k1");
  const [one, two] = [await sealed(under, "name", picture), await sealed(under, "name", picture)];
  assert.notDeepEqual(one, two);
  assert.equal(Buffer.from(one).indexOf(Buffer.from(picture.subarray(0, 16))), -1);
});

test("another name, another key, a piece and a changed bit are nothing", async () => {
  const [under, other] = [await makeKey("k1"), await makeKey("k2")];
  const kept = await sealed(under, "name", picture);
  const changed = kept.slice();
  changed[changed.length - 1] ^= 1;
  const open = kept.slice();
  open[0] = 0xff;
  assert.equal(await unsealed(under, "another", kept.buffer), null);
  assert.equal(await unsealed(other, "name", kept.buffer), null);
  assert.equal(await unsealed(under, "name", kept.slice(0, 100).buffer), null);
  assert.equal(await unsealed(under, "name", changed.buffer), null);
  assert.equal(await unsealed(under, "name", open.buffer), null, "a form that is not known");
  assert.equal(await unsealed(under, "name", new ArrayBuffer(0)), null);
});

test("each key has a folder of its own, apart from what lies open", async () => {
  const folders = [null, { id: "k1" }, { id: "k2" }].map(folderOf);
  assert.equal(new Set(folders).size, 3);
});
