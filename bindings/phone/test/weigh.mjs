// What a phone fetches once: every file the service worker keeps, as the office sends it, with the words of
// one language. English comes with the app; another language comes beside it.
import assert from "node:assert/strict";
import { existsSync, readFileSync, readdirSync } from "node:fs";
import { join, relative } from "node:path";
import { test } from "node:test";
import { inPhone } from "./stage/programs.mjs";
import { measured } from "./stage/story.mjs";

/** With English, and with the words of another language beside it. */
const MOST_BYTES = 1_500_000;
const MOST_BYTES_IN_ANOTHER = 1_540_000;

test("what a phone fetches once is small, and is sent compressed", () => {
  const dist = inPhone("dist");
  const files = readdirSync(dist, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && !entry.name.endsWith(".br"))
    .map((entry) => join(entry.parentPath, entry.name));
  let module = 0;
  let app = 0;
  const words = {};
  for (const file of files) {
    const hasTwin = existsSync(`${file}.br`);
    const bytes = readFileSync(hasTwin ? `${file}.br` : file).length;
    assert.ok(hasTwin || /\.(woff2|png)$/.test(file), `${file} has no compressed twin`);
    if (file.endsWith(".wasm")) module = bytes;
    const [, language] = /words\/([^/]+)-[0-9a-f]+\.ftl$/.exec(file) ?? [];
    if (language) words[language] = bytes;
    else app += bytes;
    const plain = readFileSync(file).length;
    console.log(`${String(bytes).padStart(9)}  ${relative(dist, file)} (${plain} bytes)`);
  }
  measured(`phone module ${module} bytes brotli (aim within the download)`);
  assert.ok(Object.keys(words).length >= 3, "each language is a file of its own");
  for (const [language, bytes] of Object.entries(words)) {
    const total = app + words["en-US"] + (language === "en-US" ? 0 : bytes);
    const most = language === "en-US" ? MOST_BYTES : MOST_BYTES_IN_ANOTHER;
    measured(`phone download in ${language} ${total} bytes brotli (aim < ${most})`);
    assert.ok(total < most, language);
  }
});
