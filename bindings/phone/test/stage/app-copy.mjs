// Copies of the built app that are changed, as a newer build or another kind of phone would have it.
import { cpSync, readFileSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { brotliCompressSync } from "node:zlib";
import { inPhone } from "./programs.mjs";

/** Copies the built app into a folder and returns the folder. */
export function copyOfApp(to) {
  cpSync(inPhone("dist"), to, { recursive: true });
  return to;
}

/** Changes a file of a copy, and its compressed twin with it. */
export function changesFile(app, name, changed) {
  const file = join(app, name);
  const text = changed(readFileSync(file, "utf8"));
  writeFileSync(file, text);
  writeFileSync(`${file}.br`, brotliCompressSync(text));
}

/** Puts code before a script of a copy. */
export const putsBefore = (app, name, code) => changesFile(app, name, (text) => `${code};\n${text}`);

/** The page's own script, whose name holds a digest. */
export function mainScript(app) {
  const scripts = readdirSync(join(app, "assets"));
  return `assets/${scripts.find((name) => /^index-.*\.js$/.test(name))}`;
}
