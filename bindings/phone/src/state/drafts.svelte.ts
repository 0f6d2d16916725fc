/**
 * What is half typed, by the screen it was typed on, kept by the core so that it survives a reload. Lives
 * here: texts and the fields in them. Not here: what becomes of them (the screens).
 */
import type { BookCalls } from "../core/calls";
import type { Trouble } from "./trouble.svelte";

export class Drafts {
  #texts = $state<Record<string, string>>({});
  readonly #calls: Pick<BookCalls, "drafts" | "setDraft">;
  readonly #trouble: Trouble;
  readonly #ready: () => boolean;

  /** `ready` says whether the records are open: before that, a text is kept in the page alone. */
  constructor(calls: Pick<BookCalls, "drafts" | "setDraft">, trouble: Trouble, ready: () => boolean) {
    this.#calls = calls;
    this.#trouble = trouble;
    this.#ready = ready;
  }
  async read(): Promise<void> {
    this.#texts = JSON.parse(await this.#calls.drafts()) as Record<string, string>;
  }
  /** Takes them out of the page; the core keeps them. */
  shut(): void {
    this.#texts = {};
  }

  text(key: string, or = ""): string {
    return this.#texts[key] ?? or;
  }
  keep(key: string, text: string): void {
    if (text === "") delete this.#texts[key];
    else this.#texts[key] = text;
    if (this.#ready()) void this.#trouble.attempt(() => this.#calls.setDraft(key, text));
  }
  fields(key: string): Record<string, string> {
    try {
      return JSON.parse(this.text(key, "{}")) as Record<string, string>;
    } catch {
      return {};
    }
  }
  keepField(key: string, field: string, value: string): void {
    this.keep(key, JSON.stringify({ ...this.fields(key), [field]: value }));
  }
}
