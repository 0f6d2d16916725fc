/**
 * The language that is spoken: that of the person who holds the phone, else the phone's, else the first that
 * the browser asks for. One language is loaded at a time. Lives here: which one, and the change to another.
 */
import { wordsOf } from "../words/catalogue";
import { ENGLISH, Words } from "../words/render";
import { languageFor, type Chosen } from "../words/whose";

const AT_ONCE_MS = 3000;

export class Language {
  /** The words that are loaded. */
  words = $state.raw(new Words(ENGLISH, []));
  /** The language that was chosen and could not be loaded. */
  lacking = $state("");
  /** Only the last wish counts, whichever file comes first. */
  #wish = 0;

  /** Speaks a language; where its words cannot be loaded, the one before goes on. */
  async speak(tag: string, patience?: number): Promise<boolean> {
    const wish = ++this.#wish,
      words = await wordsOf(tag, patience);
    if (wish !== this.#wish) return false;
    this.lacking = words ? "" : tag;
    if (words) this.words = words;
    return words !== null;
  }

  /**
   * Speaks the language of whoever holds the phone. Where its words are not here and do not come at once, as
   * behind a sign-in page, English is spoken until they come: nobody waits for help.
   */
  async follow(settings: Chosen): Promise<void> {
    const tag = languageFor(settings, navigator.languages);
    if (await this.speak(tag, AT_ONCE_MS)) return;
    if (this.lacking !== tag || tag === ENGLISH) return;
    await this.speak(ENGLISH);
    void this.speak(tag);
  }
}
