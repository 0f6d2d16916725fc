/**
 * The places on paper for what a step records, by its kind. Made from the core's table by
 * `core/tests/statement_kinds.rs`: edit the table in `core/src/procedure/on_paper.rs`, not this file.
 */
export interface PaperField {
  field: string;
  /** The id of the label; empty where it is what the record itself is called. */
  label: string;
  fill: "number" | "choice" | "text" | "time";
  /** The unit of a number that has none of its own. */
  unit?: string;
  /** The ids of the words that are chosen from. */
  words?: readonly string[];
}

export const PAPER_FIELDS = {
  opened: [
    { field: "car", label: "phone-new-whole", fill: "text" },
    {
      field: "receiver",
      label: "phone-new-receiver",
      fill: "choice",
      words: ["receiver-fixed_tank", "receiver-truck"],
    },
    { field: "spot", label: "phone-new-spot", fill: "text" },
  ],
  car_number_again: [{ field: "car", label: "", fill: "text" }],
  paper: [
    { field: "number", label: "phone-paper-number", fill: "text" },
    { field: "car", label: "phone-paper-car", fill: "text" },
    { field: "shipper", label: "phone-paper-shipper", fill: "text" },
    { field: "un_number", label: "phone-paper-un", fill: "text" },
    { field: "product", label: "phone-paper-product", fill: "text" },
    { field: "billed", label: "phone-paper-billed", fill: "number", unit: "gal" },
    { field: "relative_density", label: "phone-paper-relative_density", fill: "number", unit: "1" },
    { field: "odorised", label: "phone-paper-odorised", fill: "choice", words: ["phone-yes", "phone-no"] },
    {
      field: "grade",
      label: "phone-paper-grade",
      fill: "choice",
      words: [
        "calc_grade-hd5_propane",
        "calc_grade-commercial_propane",
        "calc_grade-commercial_butane",
        "calc_grade-butane_propane",
        "calc_grade-isobutane",
        "calc_grade-propylene",
      ],
    },
    {
      field: "billed_by",
      label: "phone-paper-billed_by",
      fill: "choice",
      words: ["billed_by-table", "billed_by-meter", "billed_by-scale"],
    },
    { field: "winter_fill", label: "phone-paper-winter", fill: "choice", words: ["phone-yes", "phone-no"] },
  ],
  clock: [{ field: "at", label: "", fill: "time" }],
  reading: [
    { field: "amount", label: "", fill: "number", unit: "1" },
    { field: "instrument", label: "phone-strip-instrument", fill: "text" },
  ],
  valve: [
    { field: "position", label: "", fill: "choice", words: ["valve_position-open", "valve_position-shut"] },
  ],
  closure: [
    {
      field: "state",
      label: "",
      fill: "choice",
      words: ["closure-open", "closure-hand_tight", "closure-tool_tight"],
    },
  ],
  listen: [{ field: "heard", label: "", fill: "choice", words: ["heard-quiet", "heard-hiss"] }],
  line: [{ field: "hose", label: "phone-hose-number", fill: "text" }],
  effort: [{ field: "amount", label: "", fill: "number", unit: "ft·lbf" }],
  threads: [{ field: "engaged", label: "", fill: "number", unit: "turns" }],
  valve_feel: [
    { field: "feel", label: "", fill: "choice", words: ["feel-easy", "feel-normal", "feel-hard"] },
  ],
  plug_condition: [
    {
      field: "state",
      label: "",
      fill: "choice",
      words: ["plug_state-sound", "plug_state-rounded", "plug_state-seized"],
    },
    { field: "note", label: "phone-note", fill: "text" },
  ],
  cover_condition: [
    {
      field: "part",
      label: "phone-part-which",
      fill: "choice",
      words: ["cover_part-pin", "cover_part-lug", "cover_part-hinge"],
    },
    {
      field: "state",
      label: "phone-part-state",
      fill: "choice",
      words: [
        "part_state-sound",
        "part_state-worn",
        "part_state-bent",
        "part_state-broken",
        "part_state-missing",
      ],
    },
    { field: "note", label: "phone-note", fill: "text" },
  ],
  hose_pressure: [{ field: "amount", label: "", fill: "number", unit: "psi" }],
  next_time: [{ field: "what", label: "", fill: "text" }],
  item_out: [],
  item_in: [],
  seal: [
    {
      field: "place",
      label: "phone-seal-place",
      fill: "choice",
      words: [
        "seal_place-housing_pin",
        "seal_place-housing_lug",
        "seal_place-gauging_device",
        "seal_place-elsewhere",
      ],
    },
    { field: "number", label: "phone-seal-number", fill: "text" },
    {
      field: "kind",
      label: "phone-seal-kind",
      fill: "choice",
      words: ["seal_kind-plastic", "seal_kind-metal_strap", "seal_kind-cable", "seal_kind-bolt"],
    },
    { field: "intact", label: "phone-seal-whole", fill: "choice", words: ["phone-yes", "phone-no"] },
    { field: "note", label: "phone-note", fill: "text" },
    { field: "because", label: "phone-seal-because", fill: "text" },
  ],
  photo: [],
  defect: [
    { field: "what", label: "phone-defect-what", fill: "text" },
    {
      field: "needs_authority",
      label: "phone-defect-approval",
      fill: "choice",
      words: ["phone-yes", "phone-no"],
    },
  ],
  forwarded: [
    { field: "to", label: "phone-forwarded-to", fill: "text" },
    { field: "how", label: "phone-forwarded-how", fill: "choice", words: ["told-voice", "told-writing"] },
  ],
  hold: [{ field: "because", label: "phone-why", fill: "text" }],
  attendance: [],
  cover: [
    { field: "closed", label: "phone-cover-closed", fill: "choice", words: ["phone-yes", "phone-no"] },
    { field: "pinned", label: "phone-cover-pin_in", fill: "choice", words: ["phone-yes", "phone-no"] },
    { field: "bolts_in_place", label: "phone-cover-bolts", fill: "number", unit: "1" },
    { field: "bolts_required", label: "phone-cover-should", fill: "number", unit: "1" },
  ],
  protection: [],
  weather: [
    {
      field: "precipitation",
      label: "phone-weather-falls",
      fill: "choice",
      words: [
        "precipitation-dry",
        "precipitation-rain",
        "precipitation-freezing_rain",
        "precipitation-snow",
        "precipitation-frost",
      ],
    },
    { field: "wind", label: "phone-weather-wind", fill: "text" },
  ],
  empty_sign: [{ field: "seen", label: "", fill: "choice", words: ["phone-yes", "phone-no"] }],
  empty_decision: [
    { field: "accepted", label: "phone-decision-yes", fill: "choice", words: ["phone-yes", "phone-no"] },
    { field: "grounds", label: "phone-decision-grounds", fill: "text" },
  ],
  truck_load: [
    { field: "truck", label: "phone-truck-which", fill: "text" },
    { field: "amount", label: "phone-truck-amount", fill: "number", unit: "gal" },
    { field: "ticket", label: "phone-truck-ticket", fill: "text" },
    { field: "driver", label: "phone-truck-driver", fill: "text" },
    { field: "level", label: "measured-level", fill: "number", unit: "%" },
    { field: "temperature", label: "measured-temperature", fill: "number", unit: "°F" },
    { field: "seal", label: "phone-truck-seal", fill: "text" },
  ],
  tank_gauged: [
    {
      field: "moment",
      label: "phone-tank-moment",
      fill: "choice",
      words: ["tank_moment-before", "tank_moment-after"],
    },
    { field: "tank", label: "phone-tank-which", fill: "text" },
    { field: "level", label: "measured-level", fill: "number", unit: "%" },
    { field: "pressure", label: "measured-pressure", fill: "number", unit: "psi" },
    { field: "temperature", label: "measured-temperature", fill: "number", unit: "°F" },
    { field: "meter", label: "phone-tank-meter", fill: "number", unit: "gal" },
  ],
  recovery_planned: [
    { field: "target", label: "phone-plan-target", fill: "number", unit: "psi" },
    { field: "swept", label: "phone-plan-swept", fill: "number", unit: "ft³/min" },
    { field: "efficiency", label: "phone-plan-efficiency", fill: "number", unit: "%" },
    { field: "price", label: "phone-plan-price", fill: "number", unit: "money" },
    { field: "cost", label: "phone-plan-cost", fill: "number", unit: "money/h" },
  ],
  inspection: [
    { field: "by", label: "phone-inspection-by", fill: "text" },
    { field: "looked_at", label: "phone-inspection-looked", fill: "text" },
    { field: "found", label: "phone-inspection-found", fill: "choice", words: ["phone-yes", "phone-no"] },
    { field: "finding", label: "phone-inspection-finding", fill: "text" },
    { field: "copy_left", label: "phone-inspection-copy", fill: "choice", words: ["phone-yes", "phone-no"] },
  ],
  check: [],
  car_fittings: [
    {
      field: "fittings",
      label: "phone-fittings-there",
      fill: "choice",
      words: [
        "fitting-liquid_a",
        "fitting-liquid_b",
        "fitting-vapour",
        "fitting-vapour_two",
        "fitting-gauging_device",
        "fitting-thermometer_well",
        "fitting-sample_line",
        "fitting-relief_device",
      ],
    },
    {
      field: "gauging",
      label: "phone-fittings-gauging",
      fill: "choice",
      words: ["gauging_kind-rod", "gauging_kind-slip_tube", "gauging_kind-other"],
    },
    { field: "vapour_end", label: "phone-fittings-vapor", fill: "choice", words: ["car_end-a", "car_end-b"] },
  ],
  car_capacity: [
    { field: "capacity", label: "", fill: "number", unit: "gal" },
    {
      field: "insulation",
      label: "phone-shell-insulation",
      fill: "choice",
      words: ["insulation-none", "insulation-thermal_protection", "insulation-insulated"],
    },
  ],
  car_diameter: [{ field: "diameter", label: "", fill: "number", unit: "in" }],
  outage_table: [{ field: "name", label: "", fill: "text" }],
  car_test_date: [{ field: "due", label: "", fill: "text" }],
  incident: [
    {
      field: "source",
      label: "phone-incident-source",
      fill: "choice",
      words: [
        "incident_source-fitting",
        "incident_source-hose",
        "incident_source-coupling",
        "incident_source-plant",
        "incident_source-relief_device",
        "incident_source-tank",
        "incident_source-truck",
      ],
    },
    { field: "noticed_at", label: "phone-incident-noticed", fill: "time" },
    {
      field: "injury",
      label: "phone-incident-injury",
      fill: "choice",
      words: ["injury-none", "injury-first_aid", "injury-hospital", "injury-death"],
    },
    { field: "ignition", label: "phone-incident-ignition", fill: "choice", words: ["phone-yes", "phone-no"] },
    {
      field: "evacuation",
      label: "phone-incident-evacuation",
      fill: "choice",
      words: ["evacuation-none", "evacuation-site", "evacuation-public", "evacuation-public_hour"],
    },
    { field: "closed", label: "phone-incident-closed", fill: "choice", words: ["phone-yes", "phone-no"] },
    { field: "what", label: "phone-what-seen", fill: "text" },
  ],
  leak: [
    {
      field: "at",
      label: "phone-leak-at",
      fill: "choice",
      words: [
        "leak_at-coupling",
        "leak_at-hose",
        "leak_at-packing",
        "leak_at-plug",
        "leak_at-gasket",
        "leak_at-relief_device",
        "leak_at-plant",
      ],
    },
    { field: "action", label: "phone-leak-action", fill: "text" },
  ],
  car_left: [
    { field: "connected", label: "phone-left-connected", fill: "choice", words: ["phone-yes", "phone-no"] },
    {
      field: "conditions",
      label: "phone-left-conditions",
      fill: "choice",
      words: [
        "left_condition-designated",
        "left_condition-monitored",
        "left_condition-valves_closed",
        "left_condition-brakes_blocked",
        "left_condition-track_secured",
      ],
    },
    { field: "until", label: "phone-left-until", fill: "time" },
    { field: "note", label: "phone-note", fill: "text" },
  ],
  car_moved: [
    { field: "to", label: "phone-moved-to", fill: "text" },
    { field: "by", label: "phone-moved-by", fill: "text" },
  ],
  outcome: [
    {
      field: "load",
      label: "phone-outcome-load",
      fill: "choice",
      words: ["car_load-residue", "car_load-part_loaded", "car_load-loaded"],
    },
    {
      field: "because",
      label: "phone-outcome-because",
      fill: "choice",
      words: ["leaves_as-unloaded", "leaves_as-bad_order", "leaves_as-refused", "leaves_as-diverted"],
    },
    { field: "to", label: "phone-outcome-to", fill: "text" },
    { field: "note", label: "phone-note", fill: "text" },
  ],
  fit_to_unload: [],
  last_round: [
    {
      field: "fittings",
      label: "",
      fill: "choice",
      words: [
        "fitting-liquid_a",
        "fitting-liquid_b",
        "fitting-vapour",
        "fitting-vapour_two",
        "fitting-gauging_device",
        "fitting-thermometer_well",
        "fitting-sample_line",
        "fitting-relief_device",
      ],
    },
    {
      field: "except",
      label: "phone-strip-except",
      fill: "choice",
      words: [
        "fitting-liquid_a",
        "fitting-liquid_b",
        "fitting-vapour",
        "fitting-vapour_two",
        "fitting-gauging_device",
        "fitting-thermometer_well",
        "fitting-sample_line",
        "fitting-relief_device",
      ],
    },
    { field: "note", label: "phone-note", fill: "text" },
  ],
  released: [
    { field: "as_residue", label: "phone-strip-residue", fill: "choice", words: ["phone-yes", "phone-no"] },
  ],
} as const satisfies Record<string, readonly PaperField[]>;
