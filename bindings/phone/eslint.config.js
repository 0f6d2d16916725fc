// The rules for every hand-written TypeScript, Svelte and JavaScript file of the repository. They are applied
// from the top of the repository (see `check-source`), so the folders below are named from there.
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
    rules: {
      // TypeScript itself knows which names exist.
      "no-undef": "off",
      // Taken out of an object, so that the rest is without it.
      "@typescript-eslint/no-unused-vars": ["error", { ignoreRestSiblings: true }],
    },
  },
  {
    files: ["**/*.svelte"],
    rules: {
      // A component's properties are taken apart at once; those that are bound change.
      "prefer-const": "off",
      "svelte/prefer-const": ["error", { excludedRunes: ["$props"] }],
      // What a component hands to a callback has its type from the component, which svelte-check reads and
      // this does not.
      "@typescript-eslint/no-unsafe-argument": "off",
      "@typescript-eslint/no-unsafe-assignment": "off",
      "@typescript-eslint/no-unsafe-call": "off",
      "@typescript-eslint/no-unsafe-member-access": "off",
      "@typescript-eslint/no-unsafe-return": "off",
    },
  },
  {
    // Our own drawings are laid into the page as they are, here and nowhere else.
    files: ["bindings/phone/src/parts/{Drawing,Icon,PlanView}.svelte"],
    rules: { "svelte/no-at-html-tags": "off" },
  },
  {
    // The marks that are taken out of texts are control characters.
    files: ["bindings/phone/src/own-text.ts"],
    rules: { "no-control-regex": "off" },
  },
  {
    // The package is built with an older TypeScript, to which these assertions say something.
    files: ["bindings/web/src/**"],
    rules: { "@typescript-eslint/no-unnecessary-type-assertion": "off" },
  },
  {
    // Scripts run in Node.js and hand functions to a browser.
    files: ["**/*.{js,mjs}", "bindings/phone/*.ts", "bindings/web/tests/**"],
    languageOptions: { globals: { ...globals.node, ...globals.browser } },
  },
  {
    // Functions that a test hands to a page name what only the page has.
    files: ["bindings/phone/test/**", "bindings/web/tests/**"],
    rules: { "no-undef": "off", "@typescript-eslint/no-unused-vars": "warn" },
  },
);
