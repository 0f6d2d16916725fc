/**
 * What went wrong last, kept until the person has read it. Lives here: the text and the one way to try a call
 * of the core. Not here: the sentences (catalogues), the strip that shows them (`parts/Trouble.svelte`).
 */
import type { Message } from "../core/views.generated";
import { told, type Failed } from "../said";

export class Trouble {
  /**
   * A word that `parts/Trouble.svelte` has a sentence for, or the sentence of whatever failed; empty when all
   * is well.
   */
  text = $state<Message | string>("");

  /** Does something that may fail; a failure is shown to the person and answers nothing. */
  async attempt<T>(act: () => Promise<T>): Promise<T | null> {
    try {
      return await act();
    } catch (error) {
      const failed = error as Failed;
      this.text = failed.variant === "NotStored" ? "full" : told(error);
      return null;
    }
  }
}
