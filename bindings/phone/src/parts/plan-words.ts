/** The words the housing drawing shows, taken from the strings file. */
import type { HousingPlanState, PlanWords } from "../look/housing-plan";
import type { Say } from "../strings";

export function planWords(say: Say, plan: HousingPlanState): PlanWords {
  return {
    fitting: {
      liquid_a: say("fitting.liquid_a"),
      liquid_b: say("fitting.liquid_b"),
      vapour: say("fitting.vapour"),
      vapour_two: say("fitting.vapour_two"),
      gauging_device: say("fitting.gauging_device"),
      thermometer_well: say("fitting.thermometer_well"),
      sample_line: say("fitting.sample_line"),
      relief_device: say("fitting.relief_device"),
    },
    valve: { open: say("valve.open"), shut: say("valve.shut"), unknown: say("valve.unknown") },
    closure: {
      open: say("plan.closure.open"),
      hand_tight: say("plan.closure.hand_tight"),
      tool_tight: say("plan.closure.tool_tight"),
      unknown: say("closure.unknown"),
    },
    a_end: say("plan.a_end"),
    b_end: say("plan.b_end"),
    foot: say("plan.foot"),
    typical: say("plan.typical"),
    measured: say("plan.measured"),
    hiss: say("heard.hiss"),
    line: say("plan.hose"),
    differ: say("plan.differ"),
    cover_open: say("plan.cover_open"),
    cover_shut: say("plan.cover_shut"),
    pin_out: say("plan.pin_out"),
    bolts: say("plan.bolts", { in: plan.cover.bolts_in, required: plan.cover.bolts_required }),
  };
}
