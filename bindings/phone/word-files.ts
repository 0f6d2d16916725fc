// The phone's words as files of the app: one a language, put together from its folder in `core/words/locales`
// without what only the office and packets say. Used by `vite.config.ts`.
import { createHash } from "node:crypto";
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import type { Plugin } from "vite";

const LOCALES = fileURLToPath(new URL("../../core/words/locales", import.meta.url));
/** Files that the phone says nothing of. */
const NOT_OF_THE_PHONE =
  /^(packet|sheet|verify|office|letters|command|reconcile|printed|calc-formulas|calc-lines|calc-sources)/;

/** The words of one language, without comments. */
function wordsOf(tag: string): string {
  return readdirSync(join(LOCALES, tag))
    .filter((name) => name.endsWith(".ftl") && !NOT_OF_THE_PHONE.test(name))
    .sort()
    .flatMap((name) => readFileSync(join(LOCALES, tag, name), "utf8").split("\n"))
    .filter((line) => line.trim() !== "" && !line.startsWith("#"))
    .join("\n");
}

const all = readdirSync(LOCALES).map((tag) => {
  const text = wordsOf(tag),
    digest = createHash("sha256").update(text).digest("hex").slice(0, 12);
  return { tag, text, file: `words/${tag}-${digest}.ftl` };
});

/** Lays the files beside the page and tells it their names: a language is added by its folder alone. */
export const wordFiles = (): Plugin => ({
  name: "word-files",
  config: () => ({
    define: { __WORD_FILES__: JSON.stringify(Object.fromEntries(all.map(({ tag, file }) => [tag, file]))) },
  }),
  generateBundle() {
    for (const { file, text } of all) this.emitFile({ type: "asset", fileName: file, source: text });
  },
  configureServer(server) {
    server.middlewares.use((asked, answer, next) => {
      const found = all.find(({ file }) => asked.url === `/${file}`);
      if (found) answer.setHeader("content-type", "text/plain; charset=utf-8").end(found.text);
      else next();
    });
  },
});
