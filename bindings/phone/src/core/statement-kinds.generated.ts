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
  "handover_given",
  "handover_taken",
  "attendance",
  "clock",
  "weather",
  "paper",
  "truck_load",
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
  "released",
  "site",
  "tank",
  "instrument",
  "hose",
  "contact",
  "seal_stock",
  "operator",
  "person_key",
  "person_key_confirmed",
  "person_key_ended",
  "held_by",
  "admitted",
  "rules",
] as const;
export type StatementKind = (typeof STATEMENT_KINDS)[number];

/** The words of each vocabulary, in the core's order; in groups where a text holds one of each. */
export const VOCABULARIES = {
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
    "placards in place",
  ],
  clock_event: ["notice", "constructive_placement", "actual_placement", "carrier_told", "pulled"],
  closure_state: ["open", "hand_tight", "tool_tight"],
  contact_role: ["emergency", "carrier", "office"],
  empty_sign: ["rod_at_bottom", "vapour_at_liquid_valve", "liquid_at_closure", "frost_ring"],
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
  heard: ["quiet", "hiss"],
  key_kept: ["pin", "platform"],
  measured: ["pressure", "temperature", "outage", "level", "relative_density", "volume", "rate"],
  part: ["valve", "closure"],
  photo_of: ["car_number", "seal", "threads", "defect", "instrument", "housing", "paper", "other"],
  place: [
    "car",
    "car_low",
    "liquid_line",
    "vapour_line",
    "compressor",
    "shut_off_panel",
    "storage_tank",
    "truck",
    "air",
  ],
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
  | "count"
  | "date"
  | "defect"
  | "entries"
  | "entry"
  | "hold"
  | "key"
  | "last_entry"
  | "nonce"
  | "person"
  | "photo"
  | "photo_file"
  | "procedure"
  | "prose"
  | "site"
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
  clock: { signs: false, about: "event", fields: [{ name: "at", shape: "time", must: false, usual: "now" }] },
  remark: { signs: false, fields: [{ name: "text", shape: "prose", must: true }] },
  car_number_again: { signs: false, fields: [{ name: "car", shape: "car_number", must: true }] },
  car_test_date: { signs: false, about: "test", fields: [{ name: "due", shape: "date", must: true }] },
} as const satisfies Partial<Record<StatementKind, KindForm>>;

/** The paths of slots that the phone names. */
export const SLOTS = {
  seal: (place: string) => `seal/${place}`,
  defect: (defect: string) => `defect/${defect}`,
};
