/**
 * Every word the phone itself says, in every language. Words about the work (step titles, what is in the way,
 * findings) come from the core. Lives here: choosing a language and filling words in. The words stand in
 * `words/`, one folder a language, one file a topic; a missing translation is a type error.
 */
import { own } from "./own-text";
import { en, type Key } from "./words/en/all";
import { es } from "./words/es/all";

export type { Key };
export const languages = { en, es } as const;
export type Lang = keyof typeof languages;
/** Says a word. `{name}` in it is filled in. */
export type Say = (key: Key, fill?: Record<string, string | number>) => string;

/** Whether there is a word for it. */
export const has = (key: string): key is Key => Object.hasOwn(en, key);

/** The speaker for one language. */
export function speaker(lang: Lang): Say {
  const table: Record<Key, string> = languages[lang];
  return (key, fill) =>
    table[key].replace(/\{(\w+)\}/g, (whole, name: string) => own(String(fill?.[name] ?? whole)));
}
