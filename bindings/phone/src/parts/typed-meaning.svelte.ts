/**
 * What a figure means while it is typed: asked of the core once the typing pauses. Lives here: asking, and
 * dropping answers that come late. Not here: what it means (the core's), how it is shown
 * (`FigureMeaning.svelte`).
 */
import type { Statement } from "../core/shapes";
import { shownMeaning, type ShownMeaning } from "../figure";
import type { Shell } from "./context";

const NOTHING: ShownMeaning = { worth: null, figures: [], findings: [] };
const PAUSE_MS = 180;

/** Made while a component is set up; `now` is nothing while the core is asked. */
export function typedMeaning(
  shell: Shell,
  says: () => Statement | null,
): { readonly now: ShownMeaning | null } {
  let meaning = $state.raw<ShownMeaning | null>(null);
  $effect(() => {
    const [statement, view, visit] = [says(), shell.app.view, shell.visit];
    meaning = null;
    if (!statement || !view) return;
    let stale = false;
    const ask = async () => {
      const answer = await shell.app.meaning(visit, { says: statement });
      if (!stale) meaning = answer ? shownMeaning(answer, shell.say) : NOTHING;
    };
    const wait = setTimeout(() => void ask(), PAUSE_MS);
    return () => {
      stale = true;
      clearTimeout(wait);
    };
  });
  return {
    get now() {
      return meaning;
    },
  };
}
