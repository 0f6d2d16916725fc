/**
 * What is chosen of the cover of the housing: open or closed, pin in or out, bolts counted. It becomes one
 * entry; counting up makes none.
 */
import type { Statement } from "../core/shapes";
import type { Shell } from "./context";

export function coverChosen(shell: Shell, say: (statement: Statement) => Promise<boolean>) {
  const seen = $derived(shell.app.view?.cover?.value);
  const KEY = $derived(`${shell.visit}/cover`);
  /** How many bolts this car's cover has, once somebody counted them. */
  const LAST = $derived(`bolts/${shell.app.view?.header.car ?? ""}`);
  const kept = $derived(shell.app.drafts.fields(KEY));
  const bolts = $derived(JSON.parse(shell.app.settings.last[LAST] ?? "0") as number);
  /** Whether anybody said how many bolts the cover has: nobody's silence says that there are none. */
  const counted = $derived(seen !== undefined || LAST in shell.app.settings.last || kept.bolts === "yes");
  const usual = $derived({ closed: true, pinned: true, bolts_in_place: bolts, bolts_required: bolts });
  const cover = $derived({ ...(seen ?? usual), ...(kept.cover ? (JSON.parse(kept.cover) as object) : {}) });
  const change = (to: Partial<typeof cover>) => {
    const bolts = counted || "bolts_required" in to ? { bolts: "yes" } : {};
    const both = { ...kept, cover: JSON.stringify({ ...cover, ...to }), ...bolts };
    shell.app.drafts.keep(KEY, JSON.stringify(both));
  };
  const records = $derived(
    shell.say("phone-cover-record", {
      what: [
        shell.say(cover.closed ? "phone-cover-closed" : "phone-cover-open"),
        shell.say(cover.pinned ? "phone-cover-pin_in" : "phone-cover-pin_out"),
        ...(cover.bolts_required > 0
          ? [shell.say("phone-cover-count", { n: cover.bolts_in_place, of: cover.bolts_required })]
          : [shell.say("phone-cover-no_bolts")]),
      ].join(" · "),
    }),
  );
  async function record() {
    if (!counted || !(await say({ cover }))) return;
    shell.app.remember({ [LAST]: String(cover.bolts_required) });
    shell.app.drafts.keep(KEY, "");
    shell.go("step");
  }
  return {
    get now() {
      return cover;
    },
    /** What the key says that records it. */
    get records() {
      return records;
    },
    get counted() {
      return counted;
    },
    change,
    record,
  };
}
export type CoverChosen = ReturnType<typeof coverChosen>;
