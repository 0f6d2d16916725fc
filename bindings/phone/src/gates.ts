/**
 * The two gates of a stay as the screens show them: which one the job stands before, and what stands at each.
 * Pure; what is asked at a gate, and what meets it, is the core's.
 */
import type { VisitView } from "./core/shapes";
import type { Message } from "./core/views.generated";

export type GateName = "unload" | "release";
type Item = VisitView["blockers"][number];
type Met = VisitView["release"]["met"][number];
type Said = NonNullable<VisitView["release"]["released"]>["said"];

export interface GateShown {
  readonly gate: GateName;
  readonly open: readonly Item[];
  readonly overridden: readonly Item[];
  readonly met: readonly Met[];
  /** Who signed it, and when; nothing as long as nobody did. */
  readonly signed: Said | undefined;
}

/** The gate before which the job stands: unloading until somebody signed it or began all the same. */
export function gateNow({ unloading }: VisitView): GateName {
  return unloading.asked && !unloading.fit && !unloading.began ? "unload" : "release";
}

/** The gate that an address names; the one before which the job stands where it names none. */
export const gateOf = (about: string, view: VisitView): GateName =>
  about === "unload" || about === "release" ? about : gateNow(view);

/** What a gate is called. */
export const gateTitle = (gate: GateName): Message => ({ message: `gate-${gate}`, args: {} });

/** What stands at a gate. */
export function gateShown(view: VisitView, gate: GateName): GateShown {
  const { unloading, release } = view;
  const all = gate === "unload" ? unloading.blockers : view.blockers;
  return {
    gate,
    open: all.filter((item) => !item.passed_over),
    overridden: all.filter((item) => item.passed_over),
    met: gate === "unload" ? unloading.met : release.met,
    signed: (gate === "unload" ? unloading.fit : release.released)?.said,
  };
}

/** An item of either gate, by its code. */
export const itemOf = (view: VisitView, code: string): Item | undefined =>
  [...view.unloading.blockers, ...view.blockers].find((item) => item.code === code);
