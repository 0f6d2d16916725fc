/// <reference types="vite/client" />
/// <reference types="svelte" />
declare module "#core" {
  export function openCore(options: import("./core/calls").OpenOptions): import("./core/calls").Opened;
}
/** Each language's file of words, from `word-files.ts`. */
declare const __WORD_FILES__: Readonly<Record<string, string>>;
