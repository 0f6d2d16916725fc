/**
 * Which languages there are, and how the words of one come to the phone: from one file, fetched when the
 * language is chosen and kept on the phone from then on, so that it is there without a network. Lives here:
 * the fetching and keeping. How a message becomes text is in `render.ts`; what a new version of the app does
 * for the languages that are kept here is in `sw.ts`.
 */
import { KEPT_WORDS } from "./kept";
import { ENGLISH, PSEUDO, Words } from "./render";

/** The languages: each has a folder in `core/words/locales`. */
export const LANGUAGES: readonly string[] = Object.keys(__WORD_FILES__).sort();

const main = (tag: string) => tag.toLowerCase().split("-")[0] ?? "";

/** The first of the wishes that is a language here, or whose main language is; else English. */
export function wished(wishes: readonly string[]): string {
  for (const wish of wishes) {
    if (wish === PSEUDO) return wish;
    const found = LANGUAGES.find((tag) => tag === wish) ?? LANGUAGES.find((tag) => main(tag) === main(wish));
    if (found && wish !== "") return found;
  }
  return ENGLISH;
}

/** What a language calls itself. */
export function nameOf(tag: string): string {
  const name = new Intl.DisplayNames([tag], { type: "language", languageDisplay: "standard" }).of(tag) ?? tag;
  return name.charAt(0).toLocaleUpperCase(tag) + name.slice(1);
}

/** Where kept words are; nothing where the browser keeps none, as in a private window. */
async function shelf(): Promise<Cache | null> {
  try {
    return await caches.open(KEPT_WORDS);
  } catch {
    return null;
  }
}

async function textOf(file: string, keep: boolean, patience: number | undefined): Promise<string> {
  const address = new URL(file, document.baseURI).href,
    kept = keep ? await shelf() : null,
    known = await kept?.match(address);
  if (known) return known.text();
  const answer = await fetch(address, patience ? { signal: AbortSignal.timeout(patience) } : {});
  if (!answer.ok) throw new Error(`${file}: ${answer.status}`);
  // A phone without room speaks the language until it is closed.
  await kept?.put(address, answer.clone()).catch(() => {});
  return answer.text();
}

const read = new Map<string, Words>();

/**
 * The words of a language; nothing where they are not here and cannot be fetched within `patience`
 * milliseconds. English comes with the app and is waited for.
 */
export async function wordsOf(tag: string, patience = 30_000): Promise<Words | null> {
  const known = read.get(tag);
  if (known) return known;
  const source = tag === PSEUDO ? ENGLISH : tag,
    file = __WORD_FILES__[source];
  if (file === undefined) return null;
  try {
    const chosen = source !== ENGLISH,
      words = new Words(tag, [await textOf(file, chosen, chosen ? patience : undefined)]);
    read.set(tag, words);
    return words;
  } catch {
    return null;
  }
}
