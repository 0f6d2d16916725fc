/** Where the page and the service worker keep the words of the languages that somebody chose. */
export const KEPT_WORDS = "farsiding-words";

/** The language of a file of words, from its address: `…/words/fr-CA-0123abcd.ftl`. */
export const languageOf = (address: string): string => /([^/]+)-[0-9a-f]+\.ftl$/.exec(address)?.[1] ?? "";
