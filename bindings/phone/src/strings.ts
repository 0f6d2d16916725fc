/**
 * How screens say things: a word of the phone by its id, or a message of the core. Lives here: the speaker,
 * and which ids there are. Not here: the words themselves (`core/words/locales`), which language is spoken
 * (`state/language.svelte.ts`).
 */
import type { Message } from "./core/views.generated";
import { own } from "./own-text";
import type { WordArgs } from "./words/ids.generated";
import type { Words } from "./words/render";

/** The id of anything the phone says. */
export type Id = keyof WordArgs;
/** The id of a word that nothing is filled into. */
export type Key = { [I in Id]: WordArgs[I] extends null ? I : never }[Id];
/** What is filled in: nothing, or the arguments of the word. */
type Fill<I extends Id> = I extends Id ? (WordArgs[I] extends null ? [] : [fill: WordArgs[I]]) : never;
type Speak = <I extends Id>(id: I, ...fill: Fill<I>) => string;

/** Says a word of the phone. */
export interface Say extends Speak {
  /** A word of the trade, which stands in the middle of a sentence, as it begins a line. */
  readonly capital: Speak;
  /** A message of the core, or a text as it is, or nothing. */
  readonly of: (message: Message | string | null | undefined) => string;
  /** Whether there is a word for it. */
  readonly has: (id: string) => id is Key;
  /** The mark before decimals. */
  readonly decimalMark: "." | ",";
  /** A decimal with a full stop, as the language writes it. */
  readonly number: (number: string) => string;
  /** The same without separators between thousands. */
  readonly plain: (number: string) => string;
}

/** The speaker for one language. */
export function speaker(words: Words): Say {
  const word: Speak = (id, ...[fill]) => words.say(id, fill ?? {});
  const capital: Speak = (id, ...[fill]) => words.capital(words.say(id, fill ?? {}));
  return Object.assign(word, {
    capital,
    of: (message: Message | string | null | undefined) =>
      typeof message === "object" && message ? words.text(message) : own(message ?? ""),
    has: (id: string): id is Key => words.has(id),
    decimalMark: words.decimalMark,
    number: (number: string) => words.number(number),
    plain: (number: string) => words.number(number, false),
  });
}
