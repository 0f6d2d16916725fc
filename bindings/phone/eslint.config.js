// The rules for every hand-written TypeScript, Svelte and JavaScript file of the repository. They are applied from
// the top of the repository (see `check-source`), so the folders below are named from there.
import js from "@eslint/js";
import svelte from "eslint-plugin-svelte";
import globals from "globals";
import ts from "typescript-eslint";

/** Programs have a tsconfig and are checked with their types; scripts for Node.js have none. */
const programs = ["bindings/phone/src/**/*.{ts,svelte}", "bindings/web/src/**/*.ts"];

export default ts.config(
  { ignores: ["**/node_modules", "**/dist", "**/dist-look", "**/generated", "**/build"] },
  js.configs.recommended,
  ts.configs.recommended,
  { files: programs, extends: [ts.configs.recommendedTypeCheckedOnly] },
  svelte.configs.recommended,
  {
    files: programs,
    languageOptions: {
      globals: { ...globals.browser, ...globals.worker },
      parserOptions: {
        parser: ts.parser,
        projectService: true,
        extraFileExtensions: [".svelte"],
        tsconfigRootDir: import.meta.dirname,
      },
    },
    // TypeScript itself knows which names exist.
    rules: { "no-undef": "off" },
  },
  {
    // Scripts run in Node.js and hand functions to a browser.
    files: ["**/*.{js,mjs}", "bindings/phone/*.ts", "bindings/web/tests/**"],
    languageOptions: { globals: { ...globals.node, ...globals.browser } },
  },
);
