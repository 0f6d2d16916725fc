/**
 * The kinds of statements, the words their fields may hold, and the forms that are drawn from them. Made from the
 * core's table by `core/tests/statement_kinds.rs`: edit the table, not this file.
 */
export const STATEMENT_KINDS = [
  "reading",
  "valve",
  "closure",
  "listen",
  "line",
  "effort",
  "threads",
  "valve_feel",
  "plug_condition",
  "cover_condition",
  "hose_pressure",
  "next_time",
  "next_time_done",
  "item_out",
  "item_in",
  "step",
  "seal",
  "cover",
  "protection",
  "empty_sign",
  "empty_decision",
  "defect",
  "forwarded",
  "authority",
  "resolved",
  "hold",
  "hold_lifted",
  "incident",
  "incident_stopped",
  "incident_call",
  "incident_closed",
  "leak",
  "leak_checked",
  "car_left",
  "car_moved",
  "outcome",
  "handover_given",
  "handover_taken",
  "attendance",
  "checked_in",
  "clock",
  "weather",
  "paper",
  "truck_load",
  "tank_gauged",
  "recovery_planned",
  "inspection",
  "check",
  "remark",
  "car_number_again",
  "car_fittings",
  "car_capacity",
  "car_diameter",
  "car_test_date",
  "outage_table",
  "opened",
  "photo",
  "agreement",
  "withdrawn",
  "joined",
  "not_joined",
  "passed_over",
  "overridden",
  "last_round",
  "fit_to_unload",
  "released",
  "site",
  "tank",
  "instrument",
  "hose",
  "contact",
  "seal_stock",
  "operator",
  "name_forgotten",
  "person_key",
  "person_key_confirmed",
  "person_key_ended",
  "held_by",
  "admitted",
  "rules",
  "procedure_published",
  "procedure_withdrawn",
  "paper_expected",
  "paper_taken_back",
] as const;
export type StatementKind = (typeof STATEMENT_KINDS)[number];

/** The words of each vocabulary, in the core's order; in groups where a text holds one of each. */
export const VOCABULARIES = {
  billed_by: ["table", "meter", "scale"],
  called: [
    "emergency",
    "response_center",
    "canutec",
    "written_report",
    "carrier",
    "shipper",
    "owner",
    "office",
  ],
  car_end: ["a", "b"],
  car_load: ["residue", "part_loaded", "loaded"],
  checked: [
    "relief device",
    "hoses: service and test date",
    "outside of the car",
    "odorant",
    "room in the truck",
    "no tools under the housing",
    "lines clear of the car",
    "outside of the car, before it is offered",
    "residue paper made out",
    "loaded_paper",
    "placards in place",
    "plant_signs",
    "plant_closed",
    "platform_up",
    "trap_drained",
    "number_as_on_paper",
  ],
  clock_event: [
    "notice",
    "constructive_placement",
    "ordered_in",
    "actual_placement",
    "carrier_told",
    "pulled",
  ],
  closure_state: ["open", "hand_tight", "tool_tight"],
  contact_role: ["emergency", "carrier", "office"],
  cover_part: ["pin", "lug", "hinge"],
  empty_sign: ["rod_at_bottom", "vapour_at_liquid_valve", "liquid_at_closure", "frost_ring"],
  evacuation: ["none", "site", "public", "public_hour"],
  feel: ["easy", "normal", "hard"],
  fitting: [
    "liquid_a",
    "liquid_b",
    "vapour",
    "vapour_two",
    "gauging_device",
    "thermometer_well",
    "sample_line",
    "relief_device",
  ],
  gate: ["unload", "release"],
  gauging_kind: ["rod", "slip_tube", "other"],
  grade: [
    "hd5_propane",
    "commercial_propane",
    "commercial_butane",
    "butane_propane",
    "isobutane",
    "propylene",
  ],
  heard: ["quiet", "hiss"],
  incident_source: ["fitting", "hose", "coupling", "plant", "relief_device", "tank", "truck"],
  injury: ["none", "first_aid", "hospital", "death"],
  insulation: ["none", "thermal_protection", "insulated"],
  key_kept: ["pin", "platform"],
  leak_at: ["coupling", "hose", "packing", "plug", "gasket", "relief_device", "plant"],
  leaves_as: ["unloaded", "bad_order", "refused", "diverted"],
  left_condition: ["designated", "monitored", "valves_closed", "brakes_blocked", "track_secured"],
  measured: ["pressure", "temperature", "outage", "level", "relative_density", "volume", "rate"],
  override_reason: ["done_not_recorded", "not_here", "other_means", "owner_says_so", "reported"],
  part: ["valve", "closure"],
  part_state: ["sound", "worn", "bent", "broken", "missing"],
  photo_of: ["car_number", "seal", "threads", "defect", "instrument", "housing", "paper", "other"],
  place: [
    "car",
    "car_low",
    "liquid_line",
    "vapour_line",
    "compressor",
    "compressor_suction",
    "compressor_discharge",
    "shut_off_panel",
    "storage_tank",
    "truck",
    "air",
  ],
  plug_state: ["sound", "rounded", "seized"],
  precipitation: ["dry", "rain", "freezing_rain", "snow", "frost"],
  presence: ["here", "away"],
  protection: ["blue_sign", "hand_brake", "chocks", "track_secured", "emergency_shut_off", "gas_detector"],
  purpose: ["arrival", "leak_test", "transfer", "recovery", "hold_test", "empty_proof", "final"],
  receiver: ["fixed_tank", "truck"],
  right: [
    "record",
    "settle",
    "lift_hold",
    "override",
    "release",
    "withdraw_others",
    "keep_site",
    "issue_seals",
    "keep_people",
    "publish_procedures",
    "admit",
    "enrol",
    "read",
  ],
  seal_event: ["found", "applied", "removed"],
  seal_kind: ["plastic", "metal_strap", "cable", "bolt"],
  seal_note: ["no_seal_found"],
  seal_place: ["housing_pin", "housing_lug", "gauging_device", "elsewhere"],
  step_outcome: ["done", "not_right", "skipped"],
  tank_moment: ["before", "after"],
  test_date: ["tank_qualification", "relief_device", "service_equipment"],
  told: ["voice", "writing"],
  unlocking: ["act", "shift"],
  valve_position: ["open", "shut"],
  wind: [
    ["n", "ne", "e", "se", "s", "sw", "w", "nw"],
    ["still", "light", "fresh", "strong"],
  ],
} as const;
export type Vocabulary = keyof typeof VOCABULARIES;

export type FieldShape =
  | "amount"
  | "car_number"
  | "coded"
  | "commitment"
  | "commitments"
  | "count"
  | "date"
  | "defect"
  | "entries"
  | "entry"
  | "file"
  | "hold"
  | "incident"
  | "items"
  | "key"
  | "last_entry"
  | "leak"
  | "nonce"
  | "note"
  | "person"
  | "photo"
  | "photo_file"
  | "procedure"
  | "procedure_text"
  | "prose"
  | "site"
  | "sites"
  | "table"
  | "text"
  | "time"
  | "visit"
  | "word"
  | "words"
  | "yes_no";
export interface KindField {
  name: string;
  shape: FieldShape;
  /** Whether it must be given. */
  must: boolean;
  /** Whose words it holds. */
  vocabulary?: Vocabulary;
  /** The unit of an amount that has none of its own. */
  unit?: string;
  /** What it is when nothing is given, as typed. */
  usual?: string;
}
export interface KindForm {
  /** Whether saying it binds the person. */
  signs: boolean;
  /** The field that the form is about and does not ask. */
  about?: string;
  /** The field that holds the id of what the statement makes. */
  makes?: string;
  fields: readonly KindField[];
}

/** The kinds that the phone asks for on a form drawn from their fields. */
export const KIND_FORMS = {
  valve_feel: {
    signs: false,
    fields: [
      { name: "feel", shape: "word", must: true, vocabulary: "feel" },
      { name: "fitting", shape: "word", must: true, vocabulary: "fitting" },
    ],
  },
  plug_condition: {
    signs: false,
    fields: [
      { name: "state", shape: "word", must: true, vocabulary: "plug_state" },
      { name: "fitting", shape: "word", must: true, vocabulary: "fitting" },
      { name: "note", shape: "prose", must: false },
    ],
  },
  cover_condition: {
    signs: false,
    fields: [
      { name: "part", shape: "word", must: true, vocabulary: "cover_part" },
      { name: "state", shape: "word", must: true, vocabulary: "part_state" },
      { name: "note", shape: "prose", must: false },
    ],
  },
  hose_pressure: {
    signs: false,
    fields: [
      { name: "fitting", shape: "word", must: true, vocabulary: "fitting" },
      { name: "amount", shape: "amount", must: true, unit: "psi" },
    ],
  },
  next_time: {
    signs: false,
    makes: "note",
    fields: [
      { name: "what", shape: "prose", must: true },
      { name: "fitting", shape: "word", must: false, vocabulary: "fitting" },
    ],
  },
  next_time_done: { signs: false, about: "note", fields: [{ name: "how", shape: "prose", must: false }] },
  empty_decision: {
    signs: true,
    fields: [
      { name: "accepted", shape: "yes_no", must: true },
      { name: "grounds", shape: "prose", must: true },
    ],
  },
  forwarded: {
    signs: false,
    about: "defect",
    fields: [
      { name: "to", shape: "text", must: true },
      { name: "how", shape: "coded", must: true, vocabulary: "told" },
    ],
  },
  authority: {
    signs: false,
    about: "defect",
    fields: [
      { name: "by", shape: "text", must: true },
      { name: "reference", shape: "text", must: true },
      { name: "spoken_at", shape: "time", must: false },
      { name: "written_at", shape: "time", must: false },
    ],
  },
  resolved: { signs: false, about: "defect", fields: [{ name: "how", shape: "prose", must: true }] },
  hold: { signs: false, makes: "hold", fields: [{ name: "because", shape: "prose", must: true }] },
  hold_lifted: { signs: true, about: "hold", fields: [{ name: "because", shape: "prose", must: true }] },
  incident: {
    signs: false,
    makes: "incident",
    fields: [
      { name: "source", shape: "coded", must: true, vocabulary: "incident_source" },
      { name: "noticed_at", shape: "time", must: false, usual: "now" },
      { name: "injury", shape: "word", must: false, vocabulary: "injury" },
      { name: "ignition", shape: "yes_no", must: false },
      { name: "evacuation", shape: "word", must: false, vocabulary: "evacuation" },
      { name: "closed", shape: "yes_no", must: false },
      { name: "what", shape: "prose", must: false },
      { name: "fitting", shape: "word", must: false, vocabulary: "fitting" },
    ],
  },
  incident_stopped: {
    signs: false,
    about: "incident",
    fields: [
      { name: "at", shape: "time", must: false, usual: "now" },
      { name: "loss", shape: "amount", must: false, unit: "gal" },
      { name: "minimal", shape: "yes_no", must: false },
    ],
  },
  incident_call: {
    signs: false,
    about: "incident",
    fields: [
      { name: "to", shape: "coded", must: true, vocabulary: "called" },
      { name: "at", shape: "time", must: false, usual: "now" },
      { name: "number", shape: "text", must: false },
    ],
  },
  incident_closed: { signs: true, about: "incident", fields: [{ name: "how", shape: "prose", must: true }] },
  leak: {
    signs: false,
    makes: "leak",
    fields: [
      { name: "at", shape: "coded", must: true, vocabulary: "leak_at" },
      { name: "action", shape: "prose", must: false },
      { name: "fitting", shape: "word", must: false, vocabulary: "fitting" },
    ],
  },
  leak_checked: {
    signs: false,
    about: "leak",
    fields: [
      { name: "tight", shape: "yes_no", must: true },
      { name: "note", shape: "prose", must: false },
    ],
  },
  car_left: {
    signs: false,
    fields: [
      { name: "connected", shape: "yes_no", must: true },
      { name: "conditions", shape: "words", must: false, vocabulary: "left_condition" },
      { name: "until", shape: "time", must: false },
      { name: "note", shape: "prose", must: false },
    ],
  },
  car_moved: {
    signs: false,
    fields: [
      { name: "to", shape: "text", must: false },
      { name: "by", shape: "text", must: false },
    ],
  },
  outcome: {
    signs: true,
    fields: [
      { name: "load", shape: "word", must: true, vocabulary: "car_load" },
      { name: "because", shape: "coded", must: true, vocabulary: "leaves_as" },
      { name: "to", shape: "text", must: false },
      { name: "note", shape: "prose", must: false },
    ],
  },
  clock: { signs: false, about: "event", fields: [{ name: "at", shape: "time", must: false, usual: "now" }] },
  truck_load: {
    signs: false,
    fields: [
      { name: "truck", shape: "text", must: true },
      { name: "amount", shape: "amount", must: true, unit: "gal" },
      { name: "ticket", shape: "text", must: false },
      { name: "driver", shape: "text", must: false },
      { name: "level", shape: "amount", must: false, unit: "%" },
      { name: "temperature", shape: "amount", must: false, unit: "°F" },
      { name: "seal", shape: "text", must: false },
    ],
  },
  tank_gauged: {
    signs: false,
    fields: [
      { name: "moment", shape: "word", must: true, vocabulary: "tank_moment" },
      { name: "tank", shape: "text", must: true },
      { name: "level", shape: "amount", must: false, unit: "%" },
      { name: "pressure", shape: "amount", must: false, unit: "psi" },
      { name: "temperature", shape: "amount", must: false, unit: "°F" },
      { name: "meter", shape: "amount", must: false, unit: "gal" },
    ],
  },
  recovery_planned: {
    signs: false,
    fields: [
      { name: "target", shape: "amount", must: true, unit: "psi" },
      { name: "swept", shape: "amount", must: false, unit: "ft³/min" },
      { name: "efficiency", shape: "amount", must: false, unit: "%" },
      { name: "price", shape: "amount", must: false, unit: "money" },
      { name: "cost", shape: "amount", must: false, unit: "money/h" },
    ],
  },
  inspection: {
    signs: false,
    fields: [
      { name: "by", shape: "text", must: true },
      { name: "looked_at", shape: "prose", must: false },
      { name: "found", shape: "yes_no", must: false },
      { name: "finding", shape: "prose", must: false },
      { name: "copy_left", shape: "yes_no", must: false },
    ],
  },
  remark: { signs: false, fields: [{ name: "text", shape: "prose", must: true }] },
  car_number_again: { signs: false, fields: [{ name: "car", shape: "car_number", must: true }] },
  car_test_date: { signs: false, about: "test", fields: [{ name: "due", shape: "date", must: true }] },
} as const satisfies Partial<Record<StatementKind, KindForm>>;

/** The paths of slots that the phone names. */
export const SLOTS = {
  seal: (place: string) => `seal/${place}`,
  defect: (defect: string) => `defect/${defect}`,
};

/** The names that messages have for units, by the symbols with which amounts are stored. */
export const UNIT_NAMES = {
  psi: "psi_gauge",
  kPa: "kilopascal_gauge",
  bar: "bar_gauge",
  psia: "psi_absolute",
  "kPa abs": "kilopascal_absolute",
  "°F": "fahrenheit",
  "°C": "celsius",
  K: "kelvin",
  "Δ°F": "fahrenheit_difference",
  in: "inch",
  ft: "foot",
  m: "metre",
  mm: "millimetre",
  gal: "gallon",
  L: "litre",
  "ft³": "cubic_foot",
  "m³": "cubic_metre",
  lb: "pound",
  kg: "kilogram",
  "lb/ft³": "pound_per_cubic_foot",
  "kg/m³": "kilogram_per_cubic_metre",
  "lb/gal": "pound_per_gallon",
  "gal/min": "gallon_per_minute",
  "ft³/min": "cubic_foot_per_minute",
  "ft·lbf": "foot_pound",
  "N·m": "newton_metre",
  s: "second",
  min: "minute",
  h: "hour",
  "1": "one",
  "%": "percent",
  turns: "turns",
  pcs: "pieces",
  money: "money",
  "gal/h": "gallon_per_hour",
  "money/h": "money_per_hour",
} as const;
