// How the repository's TypeScript, Svelte, scripts and style sheets read: short lines, short files, colours
// from one place, and no word that nothing says.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { test } from "node:test";
import { KIND_FORMS } from "../src/core/statement-kinds.generated.ts";
import { en } from "../src/words/en/all.ts";

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

/** Files whose lines are still to be mended. A file that is mended leaves the list. */
const LONG_LINES = new Set([
  "bindings/phone/src/look/housing-plan.ts",
  "bindings/web/tests/pages/rough-worker.ts",
]);
/** Files that are still to be split. A file that is split leaves the list. */
const LONG_FILES = new Set([]);

/** Fails for whatever breaks a rule and is not listed, and for whatever is listed and keeps the rule. */
function keeps(rule, broken, listed) {
  const names = new Set(broken.map(({ path }) => path));
  const fresh = broken.filter(({ path }) => !listed.has(path)).map(({ path, what }) => `${path}${what}`);
  const mended = [...listed].filter((path) => !names.has(path));
  assert.deepEqual(fresh, [], rule);
  assert.deepEqual(mended, [], `${rule}: these are mended and leave the list`);
}

test("the files are found", () => {
  for (const kind of ["App.svelte", "tokens.css", "strings.ts", "client.ts", "tidy.test.mjs"])
    assert.ok(
      files.some(({ path }) => path.endsWith(`/${kind}`)),
      kind,
    );
});

test("no line passes 110 columns", () => {
  const long = by_hand.flatMap(({ path, text }) =>
    text.split("\n").flatMap((line, at) => (line.length > COLUMNS ? [{ path, what: `:${at + 1}` }] : [])),
  );
  keeps("a line is too long", long, LONG_LINES);
});

test("no component passes 150 lines and no script 500", () => {
  const long = by_hand.flatMap(({ path, text }) => {
    const lines = text.trimEnd().split("\n").length;
    return lines > (LINES[path.split(".").pop()] ?? Infinity) ? [{ path, what: `: ${lines} lines` }] : [];
  });
  keeps("a file is too long", long, LONG_FILES);
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

/** Codes that come from the core or a procedure and are nowhere written out on the phone. */
const CODES = ["measured", "place", "purpose", "sign", "event", "test", "check", "role"];

test("every word is said somewhere", () => {
  const code = sources
    .filter(({ path }) => !path.includes("/src/words/"))
    .map(({ text }) => text)
    .join("\n");
  const quotes = [/"([^"\n]*)"/g, /'([^'\n]*)'/g, /`([^`\n]*)`/g];
  const quoted = new Set(quotes.flatMap((quote) => [...code.matchAll(quote)].map((found) => found[1])));
  // Families whose words are put together: `seal.${kind}`, words("wind", ["n", …]), shown("how", …).
  const templates = [...code.matchAll(/`([a-z_.]+)\.\$\{/g)].map((found) => found[1]);
  const named = [...code.matchAll(/\b(?:words|shown)\(\s*"(\w+)"/g)].map((found) => found[1]);
  // What yes and no are called in a field of a form that is drawn from the table of kinds.
  const renamed = [...code.matchAll(/"\w+\.\w+": "(\w+)"/g)].map((found) => found[1]);
  const families = new Set([...templates, ...named, ...renamed]);
  // The fields of those forms are called by their kind and name.
  const drawn = new Set(
    Object.entries(KIND_FORMS).flatMap(([kind, { fields }]) => fields.map(({ name }) => `${kind}.${name}`)),
  );
  // And those whose last part is the same: `${standing}.title`.
  const tails = new Set([...code.matchAll(/`\$\{\w+\}\.(\w+)`/g)].map((found) => found[1]));
  const said = (key) => {
    const at = key.lastIndexOf(".");
    const [family, tail] = [key.slice(0, at), key.slice(at + 1)];
    if (quoted.has(key) || drawn.has(key)) return true;
    if (families.has(family) && (CODES.includes(family) || quoted.has(tail))) return true;
    return tails.has(tail) && quoted.has(family);
  };
  assert.deepEqual(
    Object.keys(en).filter((key) => !said(key)),
    [],
  );
});
