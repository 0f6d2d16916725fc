/**
 * Whether what stands on a screen was seen to its end: its key records, or signs, nothing that was not on the
 * screen. What takes its place is seen from its top.
 */
export class ReadOn {
  #seen = $state("");
  #body: HTMLElement | undefined;
  readonly #about: () => string;

  /** `about` names what is read; another name is read anew. */
  constructor(about: () => string) {
    this.#about = about;
  }
  get unread(): boolean {
    return this.#seen !== this.#about();
  }
  /** Attached to an element of no height behind the last line of what is read. */
  readonly end = (end: HTMLElement): (() => void) => {
    const about = this.#about();
    const body = end.closest<HTMLElement>(".body");
    this.#body = body ?? undefined;
    body?.scrollTo(0, 0);
    const watch = new IntersectionObserver(
      (entries) => {
        if (entries.some((entry) => entry.isIntersecting)) this.#seen = about;
      },
      { root: body },
    );
    watch.observe(end);
    return () => watch.disconnect();
  };
  readonly on = (): void => this.#body?.scrollBy({ top: this.#body.clientHeight * 0.8 });
}
