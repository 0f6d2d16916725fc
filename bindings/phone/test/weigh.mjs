// What a phone fetches once: every file the service worker keeps, as the office sends it. Fails past
// `MOST_BYTES`.
import assert from "node:assert/strict";
import { existsSync, readFileSync, readdirSync } from "node:fs";
import { join, relative } from "node:path";
import { test } from "node:test";
import { inPhone } from "./stage/programs.mjs";
import { measured } from "./stage/story.mjs";

// 1,614,945 measured with one table of statement kinds and the guide in the core; 1,591,730 before.
const MOST_BYTES = 1_620_000;

test("what a phone fetches once is small, and is sent compressed", () => {
  const dist = inPhone("dist");
  const files = readdirSync(dist, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && !entry.name.endsWith(".br"))
    .map((entry) => join(entry.parentPath, entry.name));
  let module = 0;
  let total = 0;
  for (const file of files) {
    const hasTwin = existsSync(`${file}.br`);
    const bytes = readFileSync(hasTwin ? `${file}.br` : file).length;
    assert.ok(hasTwin || /\.(woff2|png)$/.test(file), `${file} has no compressed twin`);
    if (file.endsWith(".wasm")) module = bytes;
    total += bytes;
    const plain = readFileSync(file).length;
    console.log(`${String(bytes).padStart(9)}  ${relative(dist, file)} (${plain} bytes)`);
  }
  measured(`phone module ${module} bytes brotli (aim within the download)`);
  measured(`phone download ${total} bytes brotli (aim < ${MOST_BYTES})`);
  assert.ok(total < MOST_BYTES);
});
