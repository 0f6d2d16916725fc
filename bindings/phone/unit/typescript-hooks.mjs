// What `typescript.mjs` hooks into Node.js's loading of modules.
import { existsSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import ts from "typescript";

const OPTIONS = { module: ts.ModuleKind.ESNext, target: ts.ScriptTarget.ES2022, verbatimModuleSyntax: true };

/** `./codes` is `./codes.ts`, where there is one. */
export function resolve(specifier, context, next) {
  const guess = specifier.startsWith(".") && new URL(`${specifier}.ts`, context.parentURL);
  return guess && existsSync(fileURLToPath(guess))
    ? { url: guess.href, format: "module", shortCircuit: true }
    : next(specifier, context);
}

export function load(url, context, next) {
  if (!url.endsWith(".ts")) return next(url, context);
  const text = readFileSync(fileURLToPath(url), "utf8");
  // Vite puts the files themselves in place of this call; here they are read when the module is.
  const globs = text.includes("import.meta.glob(")
    ? `import { glob } from ${JSON.stringify(new URL("glob.mjs", import.meta.url).href)};
import.meta.glob = (patterns) => glob(patterns, import.meta.url);
`
    : "";
  const { outputText } = ts.transpileModule(text, { compilerOptions: OPTIONS });
  return { format: "module", source: globs + outputText, shortCircuit: true };
}
