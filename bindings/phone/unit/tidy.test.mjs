// How the repository's TypeScript, Svelte, scripts and style sheets read: short lines, short files, and
// colours from one place. That every word is said somewhere is seen by `core/words/tests/catalogues.rs`.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { test } from "node:test";

const root = join(import.meta.dirname, "../../..");
const read = (path) => readFileSync(join(root, path), "utf8");
const WRITTEN = [
  "bindings/phone",
  "bindings/web/src",
  "bindings/web/tests",
  "bindings/web/*.mjs",
  "tests/*.mjs",
];
const list = ["ls-files", "--cached", "--others", "--exclude-standard", "--deduplicate", "--", ...WRITTEN];
const files = execFileSync("git", list, { cwd: root, encoding: "utf8" })
  .split("\n")
  .filter((path) => /\.(ts|mjs|js|svelte|css)$/.test(path))
  .map((path) => ({ path, text: read(path) }));

/** What a person writes by hand, and not a program from the core's tables and records. */
const by_hand = files.filter(({ path }) => !path.endsWith(".generated.ts"));

/** Lines longer than this are not read without scrolling. */
const COLUMNS = 110;
const LINES = { svelte: 150, ts: 500, mjs: 500, js: 500 };

test("the files are found", () => {
  for (const kind of ["App.svelte", "tokens.css", "strings.ts", "client.ts", "tidy.test.mjs"])
    assert.ok(
      files.some(({ path }) => path.endsWith(`/${kind}`)),
      kind,
    );
});

test("no line passes 110 columns", () => {
  const long = by_hand.flatMap(({ path, text }) =>
    text.split("\n").flatMap((line, at) => (line.length > COLUMNS ? [`${path}:${at + 1}`] : [])),
  );
  assert.deepEqual(long, []);
});

test("no component passes 150 lines and no script 500", () => {
  const long = by_hand.flatMap(({ path, text }) => {
    const lines = text.trimEnd().split("\n").length;
    return lines > (LINES[path.split(".").pop()] ?? Infinity) ? [`${path}: ${lines} lines`] : [];
  });
  assert.deepEqual(long, []);
});

const TOKENS = "bindings/phone/src/look/tokens.css";
const sources = files.filter(({ path }) => path.startsWith("bindings/phone/src/"));

test("colours stand in the tokens and nowhere else", () => {
  const colour = /#[0-9a-f]{3,8}\b|\b(rgba?|hsla?|oklch|lab|lch|color-mix)\(/gi;
  const styles = sources.filter(({ path }) => /\.(svelte|css)$/.test(path) && path !== TOKENS);
  for (const { path, text } of styles) {
    const style = path.endsWith(".css") ? text : text.slice(text.lastIndexOf("<style>"));
    assert.deepEqual(style.match(colour) ?? [], [], path);
  }
  const drawings = sources.filter(({ path }) => path.includes("/look/") && path.endsWith(".ts"));
  for (const { path, text } of drawings) assert.doesNotMatch(text, /(fill|stroke|color)="#/, path);
});

test("sizes of text stand in the tokens and nowhere else", () => {
  const styles = sources.filter(({ path }) => path.endsWith(".svelte") || path.endsWith("/base.css"));
  for (const { path, text } of styles) assert.deepEqual(text.match(/font-size: [\d.]+px/g) ?? [], [], path);
});

test("day and night are of the same colours on the office's pages", () => {
  const office = read("sync-server/office/src/pages/look.css");
  const colours = (text) =>
    [...text.matchAll(/--([a-z0-9-]+): (#[0-9a-f]{6});/g)].map((found) => found.slice(1, 3));
  const known = new Set(colours(read(TOKENS)).map(([name, colour]) => `${name} ${colour}`));
  const names = new Set(colours(read(TOKENS)).map(([name]) => name));
  const shared = colours(office).filter(([name]) => names.has(name));
  assert.ok(shared.length > 15, `${shared.length} colours`);
  for (const [name, colour] of shared) assert.ok(known.has(`${name} ${colour}`), `--${name}: ${colour}`);
});

test("what the browser is told of colours before the page is there is the ground of day and night", () => {
  const [day, night] = [...read(TOKENS).matchAll(/--ground: (#[0-9a-f]{6})/g)].map((found) => found[1]);
  const page = read("bindings/phone/index.html");
  assert.match(page, new RegExp(`content="${day}" media="\\(prefers-color-scheme: light\\)"`));
  assert.match(page, new RegExp(`content="${night}" media="\\(prefers-color-scheme: dark\\)"`));
  const manifest = read("bindings/phone/vite.config.ts");
  for (const name of ["background_color", "theme_color"])
    assert.match(manifest, new RegExp(`${name}: "${day}"`));
});

test("no element says by itself that it is in a language, but the names of languages", () => {
  const marked = sources.filter(
    ({ path, text }) => path.endsWith(".svelte") && /\slang="/.test(text.replace(/<script[^>]*>/g, "")),
  );
  assert.deepEqual(
    marked.map(({ path }) => path),
    [],
  );
});
