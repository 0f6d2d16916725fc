/**
 * What went wrong last, kept until the person has read it. Lives here: the text and the one way to try a call
 * of the core. Not here: the sentences (`strings.ts`), the strip that shows them (`parts/Trouble.svelte`).
 */

/** A failure of the core as far as it is read here. */
interface Failed {
  variant?: string;
  why?: string;
  message?: string;
}

export class Trouble {
  /**
   * A word that `parts/Trouble.svelte` has a sentence for, or the sentence of whatever failed; empty when all
   * is well.
   */
  text = $state("");

  /** Does something that may fail; a failure is shown to the person and answers nothing. */
  async attempt<T>(act: () => Promise<T>): Promise<T | null> {
    try {
      return await act();
    } catch (error) {
      const failed = error as Failed;
      this.text = failed.variant === "NotStored" ? "full" : (failed.why ?? failed.message ?? String(error));
      return null;
    }
  }
}
