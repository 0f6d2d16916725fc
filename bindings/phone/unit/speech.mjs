// A language's words for tests of pure modules, read from the folders of the catalogues.
import { readFileSync, readdirSync } from "node:fs";
import { speaker } from "../src/strings.ts";
import { PSEUDO, Words } from "../src/words/render.ts";

const top = new URL("../../../core/words/locales/", import.meta.url);
const filesOf = (tag) =>
  readdirSync(new URL(`${tag}/`, top)).map((name) => readFileSync(new URL(`${tag}/${name}`, top), "utf8"));

export const LANGUAGES = readdirSync(top);
/** The words of a language, or the made-up ones. */
export const wordsIn = (tag) => new Words(tag, filesOf(tag === PSEUDO ? "en-US" : tag));
export const sayIn = (tag) => speaker(wordsIn(tag));
