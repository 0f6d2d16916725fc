/**
 * Whose language is spoken: that of the person who holds the phone, else the phone's, else the first language
 * that the browser asks for. Pure.
 */
import type { Settings } from "../field/settings";
import { wished } from "./catalogue";

/** What of the settings decides. */
export type Chosen = Pick<Settings, "lang" | "languages" | "operator">;

/** The language for whoever holds the phone. */
export const languageFor = ({ lang, languages, operator }: Chosen, browser: readonly string[]): string =>
  wished([languages[operator] ?? "", lang, ...browser].filter((wish) => wish !== ""));

/** What changes when a person, or nobody yet, chooses a language. */
export const choosing = (tag: string, { languages, operator }: Chosen): Partial<Settings> =>
  operator === "" ? { lang: tag } : { languages: { ...languages, [operator]: tag } };
