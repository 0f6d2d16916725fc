/**
 * The state of the housing drawing from the core's view, and where each fitting usually sits. The places are
 * a typical layout (common practice, no source) and the drawing says so; nothing is computed here.
 */
import { askAt, fittingOf } from "./ask";
import type { Fitting, VisitView } from "./core/shapes";
import type { HousingPlanState, PlanFitting } from "./look/housing-plan";

type Placed = Pick<PlanFitting, "kind" | "along_in" | "across_in" | "outlet_deg" | "label" | "outside">;
const PLACES: Record<Fitting, Placed> = {
  liquid_a: {
    kind: "valve",
    along_in: -9.2,
    across_in: 0,
    outlet_deg: 180,
    label: { dx: -1.2, dy: -6.75, anchor: "middle" },
  },
  liquid_b: {
    kind: "valve",
    along_in: 9.2,
    across_in: 0,
    outlet_deg: 0,
    label: { dx: 1.2, dy: -6.75, anchor: "middle" },
  },
  vapour: {
    kind: "valve",
    along_in: 0,
    across_in: -8.8,
    outlet_deg: -90,
    label: { dx: 5.3, dy: -3.9, anchor: "start", stacked: true },
  },
  vapour_two: {
    kind: "valve",
    along_in: 0,
    across_in: 8.8,
    outlet_deg: 90,
    label: { dx: 4.3, dy: 1, anchor: "start", stacked: true },
  },
  gauging_device: {
    kind: "cap",
    along_in: 0,
    across_in: 0,
    outlet_deg: 0,
    label: { dx: 0, dy: 3.6, anchor: "middle", stacked: true },
  },
  sample_line: {
    kind: "small_valve",
    along_in: -5.2,
    across_in: 8.2,
    outlet_deg: 180,
    label: { dx: -0.6, dy: 4.1, anchor: "middle" },
  },
  thermometer_well: {
    kind: "cap",
    along_in: 5.4,
    across_in: 8.2,
    outlet_deg: 0,
    label: { dx: 1, dy: 4.1, anchor: "middle" },
  },
  relief_device: {
    kind: "relief",
    along_in: 16.6,
    across_in: -15.2,
    outlet_deg: 0,
    outside: true,
    label: { dx: 2.9, dy: 4.4, anchor: "end" },
  },
};
/** With a second vapour valve toward the viewer, the small openings sit further out. */
const BESIDE: Partial<Record<Fitting, Partial<Placed>>> = {
  sample_line: { along_in: -8.4, across_in: 8.2 },
  thermometer_well: { along_in: 9.4, across_in: 8.4 },
};
export function planOf(view: VisitView): HousingPlanState {
  const next = view.steps.steps.find((s) => s.id === view.steps.next[0])?.fitting ?? undefined;
  const two = view.fittings.some((f) => f.fitting === "vapour_two");
  const differing = new Set(view.disagreements.map((d) => fittingOf(view, d.slot)));
  const fittings: PlanFitting[] = view.fittings
    .filter((f) => f.fitting !== "relief_device")
    .map((f) => ({
      id: f.fitting,
      ...PLACES[f.fitting],
      ...(two ? BESIDE[f.fitting] : {}),
      ...(askAt(view, "valve", f.fitting) ? { valve: f.valve?.value ?? ("unknown" as const) } : {}),
      closure: f.closure?.value ?? ("unknown" as const),
      listen: f.listen?.value ?? ("not_done" as const),
      line_connected: f.line?.value.connected ?? false,
      disagreement: differing.has(f.fitting),
    }));
  fittings.push({ id: "relief_device", ...PLACES.relief_device });
  const c = view.cover?.value;
  return {
    inside_diameter_in: 35,
    measured: false,
    turned: false,
    cover: {
      closed: c?.closed ?? false,
      pinned: c?.pinned ?? false,
      bolts_in: c?.bolts_in_place ?? 0,
      bolts_required: c?.bolts_required ?? 4,
    },
    fittings,
    ...(next ? { next } : {}),
  };
}
