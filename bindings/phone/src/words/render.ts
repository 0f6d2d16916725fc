/**
 * Messages as text: what `core/words/src/words.rs` does for the office and packets, done again for the phone
 * from the same catalogues. Both read `tests/golden/words/corpus.json`, so that they say the same. Lives
 * here: one language's words. Which language, and where its files come from, is the caller's.
 */
import { FluentBundle, FluentNumber, FluentResource, type FluentVariable } from "@fluent/bundle";
import type { Arg, Message } from "../core/views.generated";

/** How deep a message is read into; records of others may nest without end. */
const DEEPEST = 8;
/** The made-up language: longer, accented and bracketed English. Tests choose it; nobody is offered it. */
export const PSEUDO = "en-XA";
export const ENGLISH = "en-US";

const ACTS_OUTSIDE = /[\p{Cc}\u061c\u200e\u200f\u2028-\u202e\u2066-\u206f\ufff9-\ufffb\u{e0000}-\u{e007f}]/gu;
/** Typed text without what acts outside it; ends of lines and tabs stay, as in the core's `text::own`. */
const ownText = (text: string): string =>
  text.replace(ACTS_OUTSIDE, (mark) => (mark === "\n" || mark === "\t" ? mark : ""));
/** The same on one line, as in the core's `text::on_one_line`. */
const onOneLine = (text: string): string =>
  text.replace(/[\n\r\t\u2028\u2029]/g, " ").replace(ACTS_OUTSIDE, "");

const ACCENTED: Record<string, string> = {
  a: "à",
  e: "é",
  i: "î",
  o: "ö",
  u: "ü",
  A: "Å",
  E: "Ë",
  I: "Ï",
  O: "Ø",
  U: "Û",
  c: "ç",
  n: "ñ",
};
/** Makes text about a third longer, accented and bracketed; numbers and marks stay. */
function pseudo(text: string): string {
  if (!/\p{Alphabetic}/u.test(text)) return text;
  const longer = [...text].map((c) => {
    const accented = ACCENTED[c] ?? c;
    return "eoa".includes(c) ? accented + accented : accented;
  });
  return `[${longer.join("")}]`;
}

/** The words of one language. */
export class Words {
  readonly language: string;
  readonly #bundle: FluentBundle;
  readonly #locale: string;
  readonly #english: Words | undefined;

  /** Takes the texts of the language's files, and English for what the language has no words for. */
  constructor(language: string, files: readonly string[], english?: Words) {
    this.language = language;
    this.#locale = language === PSEUDO ? ENGLISH : language;
    this.#english = english;
    this.#bundle = new FluentBundle(this.#locale, {
      useIsolating: false,
      ...(language === PSEUDO ? { transform: pseudo } : {}),
    });
    for (const file of files) this.#bundle.addResource(new FluentResource(file), { allowOverrides: true });
  }

  /** The text of a message. A message of a later version gives its id in angle brackets. */
  text(message: Message): string {
    return this.#atDepth(message, DEEPEST);
  }

  /** The text of one of the phone's own messages. Numbers given are counts. */
  say(id: string, args?: Record<string, string | number>): string {
    const given = Object.entries(args ?? {}).map(
      ([name, value]) => [name, typeof value === "number" ? count(value) : ownText(value)] as const,
    );
    return this.#formatted(id, Object.fromEntries(given));
  }

  /** Whether this language itself has the message. */
  has(id: string): boolean {
    return this.#pattern(id) !== undefined;
  }

  /** Writes a decimal with a full stop ("-12500.50") as the language does, with all its decimals. */
  number(number: string, thousands = true): string {
    const parts = /^([+-]?)\d+(?:\.(\d+))?$/.exec(number);
    if (!parts) return number;
    const decimals = parts[2]?.length ?? 0;
    const format = new Intl.NumberFormat(this.#locale, {
      minimumFractionDigits: decimals,
      maximumFractionDigits: decimals,
      useGrouping: thousands,
      signDisplay: parts[1] === "+" ? "always" : "auto",
    });
    return format.format(number as Intl.StringNumericLiteral);
  }

  /** The mark before decimals. */
  get decimalMark(): "." | "," {
    return this.number("0.5").includes(",") ? "," : ".";
  }

  /** A text as it begins a line. What is made up keeps its bracket in front. */
  capital(text: string): string {
    return text.replace(/\p{Ll}/u, (letter, at: number) =>
      /^[[¿¡«“\s]*$/u.test(text.slice(0, at)) ? letter.toLocaleUpperCase(this.#locale) : letter,
    );
  }

  #pattern(id: string) {
    const dot = id.indexOf("."),
      message = this.#bundle.getMessage(dot < 0 ? id : id.slice(0, dot));
    return (dot < 0 ? message?.value : message?.attributes[id.slice(dot + 1)]) ?? undefined;
  }

  #formatted(id: string, args: Record<string, FluentVariable>): string {
    const pattern = this.#pattern(id);
    // An argument that is missing shows as its name, since errors are collected and not thrown.
    if (pattern !== undefined) return this.#bundle.formatPattern(pattern, args, []);
    return this.#english ? this.#english.#formatted(id, args) : `⟨${onOneLine(id)}⟩`;
  }

  #atDepth(message: Message, left: number): string {
    const typed = message.message === "typed" ? message.args?.text : undefined;
    if (typed && "typed" in typed) return ownText(typed.typed);
    if (left === 0) return "…";
    const own = message.message === "own-words" ? message.args : undefined,
      mine = own?.[this.#locale] ?? own?.["otherwise"];
    if (mine) return this.#written(mine, left - 1);
    const args: Record<string, FluentVariable> = {};
    for (const [name, arg] of Object.entries(message.args ?? {}))
      args[name] = "count" in arg ? count(arg.count) : this.#written(arg, left - 1);
    return this.#formatted(message.message, args);
  }

  #written(arg: Arg, left: number): string {
    if ("typed" in arg) return ownText(arg.typed);
    if ("count" in arg) return this.number(String(arg.count));
    if ("number" in arg) return this.number(arg.number);
    if ("amount" in arg) return this.#amount(arg.amount);
    if ("figure" in arg) {
      const { value, plus_minus, unit } = arg.figure,
        of = this.number(value);
      return this.#withUnit(plus_minus ? `${of} ± ${this.number(plus_minus)}` : of, unit);
    }
    if ("says" in arg) return this.#atDepth(arg.says, left);
    return this.#joined(
      arg.list.joint,
      arg.list.items.map((item) => this.#atDepth(item, left)),
    );
  }

  /** What was typed, unless the language would read another number: then the number, as it writes it. */
  #amount(amount: Extract<Arg, { amount: unknown }>["amount"]): string {
    const { value, unit } = amount,
      named = amount.named ?? false,
      typed = onOneLine(amount.typed.trim());
    if (value && this.decimalMark === ",") return this.#withUnit(this.number(value), unit);
    const shown = named ? typed : this.#withUnit(typed, unit);
    return value && amount.echoed
      ? this.#formatted("amount-read-as", { typed: shown, value: this.number(value) })
      : shown;
  }

  #withUnit(number: string, unit: string): string {
    return unit === "one" ? number : `${number} ${this.say(`unit-${unit}`)}`;
  }

  #joined(joint: Extract<Arg, { list: unknown }>["list"]["joint"], parts: string[]): string {
    if (joint === "sentences") return parts.join(" ");
    // Within a list a sentence ends with the list's own mark.
    const open = (part: string, at: number): string =>
      at < parts.length - 1 && part.endsWith(".") && !part.endsWith("..") ? part.slice(0, -1) : part;
    const within = parts.map(open);
    if (joint === "comma") return within.join(", ");
    if (joint === "semicolon") return within.join("; ");
    const last = within.at(-1);
    if (last === undefined || within.length === 1) return last ?? "";
    return this.#formatted(`list-${joint}`, { first: within.slice(0, -1).join(", "), last });
  }
}

/** A number of things: it chooses the plural, and is written without separators, as in Rust. */
const count = (value: number): FluentNumber => new FluentNumber(value, { useGrouping: false });
