/**
 * The core's views as they arrive: the serde forms of `VisitView`, `VisitRow`, `SiteView` and what stands in them, as far as screens read
 * them. Lives here: types only. What a field means is documented in the core.
 */
export type Fitting =
  | "liquid_a"
  | "liquid_b"
  | "vapour"
  | "vapour_two"
  | "gauging_device"
  | "thermometer_well"
  | "sample_line"
  | "relief_device";
export type Stage =
  | "receive"
  | "gauge"
  | "connect"
  | "transfer"
  | "recover"
  | "prove_empty"
  | "disconnect"
  | "final_pressure"
  | "close"
  | "release";
export type AskedBy = "law" | "practice" | "this_record";
export type Severity = "note" | "check" | "alarm";

/** One statement in the core's own shape: externally tagged, snake_case (`{closure: {fitting, state}}`). */
export type Statement = Readonly<Record<string, unknown>>;
/** What a shell hands in to be recorded. */
export interface Draft {
  says: Statement;
  slot?: string;
  replaces?: string[];
  why?: string;
  place?: { latitude: number; longitude: number; accuracy_m: number };
}

export interface Amount {
  text: string;
  unit: string;
  value?: number;
}
export interface Finding {
  code: string;
  severity: Severity;
  message: string;
}
export interface Attribution {
  entry: string;
  by: string;
  name: string;
  device: string;
  device_name: string;
  standing: string;
  named: Named;
  claimed: number;
  shown: string;
  device_time: string;
  ahead_millis: number | null;
  place?: { latitude: number; longitude: number; accuracy_m: number };
  receipted: boolean;
  why: string;
}
export interface Attested<T> {
  value: T;
  said: Attribution;
  also: number;
  disputed: boolean;
}

/** What a step records, tagged by `statement`. */
export type RecordAsk = { statement: string } & Readonly<Record<string, unknown>>;
export interface StepView {
  id: string;
  stage: Stage;
  title: string;
  what_to_do: string;
  why: string;
  asked_by: AskedBy;
  source: string;
  cautions: string[];
  fitting: Fitting | null;
  records: RecordAsk[];
  may_record: RecordAsk[];
  missing: RecordAsk[];
  status: "open" | "partly" | "recorded" | "done" | "not_right" | "skipped" | "not_used";
  said: Attribution | null;
  note: string;
  repeat_minutes: number | null;
  due: number | null;
  optional: boolean;
}
export interface StepsView {
  stage: Stage;
  stages: { stage: Stage; closed: number; of: number }[];
  next: string[];
  left_behind: string[];
  steps: StepView[];
}

export interface FittingView {
  fitting: Fitting;
  name: string;
  valve: Attested<"open" | "shut"> | null;
  closure: Attested<"open" | "hand_tight" | "tool_tight"> | null;
  listen: Attested<"quiet" | "hiss"> | null;
  listened_since_shut: boolean;
  line: Attested<{ connected: boolean; hose: string }> | null;
  threads: Attested<Amount> | null;
  used: boolean;
  advice: Finding[];
}
export interface CoverState {
  closed: boolean;
  pinned: boolean;
  bolts_in_place: number;
  bolts_required: number;
}
export interface Reading {
  measured: string;
  place: string;
  purpose: string;
  amount: Amount;
  instrument?: string;
}
/** The ± of a reading in its own unit, and on what that rests. */
export interface ReadingUncertainty {
  plus_minus: number | null;
  by: string;
}
export interface Point {
  amount: Amount;
  instrument: string;
  worth: ReadingUncertainty;
  said: Attribution;
  fate: Fate;
}
export interface ReadingView {
  slot: string;
  title: string;
  measured: string;
  place: string;
  purpose: string;
  current: Attested<Reading> | null;
  history: Point[];
}
export interface SeriesView {
  slot: string;
  title: string;
  measured: string;
  place: string;
  purpose: string;
  points: Point[];
  struck: Point[];
}
export interface Computed {
  value: number;
  unit: string;
  plus_minus?: number;
  largest?: string;
  formula: string;
  source: string;
  findings: Finding[];
}
export interface Quantity {
  name: string;
  title: string;
  value: Computed | null;
  up_to: Computed | null;
  missing: string | null;
}
export interface Piece {
  name: "gauge_rod" | "liquid_valve" | "saturation_bound" | "superheat" | "hold_test";
  says: "liquid" | "no_liquid" | "nothing";
  reason: string;
  computed?: Computed;
}
export interface Weighed {
  outcome: "liquid_indicated" | "no_liquid_indicated" | "not_enough_evidence";
  pieces: Piece[];
  next: string[];
  caution: string;
}
export interface Seal {
  event: string;
  place: string;
  number?: string;
  kind?: string;
  intact: boolean;
  photo?: string;
  note?: string;
}
export interface SealView {
  place: string;
  found: Attested<Seal> | null;
  now: Attested<Seal> | null;
  photos: string[];
  lacks: string[];
  replaced: boolean;
}
export interface PhotoRef {
  sha256: string;
  length: number;
  media: string;
}
export interface TallyItem {
  item: string;
  fitting: Fitting | null;
  out: Attribution | null;
  back: Attribution | null;
}
export interface DefectView {
  id: string;
  fitting: Fitting | null;
  what: string;
  needs_authority: boolean;
  photos: string[];
  said: Attribution;
  visit: string | null;
  forwarded: { to: string; how: string; said: Attribution }[];
  authority: Attested<{
    by: string;
    reference: string;
    spoken_at: number | null;
    written_at: number | null;
    written_due_shown: string | null;
    overdue: boolean;
  }> | null;
  resolved: Attested<string> | null;
}
export interface HoldView {
  id: string;
  because: string;
  said: Attribution;
  open: boolean;
  lifted: Attested<string> | null;
}
export interface HandoverView {
  from: string;
  to: string;
  given: Attribution | null;
  taken: Attribution | null;
  one_sided: boolean;
}
export interface Claim {
  sentence: string;
  said: Attribution;
}
/** `reopened`: who took a settlement of it back, and why. */
export interface Disagreement {
  slot: string;
  about: string;
  claims: Claim[];
  entries: string[];
  reopened: Claim[];
}
export type Fate =
  "live" | "moved_on" | "corrected" | "withdrawn" | "settled" | "agreed" | "withdrawal" | "kept";
/** How far an entry is the word of the person it names. */
export type Named = "by_phone" | "held" | "own_hand" | "hand_not_confirmed" | "hand_not_theirs";
export interface HistoryLine {
  slot: string;
  sentence: string;
  fate: Fate;
  /** Why it no longer stands, or why it does not count. */
  why_gone: string;
  /** Whether saying it binds the person. */
  binds: boolean;
  said: Attribution;
}
export interface PassedOver {
  blocker: string;
  spoken: string;
  why: string;
  said: Attribution;
  stands: boolean;
  fallen: string | null;
  blocks_still: boolean;
}
export interface Blocker {
  code: string;
  missing: string;
  asked_by: AskedBy;
  source: string;
  slot: string;
  fitting: Fitting | null;
  evidence: string[];
  passed_over: PassedOver | null;
}
export interface Offer {
  other: string;
  car: string;
  likeness: string;
  sentence: string;
}
export interface WearPoint {
  fitting: Fitting;
  part: "valve" | "closure";
  amount: Amount;
  visit: string | null;
  at: number;
  said: Attribution;
}

export interface VisitView {
  header: {
    visits: string[];
    car: string;
    opened: Attested<unknown> | null;
    number_again: Attested<string> | null;
    site: string | null;
    site_name: string;
    zone: string;
    local_rules: string;
    spot: string;
    receiver: "fixed_tank" | "truck" | null;
    paper: Attested<{ number?: string; car?: string; un_number?: string; product?: string }> | null;
    product: string;
    emergency: EmergencyGuide | null;
    procedure_title: string;
    procedure_note: string;
    procedure_known: boolean;
    responsible: string | null;
    people: { operator: string; name: string; entries: number }[];
    number_findings: string[];
  };
  stage: Stage;
  steps: StepsView;
  fittings: FittingView[];
  protections: { what: string; set: Attested<boolean> | null }[];
  cover: Attested<CoverState> | null;
  readings: ReadingView[];
  series: SeriesView[];
  computed: Quantity[];
  advice: Finding[];
  empty: {
    signs: { sign: string; seen: Attested<boolean>; speaks_for_liquid: boolean }[];
    decision: Attested<{ accepted: boolean; grounds: string }> | null;
    weighed: Weighed | null;
    not_weighed: string | null;
  };
  trucks: { loads: { truck: string; amount: Amount; said: Attribution }[]; total_gal: number | null };
  seals: SealView[];
  photos: { photo: PhotoRef; of: string; about: string; said: Attribution }[];
  tally: { out: TallyItem[]; back: TallyItem[]; unknown: TallyItem[] };
  defects: DefectView[];
  holds: HoldView[];
  handovers: HandoverView[];
  attendance: {
    threshold_minutes: number;
    connected: boolean;
    gaps: { shown: string; minutes: number; open: boolean }[];
  };
  clock: { event: string; at: Attested<number>; shown: string }[];
  car: { efforts: WearPoint[]; threads: WearPoint[]; fittings: Attested<Fitting[]> | null };
  disagreements: Disagreement[];
  blockers: Blocker[];
  passed_over: PassedOver[];
  release: { released: Attested<boolean> | null; open: number; passed_over: number; note: string };
  offers: Offer[];
  findings: Finding[];
  chain_gaps: string[];
  history: HistoryLine[];
  entries: number;
  unreceipted: number;
}
export interface VisitRow {
  visits: string[];
  car: string;
  site: string | null;
  site_name: string;
  stage: Stage;
  released: boolean;
  kept_by: string;
  open_blockers: number;
  on_hold: boolean;
  disagreements: number;
  alarms: number;
  since: number | null;
  since_shown: string;
  unreceipted: number;
  spot: string;
}
export interface EmergencyGuide {
  un_number: string;
  number: string;
  title: string;
  source: string;
}
export interface Instrument {
  name: string;
  measures: string;
  span: Amount;
  grade?: string;
  calibration_due?: string;
}
export interface Contact {
  role: string;
  name: string;
  telephone: string;
  note?: string;
}
export interface SiteView {
  id: string | null;
  name: string;
  zone: string;
  local_rules: string;
  instruments: Instrument[];
  contacts: Contact[];
  hoses: { name: string; service: string; test_due?: string }[];
  tanks: { name: string }[];
  seal_stock: { from: string; to: string; kind: string }[];
  /** For what comes here; a car's own paper goes before it. */
  emergency: EmergencyGuide | null;
}
export interface Person {
  operator: string;
  name: string;
  active: boolean;
}
export interface Status {
  device: string;
  organisation_key: string | null;
  without_receipt: number;
  photos_waiting: number;
  quarantined: number;
  clock_ahead_millis: number | null;
  damaged: string[];
}

/** A person's key that lives on this phone. */
export interface KeyHere {
  person: string;
  key: string;
  fingerprint: string;
  tries_left: number;
  wait_until: number | null;
  confirmed: boolean;
  ended: boolean;
}
/** Who holds the phone, whose keys are here, what the organisation decided. */
export interface PeopleHere {
  holder: { person: string; how: "act" | "shift"; since: number; until: number } | null;
  keys: KeyHere[];
  can_make: boolean;
  rules: { unlocking: "act" | "shift"; signature_required?: boolean; operator_rights?: string[] };
}
