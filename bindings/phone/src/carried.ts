/**
 * What earlier visits of the car left for this one. Lives here: which of it is open, and where each is seen
 * to. Whether a note counts, and until when, is the core's.
 */
import type { VisitView } from "./core/shapes";
import type { Door } from "./ask";

type Carried = VisitView["car"]["carried"][number];

/** The form on which something is seen to: the note's own, or that of the condition. */
function doorOf({ note, slot, fitting }: Carried): Door {
  if (note) return { screen: "form", about: `next_time_done|${note}` };
  const kinds: Record<string, string> = { feel: "valve_feel", plug: "plug_condition" };
  return {
    screen: "form",
    about: `${kinds[slot.split("/")[1] ?? ""] ?? "cover_condition"}|${fitting ?? ""}`,
  };
}

/** What earlier visits left and nobody saw to yet, with where that is done. */
export const leftFor = (view: VisitView): (Carried & { door: Door })[] =>
  view.car.carried
    .filter(({ visit, done }) => !done && visit !== null && !view.header.visits.includes(visit))
    .map((one) => ({ ...one, door: doorOf(one) }));
