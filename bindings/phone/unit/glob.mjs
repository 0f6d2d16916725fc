// What Vite's `import.meta.glob` gives for files taken along as text: their texts by path.
import { readFileSync, readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";

const SIGNS = { "**/": "(?:.*/)?", "*": "[^/]*", "{": "(?:", ",": "|", "}": ")", ".": "\\." };
const expression = (pattern) => new RegExp(`^${pattern.replace(/\*\*\/|[*{},.]/g, (sign) => SIGNS[sign])}$`);

/** The files that a pattern names, without those that a pattern with "!" before it names. */
export function glob(patterns, from) {
  const not = patterns.filter((p) => p.startsWith("!")).map((p) => expression(p.slice(1))),
    paths = patterns
      .filter((p) => !p.startsWith("!"))
      .flatMap((pattern) => {
        const top = pattern.slice(0, pattern.slice(0, pattern.search(/[*{]/)).lastIndexOf("/") + 1),
          below = readdirSync(fileURLToPath(new URL(top, from)), { recursive: true }),
          named = expression(pattern);
        return below.map((path) => top + path).filter((path) => named.test(path));
      }),
    wanted = paths.filter((path) => !not.some((p) => p.test(path)));
  return Object.fromEntries(
    wanted.map((path) => [path, readFileSync(fileURLToPath(new URL(path, from)), "utf8")]),
  );
}
