// @generated from the Rust views by core/src/book/shell_types_tests.rs. Do not edit.

/**
 * A typed amount. `text` is exactly what was entered; `value` is its reading in `unit`, when it has one.
 *
 * Whatever number stands in bytes from outside, one that cannot be ([`Unit::can_be`]) is none here: the text stays.
 */
export type Amount = { text: string, unit: Unit, value?: number, };

/** Something that can be recorded, and at which fitting: enough for a shell to present the right keys or form. */
export type Ask = {
  /**
   * The slot the answer stands in, which names the ask in a shell's addresses. Empty for what is filed under a
   * random id; the first of several for a seal.
   */
  slot: string,
  /** At which fitting. */
  fitting?: Fitting, } & ({ "statement": "opened", } | { "statement": "car_number_again", } | { "statement": "paper", } | { "statement": "clock", event: ClockEvent, } | { "statement": "reading", measured: Measured, place: Place, purpose: Purpose, unit: Unit, } | { "statement": "valve", position: ValvePosition, } | { "statement": "closure", state: ClosureState, } | { "statement": "listen", } | { "statement": "line", connected: boolean, } | { "statement": "effort", part: Part, } | { "statement": "threads", } | { "statement": "item_out", item: string, } | { "statement": "item_in", item: string, } | { "statement": "seal", event: SealEvent, } | { "statement": "photo", of: PhotoOf, } | { "statement": "defect", } | { "statement": "forwarded", } | { "statement": "hold", } | { "statement": "attendance", presence: Presence, } | { "statement": "cover", } | { "statement": "protection", what: Protection, set: boolean, } | { "statement": "weather", } | { "statement": "empty_sign", sign: EmptySign, } | { "statement": "empty_decision", } | { "statement": "truck_load", } | { "statement": "check", what: string, } | { "statement": "car_fittings", } | { "statement": "car_capacity", } | { "statement": "car_diameter", } | { "statement": "outage_table", } | { "statement": "car_test_date", test: TestDate, } | { "statement": "released", });

/** Who asks for something. */
export type AskedBy = "law" | "practice" | "this_record";

/** Attendance. */
export type AttendanceView = {
  /** How many minutes without a sign are pointed out. */
  threshold_minutes: number,
  /** Whether the site said so, or the tool's default is used. */
  threshold_from_site: boolean,
  /** Whether a line is on now. */
  connected: boolean,
  /** The gaps. */
  gaps: Array<GapView>, };

/**
 * A value that stands, with its author. Where entries disagree it is the one claimed last, and
 * `disputed` says so: both stand side by side in the view's disagreements.
 */
export type Attested<T> = {
  /** What was said. */
  value: T,
  /** Who said it; where it was settled, who settled it. */
  said: Attribution,
  /** Where it was settled: who had said it, and when. */
  kept?: Attribution,
  /** How many other live entries say the same. */
  also: number,
  /** Whether a live entry says something else. */
  disputed: boolean, };

/** Who said something, when and with what. */
export type Attribution = {
  /** The entry. */
  entry: EntryId,
  /** The person's code. */
  by: OperatorId,
  /** The person's name from the roster, or the code. */
  name: string,
  /** The device. */
  device: DeviceId,
  /** The name it was enrolled under, or the first digits of its key. */
  device_name: string,
  /** How the organisation stands behind the device. */
  standing: Standing,
  /** How far this is the person's own word. */
  named: Named,
  /** The device's clock. */
  claimed: UtcMillis,
  /** The claimed time, corrected by the known difference, in the site's zone. */
  shown: string,
  /** The claimed time as the device displayed it, with its offset. */
  device_time: string,
  /** What the device's clock is known to be ahead of the server's, milliseconds. */
  ahead_millis: number | null,
  /** Whether that was said by a neighbouring entry of the device, not by this one. */
  ahead_from_neighbour: boolean,
  /** Where the device said it was. */
  place?: Position,
  /** Whether a receipt of the server covers the entry. */
  receipted: boolean,
  /** The reason given with the entry. */
  why: string, };

/** An authority's answer. */
export type AuthorityView = {
  /** Who gave it. */
  by: string,
  /** Its reference. */
  reference: string,
  /** When it was spoken. */
  spoken_at: UtcMillis | null,
  /** When it came in writing. */
  written_at: UtcMillis | null,
  /** By when it must come in writing, when it was spoken only. */
  written_due: UtcMillis | null,
  /** The same in the site's zone. */
  written_due_shown: string | null,
  /** Whether that is past. */
  overdue: boolean, };

/** Something that is missing before release. */
export type Blocker = {
  /** Stable code with its fitting, slot or name, such as `closure_not_tool_tight.liquid_a`. */
  code: string,
  /** What is missing, in a sentence. */
  missing: string,
  /** Who asks for it. */
  asked_by: AskedBy,
  /** On what ground, in words. */
  source: string,
  /** The slot in which it is missing. */
  slot: string,
  /** At which fitting. */
  fitting: Fitting | null,
  /** The live entries it stands on. Whoever passes it over puts these into `seen`. */
  evidence: Array<EntryId>,
  /** Who passed it over, where that stands. */
  passed_over: PassedOver | null, };

/** What is missing. The words begin the codes of blockers, and are frozen with them. */
export type BlockerKind = "line_connected" | "valve_not_shut" | "listen_missing" | "hiss_heard" | "closure_not_tool_tight" | "threads_one_or_less" | "unreadable_entries" | "not_opened" | "empty_not_accepted" | "empty_contradicted" | "final_pressure_missing" | "item_out" | "cover_not_closed" | "cover_not_pinned" | "cover_bolts" | "seal_incomplete" | "seal_missing" | "blue_sign_down_early" | "hold_open" | "disagreement" | "authority_missing";

/** What kind of blocker it is, and where it is cleared. */
export type BlockerLead = {
  /** Its kind. */
  kind: BlockerKind,
  /** Where it is cleared. */
  lead: Lead, };

/** What there is to know of a visit to compare it with others. */
export type Brief = {
  /** The visit; of a joined stay, the first of them. */
  visit: VisitId,
  /** All visits of the stay. */
  joined: Array<VisitId>,
  /** The car's number as typed. */
  car: CarNumber,
  /** Where. */
  site: SiteId | null,
  /** Its first claimed time. */
  from: UtcMillis,
  /**
   * Its last claimed time; nothing while the car is still there, whatever clock looks at it: two
   * devices with the same entries have the same brief.
   */
  until: UtcMillis | null,
  /** Visits it was compared with and found not to be the same stay as. */
  not_joined: Array<VisitId>, };

/** A car, named by its normalised number, so that documents made apart are the same document. */
export type CarId = string;

/** A car number exactly as it was typed. */
export type CarNumber = string;

/** What is odd about a car number. */
export type CarNumberFinding = "unusual_form" | "wrong_check_digit";

/** What is known of a car. */
export type CarView = {
  /** Shell capacity. */
  capacity: Attested<Amount> | null,
  /** Inside diameter. */
  diameter: Attested<Amount> | null,
  /** The owner's outage table. */
  outage_table: Attested<OutageTableView> | null,
  /** The valves and openings under its housing. */
  fittings: Attested<Array<Fitting>> | null,
  /** Test dates. */
  test_dates: Array<TestDateView>,
  /** Closing efforts over all visits, by time. */
  efforts: Array<WearPoint>,
  /** Thread counts over all visits, by time. */
  threads: Array<WearPoint>,
  /** Defects over all visits, by time. */
  defects: Array<DefectView>, };

/** A gap in a device's chain, and the same in a sentence. */
export type ChainGapView = {
  /** In a sentence. */
  sentence: string, } & ({ "what": "missing",
  /** The device. */
  device: DeviceId,
  /** First missing number. */
  from: number,
  /** Last missing number. */
  to: number, } | { "what": "doubled",
  /** The device. */
  device: DeviceId,
  /** The number. */
  seq: number,
  /** The entries. */
  entries: Array<EntryId>, } | { "what": "broken",
  /** The device. */
  device: DeviceId,
  /** The number of the entry that names it. */
  seq: number,
  /** The entry. */
  entry: EntryId, });

/** A check with a free name. */
export type CheckView = {
  /** What was checked. */
  what: string,
  /** Whether it was right. */
  right: Attested<boolean>,
  /** What was seen. */
  note: string, };

/** One side of a disagreement. */
export type Claim = {
  /** What is claimed, in a sentence. */
  sentence: string,
  /** Who claims it. */
  said: Attribution, };

/** An event of the car's clock. */
export type ClockEvent = "notice" | "constructive_placement" | "actual_placement" | "carrier_told" | "pulled";

/** An event of the car's clock: raw times, from which detention is reckoned. */
export type ClockView = {
  /** Which event. */
  event: ClockEvent,
  /** When it happened. */
  at: Attested<UtcMillis>,
  /** The same in the site's zone. */
  shown: string, };

/** How far a plug or cap is in. */
export type ClosureState = "open" | "hand_tight" | "tool_tight";

/** A code, or what somebody typed. */
export type Coded = string;

/** A computed value. `plus_minus` is half the width of the 95 % interval, in `unit`. */
export type Computed = {
  /** The value in `unit`, finite. */
  value: number,
  /** Its unit. */
  unit: Unit,
  /** Expanded uncertainty at 95 % in `unit` (JCGM 100:2008, 6.2); absent when nothing is known of the inputs'. */
  plus_minus?: number,
  /** The input that contributes most to `plus_minus`. */
  largest?: string,
  /** Formula id and version, such as `residue/1`. */
  formula: string,
  /** Document, edition, table or equation the formula comes from. */
  source: string,
  /** What to doubt about it. */
  findings: Array<Finding>, };

/** Somebody to call. */
export type Contact = {
  /** What for: a code, or as typed. */
  role: Coded,
  /** Who. */
  name: string,
  /** Telephone. */
  telephone: string,
  /** Where to stand, which shut-off, anything else. */
  note?: string, };

/** The housing cover. */
export type CoverState = {
  /** Whether it is down. */
  closed: boolean,
  /** Whether the pin is in. */
  pinned: boolean,
  /** Bolts counted in place. */
  bolts_in_place: number,
  /** Bolts it should have. */
  bolts_required: number, };

/** A defect of the car or its equipment. */
export type Defect = {
  /** This defect. */
  defect: DefectId,
  /** At which fitting, if at one. */
  fitting?: Fitting,
  /** What is wrong. */
  what: string,
  /** Whether the car may move only with an authority's approval. */
  needs_authority: boolean,
  /** The photograph of it. */
  photo?: Digest, };

/** A defect noted on a car. */
export type DefectId = string;

/** A defect and what became of it. */
export type DefectView = {
  /** Which. */
  id: DefectId,
  /** At which fitting. */
  fitting: Fitting | null,
  /** What is wrong. */
  what: string,
  /** Whether the car moves only with an authority's approval. */
  needs_authority: boolean,
  /** Photographs of it. */
  photos: Array<Digest>,
  /** Who noted it. */
  said: Attribution,
  /** During which visit. */
  visit: VisitId | null,
  /** To whom it was reported. */
  forwarded: Array<ForwardedView>,
  /** What an authority answered. */
  authority: Attested<AuthorityView> | null,
  /** How it was put right. */
  resolved: Attested<string> | null, };

/** A device: its Ed25519 public key. */
export type DeviceId = string;

/** A device in this visit. */
export type DeviceView = {
  /** Its key. */
  device: DeviceId,
  /** The name it was enrolled under, or the first digits of its key. */
  name: string,
  /** How the organisation stands behind it; the worst over its entries here. */
  standing: Standing,
  /** How many entries. */
  entries: number,
  /** What its clock was last known to be ahead, milliseconds. */
  ahead_millis: number | null, };

/** SHA-256 of some exact bytes: a photograph, a procedure, a change. */
export type Digest = string;

/** Two or more live entries of one slot that differ. */
export type Disagreement = {
  /** The slot; settling it is an agreement with this slot that replaces `entries`. */
  slot: string,
  /** The slot in words. */
  about: string,
  /** Each claim, in order. */
  claims: Array<Claim>,
  /** The live entries. */
  entries: Array<EntryId>,
  /** Where it had been settled and the settlement was taken back: who did, and why. The newest comes last. */
  reopened: Array<Claim>, };

/** An entry to be made. Its JSON form is what shells hand in. */
export type Draft = {
  /** What it says. */
  says: Statement,
  /** The slot, for the statements that speak about another's (agreement, withdrawal); empty otherwise. */
  slot: string,
  /** Entries it stands in place of. */
  replaces: Array<EntryId>,
  /** Why; required with `replaces` and for passing over a blocker. */
  why: string,
  /** Where the device was, if it may say. */
  place: Position | null, };

/** Which page of the guidebook an emergency crew opens. */
export type EmergencyGuide = {
  /** The product it is for, as "UN1075". */
  un_number: string,
  /** The guide's number. */
  number: string,
  /** What the guide is about. */
  title: string,
  /** Where the number is published. */
  source: string, };

/** A decision. */
export type EmptyDecisionView = {
  /** Taken as empty of liquid. */
  accepted: boolean,
  /** On what grounds. */
  grounds: string, };

/** Evidence that bears on whether liquid is left. */
export type EmptySign = "rod_at_bottom" | "vapour_at_liquid_valve" | "liquid_at_closure" | "frost_ring";

/** One sign. */
export type EmptySignView = {
  /** Which. */
  sign: EmptySign,
  /** Whether it was seen. */
  seen: Attested<boolean>,
  /** Whether it speaks for liquid being left. */
  speaks_for_liquid: boolean, };

/** The evidence on whether the liquid is out, and what somebody decided. */
export type EmptyView = {
  /** Each sign and whether it was seen. */
  signs: Array<EmptySignView>,
  /** The decision. */
  decision: Attested<EmptyDecisionView> | null,
  /** The evidence, weighed piece by piece. A model's opinion, never a decision. */
  weighed: Weighed | null,
  /** Why the evidence could not be weighed. */
  not_weighed: string | null, };

/** A disagreement that is over. */
export type EndedDisagreement = {
  /** The slot. */
  slot: string,
  /** The slot in words. */
  about: string,
  /** What was claimed. */
  claims: Array<Claim>,
  /** What ended it. */
  ended_by: Claim,
  /** Whether it was settled or corrected with a reason; otherwise a later record just moved on. */
  settled: boolean,
  /** The account that was agreed on, where a settlement chose one. */
  agreed: EntryId | null,
  /**
   * The entry to take back, with a reason, where the disagreement should be open again; nothing where it was
   * not ended by a settlement that stands.
   */
  reopened_by_withdrawing: EntryId | null, };

/** SHA-256 of an entry's signed bytes. */
export type EntryId = string;

/** What became of an entry. */
export type Fate = "live" | "moved_on" | "corrected" | "withdrawn" | "settled" | "agreed" | "withdrawal" | "kept";

/** Something noticed about an input or a result, in words a person can act on. */
export type Finding = {
  /** Stable identifier in snake_case, for tests and translation. */
  code: string,
  /** How much it matters. */
  severity: Severity,
  /** One or two sentences, with the arithmetic where there is some. */
  message: string, };

/** A valve or opening under the housing of a pressure tank car. */
export type Fitting = "liquid_a" | "liquid_b" | "vapour" | "vapour_two" | "gauging_device" | "thermometer_well" | "sample_line" | "relief_device";

/** One fitting as it stands. */
export type FittingView = {
  /** Which. */
  fitting: Fitting,
  /** As people call it. */
  name: string,
  /** Where its valve stands, if it has one. */
  valve: Attested<ValvePosition> | null,
  /** How far its plug or cap is in. */
  closure: Attested<ClosureState> | null,
  /** What was heard last. */
  listen: Attested<Heard> | null,
  /** Whether somebody listened after the valve was last shut. */
  listened_since_shut: boolean,
  /** Its line. */
  line: Attested<LineState> | null,
  /** Full threads engaged. */
  threads: Attested<Amount> | null,
  /** Whether a line was ever on it in this visit. */
  used: boolean,
  /** Closing efforts over all visits, by time. */
  efforts: Array<WearPoint>,
  /** Defects noted at it, at this visit or earlier ones. */
  defects: Array<DefectId>,
  /** What its past and its efforts suggest to whoever works it next. */
  advice: Array<Finding>, };

/** A report of a defect to somebody. */
export type ForwardedView = {
  /** To whom. */
  to: string,
  /** How: a code, or as typed. */
  how: Coded,
  /** Who reported it. */
  said: Attribution, };

/** A time without a sign of attendance while a line was connected. */
export type GapView = {
  /** From. */
  from: UtcMillis,
  /** Until. */
  until: UtcMillis,
  /** From and until in the site's zone. */
  shown: string,
  /** How long, minutes. */
  minutes: number,
  /** Whether somebody had written that they left. */
  said_away: boolean,
  /** Whether every valve with a line on it was recorded shut when it began. */
  valves_shut: boolean,
  /** Whether it still goes on. */
  open: boolean, };

/** What a shell needs beside the record. */
export type Guide = {
  /** What the steps ask for, in their order; steps that ask for nothing are left out. */
  steps: Array<StepAsks>,
  /**
   * Every ask that has a name of its own, by its slot: what steps ask for, what can be recorded at each fitting and
   * elsewhere at any time, and what was recorded already and may have to be put right.
   */
  asks: { [key in string]: Ask },
  /** Kind and lead of each blocker, by its code. */
  leads: { [key in string]: BlockerLead }, };

/** A whole stay as a shell is handed it. */
export type GuidedVisit = {
  /** What the shell needs beside it. */
  guide: Guide,
  /** Which car, where, into what, who, with what. */
  header: Header,
  /** Where the job stands. */
  stage: Stage,
  /** The steps of the procedure. */
  steps: StepsView,
  /** The fittings. */
  fittings: Array<FittingView>,
  /** The protections. */
  protections: Array<ProtectionView>,
  /** The housing cover. */
  cover: Attested<CoverState> | null,
  /** Readings with one truth. */
  readings: Array<ReadingView>,
  /** Series of readings. */
  series: Array<SeriesView>,
  /** Computed quantities. */
  computed: Array<Quantity>,
  /** Advice computed from weather and record. */
  advice: Array<Finding>,
  /** The evidence on whether the liquid is out. */
  empty: EmptyView,
  /** Trucks loaded. */
  trucks: TrucksView,
  /** Seals. */
  seals: Array<SealView>,
  /** Photographs. */
  photos: Array<PhotoView>,
  /** What is out. */
  tally: TallyView,
  /** Defects of this visit and, marked by their visit, earlier ones. */
  defects: Array<DefectView>,
  /** Holds. */
  holds: Array<HoldView>,
  /** Handovers. */
  handovers: Array<HandoverView>,
  /** Attendance. */
  attendance: AttendanceView,
  /** The car's clock. */
  clock: Array<ClockView>,
  /** Checks with a free name. */
  checks: Array<CheckView>,
  /** The weather recorded last, in a sentence. */
  weather: Attested<string> | null,
  /** What is known of the car, this visit included. */
  car: CarView,
  /** What differs and is not settled. */
  disagreements: Array<Disagreement>,
  /** What differed and is over. */
  ended_disagreements: Array<EndedDisagreement>,
  /** What is missing before release. */
  blockers: Array<Blocker>,
  /** Every word of passing over ever given. */
  passed_over: Array<PassedOver>,
  /** Where release stands. */
  release: ReleaseView,
  /** What is needed to compare this stay with others; nothing while nobody opened it. */
  brief: Brief | null,
  /** Offers to join this stay with another record. */
  offers: Array<Offer>,
  /** What is worth pointing out, worst first. */
  findings: Array<Finding>,
  /** Entries missing or doubled in the chain of a device that took part. */
  chain_gaps: Array<ChainGapView>,
  /** Entries of kinds this version does not know, kept whole. */
  unrecognised: Array<HistoryLine>,
  /** Every entry in causal and then claimed order, as a sentence. */
  history: Array<HistoryLine>,
  /** How many entries. */
  entries: number,
  /** How many of them no receipt covers. */
  unreceipted: number, };

/** A handover. */
export type HandoverView = {
  /** Who gave. */
  from: OperatorId,
  /** Who took. */
  to: OperatorId,
  /** The giver's entry. */
  given: Attribution | null,
  /** The taker's entry. */
  taken: Attribution | null,
  /** Signed by one of the two only. */
  one_sided: boolean, };

/** The head of a visit. */
export type Header = {
  /** The visits of this stay, more than one when they were joined. */
  visits: Array<VisitId>,
  /** The car's number in its normal form; empty while nobody opened the visit. */
  car: string,
  /** Its id. */
  car_id: CarId | null,
  /** How it was opened. */
  opened: Attested<Opened> | null,
  /** What is odd about the number. */
  number_findings: Array<CarNumberFinding>,
  /** The number as read a second time. */
  number_again: Attested<CarNumber> | null,
  /** The site's id. */
  site: SiteId | null,
  /** The site's name; empty while it is not known here. */
  site_name: string,
  /** The zone times are shown in. */
  zone: string,
  /** Local code and owner's instructions that come first, as the site has them. */
  local_rules: string,
  /** Track or spot. */
  spot: string,
  /** What receives the cargo. */
  receiver: Receiver | null,
  /** What the shipping paper says. */
  paper: Attested<Paper> | null,
  /** The product from the paper; empty while there is none. */
  product: string,
  /** The emergency guide of the paper's UN number; nothing without a paper or for a number unknown here. */
  emergency: EmergencyGuide | null,
  /** The procedure followed. */
  procedure: Digest | null,
  /** Its title and edition. */
  procedure_title: string,
  /** What stands above it. */
  procedure_note: string,
  /** Whether that very text is known here; otherwise the default is shown in its stead. */
  procedure_known: boolean,
  /** Everybody who made an entry. */
  people: Array<PersonView>,
  /** Every device an entry was made on. */
  devices: Array<DeviceView>,
  /** Who is responsible for the car now. */
  responsible: OperatorId | null,
  /** First claimed time. */
  since: UtcMillis | null,
  /** The same in the site's zone. */
  since_shown: string,
  /** Last claimed time. */
  latest: UtcMillis | null, };

/** What was heard at a fitting after it was shut. */
export type Heard = "quiet" | "hiss";

/** One entry as a sentence. */
export type HistoryLine = {
  /** The slot it stands in. */
  slot: string,
  /** What it says. */
  sentence: string,
  /** What became of it. */
  fate: Fate,
  /** Why it no longer stands, in the words of whoever corrected it; or why it does not count. */
  why_gone: string,
  /** Whether saying this binds the person, so that it matters how they are named. */
  binds: boolean,
  /** Who said it. */
  said: Attribution, };

/** A hold: somebody said stop. */
export type HoldId = string;

/** A hold. */
export type HoldView = {
  /** Which. */
  id: HoldId,
  /** Why. */
  because: string,
  /** Who said stop. */
  said: Attribution,
  /** Whether it still stands. */
  open: boolean,
  /** Why it was lifted, and by whom. */
  lifted: Attested<string> | null, };

/** Who holds the phone: the person whose key is unlocked. */
export type Holder = {
  /** Who. */
  person: OperatorId,
  /** For one act or the shift. */
  how: Unlocking,
  /** Since when. */
  since: UtcMillis,
  /** Until when at the latest. */
  until: UtcMillis, };

/** A hose. */
export type Hose = {
  /** Its number at the site. */
  name: string,
  /** The service it is made for, as marked on it. */
  service: string,
  /** When its test is due, `YYYY-MM-DD`; empty when unknown. */
  test_due?: string, };

/** An instrument. */
export type Instrument = {
  /** Its name at the site, as written on it. */
  name: string,
  /** What it measures: a code, or as typed. */
  measures: Coded,
  /** Full span. */
  span: Amount,
  /** Accuracy grade (ASME B40.100 for pressure gauges: 4A, 3A, 2A, 1A, A, B, C, D); empty when unknown. */
  grade?: string,
  /** When its calibration is due, `YYYY-MM-DD`; empty when unknown. */
  calibration_due?: string, };

/** A thing that is out. */
export type ItemView = {
  /** What it is called. */
  item: string,
  /** The closure it stands in for. */
  fitting: Fitting | null,
  /** Who took it out. */
  out: Attribution | null,
  /** Who brought it back; nothing while it is out. */
  back: Attribution | null, };

/** A key that lives on this device. */
export type KeyHere = {
  /** Whose. */
  person: OperatorId,
  /** The public half. */
  key: DeviceId,
  /** Its sixteen digits, for the telephone. */
  fingerprint: string,
  /** Tries left before it is locked here for good; none when it is. */
  tries_left: number,
  /** From when it may be tried again, if it has to wait. */
  wait_until: UtcMillis | null,
  /** Whether the office confirmed it, as far as is known here. */
  confirmed: boolean,
  /** Whether the office ended it, as far as is known here. */
  ended: boolean, };

/** How a person's key is kept on the phone it was made on. */
export type KeyKept = "pin" | "platform";

/** The last entry of a device that its organisation had when it was revoked. */
export type LastEntry = {
  /** Its number in the device's chain. */
  seq: number,
  /** Which it is. */
  entry: EntryId, };

/** Where a blocker is cleared. */
export type Lead = { "to": "disagreement",
  /** The slot. */
  slot: string, } | { "to": "empty_proof" } | { "to": "ask",
  /** The slot of the ask, see [`Guide::asks`]. */
  slot: string, } | { "to": "tally" } | { "to": "cover" } | { "to": "seal",
  /** What happens to it. */
  event: SealEvent, } | { "to": "holds" } | { "to": "defects" } | { "to": "fitting",
  /** Which. */
  fitting: Fitting, } | { "to": "step" };

/** Why two visits are laid side by side. */
export type Likeness = "same_car" | "near_number";

/** A line as it stands. */
export type LineState = {
  /** Whether it is on. */
  connected: boolean,
  /** Which hose; empty when it was not said. */
  hose: string, };

/** What would be different. */
export type Meaning = {
  /** The uncertainty of the reading itself, where the draft is one. */
  worth: ReadingUncertainty | null,
  /** Quantities that have another value; each has one. */
  figures: Array<Quantity>,
  /** New blockers first, then new findings, then what still keeps a quantity from being computed. Each sentence once. */
  findings: Array<Meant>, };

/** Something a draft would bring up. */
export type Meant = {
  /** In a sentence. */
  message: string,
  /** Whether it should be looked at before going on. */
  hot: boolean, };

/** What a reading measures. */
export type Measured = "pressure" | "temperature" | "outage" | "level" | "relative_density" | "volume" | "rate";

/** How far an entry is the word of the person it names. */
export type Named = "by_phone" | "held" | "own_hand" | "hand_not_confirmed" | "hand_not_theirs";

/** An offer to join a visit with another. */
export type Offer = {
  /** The other visit. */
  other: VisitId,
  /** Its car's number. */
  car: CarNumber,
  /** Why it is offered. */
  likeness: Likeness,
  /** In a sentence. */
  sentence: string, };

/** How a visit begins. */
export type OpenVisit = {
  /** The car's number as read from the stencil. */
  car: string,
  /** Where it stands. */
  site: SiteId,
  /** What receives the cargo. */
  receiver: Receiver,
  /** Which procedure. */
  procedure: Digest,
  /** Track or spot. */
  spot: string, };

/** The beginning of a visit. */
export type Opened = {
  /** The car's number as read from the stencil. */
  car: CarNumber,
  /** Where it stands. */
  site: SiteId,
  /** What receives the cargo. */
  receiver: Receiver,
  /** Which procedure, by the digest of its text. */
  procedure: Digest,
  /** Track or spot, as the site calls it. */
  spot?: string,
  /**
   * What the visit's id was made from together with the site, see [`VisitId::at_site`]: it binds the
   * visit to the site it was begun at. Absent in records of version one.
   */
  nonce?: VisitNonce, };

/** A person of the organisation. */
export type Operator = {
  /** The short code. */
  operator: OperatorId,
  /** The name. */
  name: string,
  /** Last training, `YYYY-MM-DD`; empty when unknown. */
  trained_on?: string,
  /** Whether they are with the organisation now. */
  active: boolean, };

/** The person who makes an entry: the short code the organisation knows them by, 1–64 characters. */
export type OperatorId = string;

/** The owner's outage table. */
export type OutageTableView = {
  /** Owner's name for it. */
  name: string,
  /** Rows of outage in inches and volume in gallons. */
  rows: Array<[number, number]>,
  /** Whether the volumes are of liquid; otherwise of the empty space. */
  liquid: boolean, };

/** What all of it together indicates. Never "empty": that is a person's word. */
export type Outcome = "liquid_indicated" | "no_liquid_indicated" | "not_enough_evidence";

/** What the shipping paper says. Every field may be empty: what is not on the paper is not made up. */
export type Paper = {
  /** The paper's own number. */
  number?: string,
  /** The car number as printed there. */
  car?: string,
  /** Who shipped it. */
  shipper?: string,
  /** Identification number, such as UN1075. */
  un_number?: string,
  /** Proper shipping name. */
  product?: string,
  /** Billed quantity. */
  billed?: Amount,
  /** Relative density at 60 °F as billed. */
  relative_density?: Amount,
  /** Odorised, as the paper says; absent when it says nothing. */
  odorised?: boolean, };

/** What an effort or a wear history is of. */
export type Part = "valve" | "closure";

/** A person's word that a blocker was seen and passed over. */
export type PassedOver = {
  /** The blocker's code. */
  blocker: string,
  /** The code in words. */
  spoken: string,
  /** Why, in the person's words. */
  why: string,
  /** Who and when. */
  said: Attribution,
  /**
   * Whether this word still stands: given with a reason, not withdrawn, and the record has not
   * said anything else since.
   */
  stands: boolean,
  /** Why it does not stand, when it does not. */
  fallen: string | null,
  /** Whether the blocker is still there. */
  blocks_still: boolean, };

/** The people of this device as a shell shows them. */
export type PeopleHere = {
  /** Who holds the phone now. */
  holder: Holder | null,
  /** The keys that live here. */
  keys: Array<KeyHere>,
  /** What the organisation decided. */
  rules: Rules,
  /** Whether a key can be made: the device is enrolled and the secret beside was handed over. */
  can_make: boolean, };

/** A person's own signing key. */
export type PersonKey = {
  /** The person's code. */
  person: OperatorId,
  /** The public half, Ed25519 (RFC 8032). */
  key: DeviceId,
  /** How the secret half is kept. */
  kept: KeyKept, };

/** A person in this visit. */
export type PersonView = {
  /** The code. */
  operator: OperatorId,
  /** The name, or the code. */
  name: string,
  /** How many entries. */
  entries: number, };

/** What a photograph shows. */
export type PhotoOf = "car_number" | "seal" | "threads" | "defect" | "instrument" | "housing" | "paper" | "other";

/** A photograph: the digest and length of its exact bytes. The bytes travel apart from the record. */
export type PhotoRef = {
  /** SHA-256 of the exact bytes received from the camera. */
  sha256: Digest,
  /** Their number. */
  length: number,
  /** Media type, such as `image/jpeg`. */
  media: string, };

/** A photograph. */
export type PhotoView = {
  /** Digest, length and media type of its bytes. */
  photo: PhotoRef,
  /** What it shows. */
  of: PhotoOf,
  /** The slot it belongs to; empty when none. */
  about: string,
  /** Who took it. */
  said: Attribution, };

/** One piece of evidence, judged. */
export type Piece = {
  /** Stable name: gauge_rod, liquid_valve, superheat, hold_test, saturation_bound. */
  name: "gauge_rod" | "liquid_valve" | "superheat" | "hold_test" | "saturation_bound",
  /** What it speaks for. */
  says: Says,
  /** How much it weighs. */
  weight: Weight,
  /** Why, with the arithmetic. */
  reason: string,
  /** The number behind it, where there is one. */
  computed?: Computed, };

/** Where it was measured. */
export type Place = "car" | "car_low" | "liquid_line" | "vapour_line" | "compressor" | "shut_off_panel" | "storage_tank" | "truck" | "air";

/** One reading as entered. */
export type Point = {
  /** What the instrument said, as typed. */
  amount: Amount,
  /** The instrument's name; empty when it was not said. */
  instrument: string,
  /** Its ±. */
  worth: ReadingUncertainty,
  /** Who read it. */
  said: Attribution,
  /** What became of it. */
  fate: Fate,
  /** Why it no longer stands, in the words of whoever corrected it. */
  why_gone: string, };

/** Latitude, longitude and accuracy as the device gave them. */
export type Position = {
  /** Degrees north, −90…90. */
  latitude: number,
  /** Degrees east, −180…180. */
  longitude: number,
  /** Radius of the 95 % circle in metres. */
  accuracy_m: number, };

/** What falls from the sky. */
export type Precipitation = "dry" | "rain" | "freezing_rain" | "snow" | "frost";

/** Whether somebody is with the connected car. */
export type Presence = "here" | "away";

/** A stay as it would be with drafts, and what would be different. */
export type PreviewedVisit = {
  /** What is different from the record as it stands. */
  meaning: Meaning,
  /** Which car, where, into what, who, with what. */
  header: Header,
  /** Where the job stands. */
  stage: Stage,
  /** The steps of the procedure. */
  steps: StepsView,
  /** The fittings. */
  fittings: Array<FittingView>,
  /** The protections. */
  protections: Array<ProtectionView>,
  /** The housing cover. */
  cover: Attested<CoverState> | null,
  /** Readings with one truth. */
  readings: Array<ReadingView>,
  /** Series of readings. */
  series: Array<SeriesView>,
  /** Computed quantities. */
  computed: Array<Quantity>,
  /** Advice computed from weather and record. */
  advice: Array<Finding>,
  /** The evidence on whether the liquid is out. */
  empty: EmptyView,
  /** Trucks loaded. */
  trucks: TrucksView,
  /** Seals. */
  seals: Array<SealView>,
  /** Photographs. */
  photos: Array<PhotoView>,
  /** What is out. */
  tally: TallyView,
  /** Defects of this visit and, marked by their visit, earlier ones. */
  defects: Array<DefectView>,
  /** Holds. */
  holds: Array<HoldView>,
  /** Handovers. */
  handovers: Array<HandoverView>,
  /** Attendance. */
  attendance: AttendanceView,
  /** The car's clock. */
  clock: Array<ClockView>,
  /** Checks with a free name. */
  checks: Array<CheckView>,
  /** The weather recorded last, in a sentence. */
  weather: Attested<string> | null,
  /** What is known of the car, this visit included. */
  car: CarView,
  /** What differs and is not settled. */
  disagreements: Array<Disagreement>,
  /** What differed and is over. */
  ended_disagreements: Array<EndedDisagreement>,
  /** What is missing before release. */
  blockers: Array<Blocker>,
  /** Every word of passing over ever given. */
  passed_over: Array<PassedOver>,
  /** Where release stands. */
  release: ReleaseView,
  /** What is needed to compare this stay with others; nothing while nobody opened it. */
  brief: Brief | null,
  /** Offers to join this stay with another record. */
  offers: Array<Offer>,
  /** What is worth pointing out, worst first. */
  findings: Array<Finding>,
  /** Entries missing or doubled in the chain of a device that took part. */
  chain_gaps: Array<ChainGapView>,
  /** Entries of kinds this version does not know, kept whole. */
  unrecognised: Array<HistoryLine>,
  /** Every entry in causal and then claimed order, as a sentence. */
  history: Array<HistoryLine>,
  /** How many entries. */
  entries: number,
  /** How many of them no receipt covers. */
  unreceipted: number, };

/** What protects the people and the car while it is worked on. */
export type Protection = "blue_sign" | "hand_brake" | "chocks" | "track_secured" | "emergency_shut_off" | "gas_detector";

/** A protection. */
export type ProtectionView = {
  /** Which. */
  what: Protection,
  /** Whether it is set; nothing while nobody said so. */
  set: Attested<boolean> | null, };

/** What a reading was taken for. Arrival and final readings have one truth; the others are a series. */
export type Purpose = "arrival" | "leak_test" | "transfer" | "recovery" | "hold_test" | "empty_proof" | "final";

/** A computed quantity, or why it cannot be computed. */
export type Quantity = {
  /** Stable name, such as `residue`. */
  name: string,
  /** What it is, for people. */
  title: string,
  /** The value; the lowest one where only the grade of the product is known. */
  value: Computed | null,
  /** The highest value, where only the grade is known and it makes a difference. */
  up_to: Computed | null,
  /** For which product, in words; empty where it does not matter. */
  product: string,
  /** Why there is no value, in a sentence. */
  missing: string | null, };

/** One reading of one instrument. */
export type Reading = {
  /** What it measures. */
  measured: Measured,
  /** Where. */
  place: Place,
  /** What for. */
  purpose: Purpose,
  /** What the instrument said, as typed. */
  amount: Amount,
  /** The site's name for the instrument; empty when it was not said. */
  instrument?: string, };

/** The ± of a reading. */
export type ReadingUncertainty = {
  /** Expanded uncertainty at about 95 %, in the unit of the reading; nothing where it is not known. */
  plus_minus: number | null,
  /** On what it rests, in words: the instrument's grade and span, or what was presumed; why there is none. */
  by: string, };

/** A reading with one truth. */
export type ReadingView = {
  /** Its slot. */
  slot: string,
  /** "Final pressure at the car". */
  title: string,
  /** What it measures. */
  measured: Measured,
  /** Where. */
  place: Place,
  /** What for. */
  purpose: Purpose,
  /** What stands. */
  current: Attested<Reading> | null,
  /** Everything ever entered, in order, with what became of it. */
  history: Array<Point>, };

/** What receives the cargo. It decides which rule set the procedure shows. */
export type Receiver = "fixed_tank" | "truck";

/**
 * One thing a step records: enough for a phone to present the right form. Where it speaks of a
 * fitting, the fitting is the step's.
 */
export type RecordAsk = { "statement": "opened", } | { "statement": "car_number_again", } | { "statement": "paper", } | { "statement": "clock", event: ClockEvent, } | { "statement": "reading", measured: Measured, place: Place, purpose: Purpose, unit: Unit, } | { "statement": "valve", position: ValvePosition, } | { "statement": "closure", state: ClosureState, } | { "statement": "listen", } | { "statement": "line", connected: boolean, } | { "statement": "effort", part: Part, } | { "statement": "threads", } | { "statement": "item_out", item: string, } | { "statement": "item_in", item: string, } | { "statement": "seal", event: SealEvent, } | { "statement": "photo", of: PhotoOf, } | { "statement": "defect", } | { "statement": "forwarded", } | { "statement": "hold", } | { "statement": "attendance", presence: Presence, } | { "statement": "cover", } | { "statement": "protection", what: Protection, set: boolean, } | { "statement": "weather", } | { "statement": "empty_sign", sign: EmptySign, } | { "statement": "empty_decision", } | { "statement": "truck_load", } | { "statement": "check", what: string, } | { "statement": "car_fittings", } | { "statement": "car_capacity", } | { "statement": "car_diameter", } | { "statement": "outage_table", } | { "statement": "car_test_date", test: TestDate, } | { "statement": "released", };

/** Where release stands. */
export type ReleaseView = {
  /** Whether the car was released, and whether as residue. */
  released: Attested<boolean> | null,
  /** Blockers nobody passed over. */
  open: number,
  /** Blockers that were passed over. */
  passed_over: number,
  /** Always shown beside it. */
  note: string, };

/** One thing a device may do, at the sites of its certificate. */
export type Right = "record" | "settle" | "lift_hold" | "override" | "release" | "withdraw_others" | "keep_site" | "issue_seals" | "keep_people" | "publish_procedures" | "admit" | "enrol" | "read";

/**
 * What the organisation decided about rights and signatures. The newest counts; without one the
 * built-in rules of `authority` do.
 */
export type Rules = {
  /** What an operator's device may do, where that is less than the built-in rules give. */
  operator_rights?: Array<Right>,
  /** How long a person's key stays unlocked. */
  unlocking: Unlocking,
  /** Whether acts that bind count only with the person's own signature. */
  signature_required?: boolean, };

/** What a piece speaks for. */
export type Says = "liquid" | "no_liquid" | "nothing";

/** One event of one seal. */
export type Seal = {
  /** Found, applied or removed. */
  event: SealEvent,
  /** Where. */
  place: SealPlace,
  /** Its number, as read; empty when illegible or none. */
  number?: string,
  /** Its kind. */
  kind?: SealKind,
  /** Whether it was whole. */
  intact: boolean,
  /** The photograph of it in place. */
  photo?: Digest,
  /** Why there is no photograph; or, with an illegible or broken seal, what was seen. A code, or as typed. */
  note?: Coded, };

/** What happened to a seal. */
export type SealEvent = "found" | "applied" | "removed";

/** What kind of seal it is. */
export type SealKind = "plastic" | "metal_strap" | "cable" | "bolt";

/** Where a seal is. */
export type SealPlace = "housing_pin" | "housing_lug" | "gauging_device" | "elsewhere";

/** Seals issued to a site, a range of numbers. */
export type SealStock = {
  /** First number. */
  from: string,
  /** Last number. */
  to: string,
  /** What kind: a code, or as typed. */
  kind: Coded, };

/** One place for a seal. */
export type SealView = {
  /** Where. */
  place: SealPlace,
  /** What was found on arrival. */
  found: Attested<Seal> | null,
  /** What was put on or taken off here last. */
  now: Attested<Seal> | null,
  /** Photographs that belong to it. */
  photos: Array<Digest>,
  /** What an applied seal still lacks, in words. */
  lacks: Array<string>,
  /** Whether the one found was replaced by another here. */
  replaced: boolean, };

/** A series of readings. */
export type SeriesView = {
  /** Its slot. */
  slot: string,
  /** "Transfer pressure at the car". */
  title: string,
  /** What it measures. */
  measured: Measured,
  /** Where. */
  place: Place,
  /** What for. */
  purpose: Purpose,
  /** The points that stand, by corrected time. */
  points: Array<Point>,
  /** The points that were corrected or withdrawn. */
  struck: Array<Point>, };

/** How much a finding matters to the person reading it. */
export type Severity = "note" | "check" | "alarm";

/** One siding with its tanks, instruments and people. */
export type SiteId = string;

/** What a site is. */
export type SiteProfile = {
  /** Its name. */
  name: string,
  /** IANA time zone, such as `Etc/GMT+6`; times are shown in it. */
  zone: string,
  /** Elevation above sea level, for gauge to absolute. */
  elevation: Amount,
  /** How long the connected car may show no sign of attendance before the gap is pointed out, minutes. */
  attendance_gap_minutes: number,
  /** Local code and owner's instructions that come first, in words. */
  local_rules?: string, };

/** A site as it is known. */
export type SiteView = {
  /** Which. */
  id: SiteId | null,
  /** Its name; empty while nobody said it. */
  name: string,
  /** IANA time zone; empty while nobody said it. */
  zone: string,
  /** Elevation above sea level. */
  elevation: Amount | null,
  /** Minutes without a sign of attendance that are pointed out; nothing while nobody said it. */
  attendance_gap_minutes: number | null,
  /** Local code and owner's instructions that come first. */
  local_rules: string,
  /** Receiving tanks. */
  tanks: Array<Tank>,
  /** Instruments. */
  instruments: Array<Instrument>,
  /** Hoses. */
  hoses: Array<Hose>,
  /** Whom to call. */
  contacts: Array<Contact>,
  /** Seals issued to the site. */
  seal_stock: Array<SealStock>,
  /** The emergency guide for what comes here, any liquefied petroleum gas; a car's own paper goes before it. */
  emergency: EmergencyGuide | null,
  /** Slots on which entries disagree. */
  disputed: Array<string>, };

/** The parts of the job, in order. */
export type Stage = "receive" | "gauge" | "connect" | "transfer" | "recover" | "prove_empty" | "disconnect" | "final_pressure" | "close" | "release";

/** How far a stage is. */
export type StageProgress = {
  /** Which. */
  stage: Stage,
  /** Steps closed. */
  closed: number,
  /** Steps in all, optional ones and unused lines aside. */
  of: number, };

/** How the organisation stands behind the device that made an entry. */
export type Standing = "certified" | "before_enrolment" | "not_certified" | "before_revocation" | "not_held_before_revocation";

/** What an entry says. */
export type Statement = { "opened": Opened } | { "paper": Paper } | { "clock": {
    /** Which event. */
    event: ClockEvent,
    /** When it happened. */
    at: UtcMillis, } } | { "reading": Reading } | { "step": {
    /** The step's id in the procedure, with its fitting where it repeats (`shut_valve.liquid_a`). */
    step: string,
    /** How it was left. */
    outcome: StepOutcome,
    /** What was seen; required when skipped. */
    note?: string, } } | { "valve": {
    /** Whose valve. */
    fitting: Fitting,
    /** Where it stands. */
    position: ValvePosition, } } | { "closure": {
    /** Whose closure. */
    fitting: Fitting,
    /** How far it is in. */
    state: ClosureState, } } | { "listen": {
    /** Where. */
    fitting: Fitting,
    /** What was heard. */
    heard: Heard, } } | { "line": {
    /** On which fitting. */
    fitting: Fitting,
    /** Whether it is connected now. */
    connected: boolean,
    /** Which hose. */
    hose?: string, } } | { "effort": {
    /** At which fitting. */
    fitting: Fitting,
    /** Valve or closure. */
    part: Part,
    /** How much. */
    amount: Amount, } } | { "threads": {
    /** At which fitting. */
    fitting: Fitting,
    /** Turns engaged. */
    engaged: Amount, } } | { "item_out": {
    /** What it is called, unique among things out. */
    item: string,
    /** The closure it stands in for, if any. */
    fitting?: Fitting, } } | { "item_in": {
    /** What it is called. */
    item: string, } } | { "seal": Seal } | { "photo": {
    /** Its bytes' digest and length. */
    photo: PhotoRef,
    /** What it shows. */
    of: PhotoOf,
    /** The slot it belongs to, such as `seal/housing_pin`; empty when none. */
    about?: string, } } | { "defect": Defect } | { "forwarded": {
    /** Which defect. */
    defect: DefectId,
    /** To whom. */
    to: string,
    /** How: a code, or as typed. */
    how: Coded, } } | { "authority": {
    /** Which defect. */
    defect: DefectId,
    /** Who gave it. */
    by: string,
    /** Its number or reference. */
    reference: string,
    /** When it was given by voice. */
    spoken_at?: UtcMillis,
    /** When it came in writing. */
    written_at?: UtcMillis, } } | { "resolved": {
    /** Which defect. */
    defect: DefectId,
    /** How. */
    how: string, } } | { "hold": {
    /** This hold. */
    hold: HoldId,
    /** Why. */
    because: string, } } | { "hold_lifted": {
    /** Which hold. */
    hold: HoldId,
    /** Why it is over. */
    because: string, } } | { "handover_given": {
    /** To whom. */
    to: OperatorId, } } | { "handover_taken": {
    /** From whom. */
    from: OperatorId, } } | { "attendance": {
    /** Here or away. */
    presence: Presence, } } | { "cover": {
    /** Whether it is down. */
    closed: boolean,
    /** Whether the pin is in. */
    pinned: boolean,
    /** Bolts counted in place. */
    bolts_in_place: number,
    /** Bolts it should have. */
    bolts_required: number, } } | { "protection": {
    /** Which. */
    what: Protection,
    /** Whether it is set now. */
    set: boolean, } } | { "weather": {
    /** What falls. */
    precipitation: Precipitation,
    /** Wind: a code (`nw light`), or as a person says it. */
    wind?: Coded, } } | { "empty_sign": {
    /** Which sign. */
    sign: EmptySign,
    /** Whether it was there. */
    seen: boolean, } } | { "empty_decision": {
    /** Taken as empty of liquid. */
    accepted: boolean,
    /** On what grounds. */
    grounds: string, } } | { "truck_load": {
    /** Which truck. */
    truck: string,
    /** How much went into it. */
    amount: Amount, } } | { "check": {
    /** What was checked: a code, or as typed. */
    what: Coded,
    /** Whether it was right. */
    right: boolean,
    /** What was seen. */
    note?: string, } } | { "remark": {
    /** The words. */
    text: string, } } | { "agreement": {
    /** The entry that stands. */
    keeps: EntryId, } } | { "withdrawn": Record<symbol, never> } | { "joined": {
    /** The other visit. */
    other: VisitId, } } | { "not_joined": {
    /** The other visit. */
    other: VisitId, } } | { "passed_over": {
    /** The blocker's code, such as `closure_not_tool_tight.liquid_a`. */
    blocker: string,
    /**
     * The entries the blocker stood on when it was passed over. Should the record say something
     * else later, the blocker is open again. Empty: it holds whatever comes.
     */
    seen?: Array<EntryId>, } } | { "released": {
    /** Whether it goes as residue (not cleaned and purged). */
    as_residue: boolean, } } | { "car_number_again": {
    /** As read. */
    car: CarNumber, } } | { "car_fittings": {
    /** All of them, the relief device aside. */
    fittings: Array<Fitting>, } } | { "car_capacity": {
    /** How much it holds, shell full. */
    capacity: Amount, } } | { "car_diameter": {
    /** The diameter. */
    diameter: Amount, } } | { "outage_table": {
    /** Owner's name for the table. */
    name: string,
    /** Rows of outage in inches and gallons, as printed, outage rising. */
    rows: Array<[number, number]>,
    /** Whether the volumes are of liquid (true) or of the empty space (false). */
    liquid: boolean, } } | { "car_test_date": {
    /** Which test. */
    test: TestDate,
    /** When it is due, `YYYY-MM` or `YYYY`. */
    due: string, } } | { "site": SiteProfile } | { "tank": Tank } | { "instrument": Instrument } | { "hose": Hose } | { "contact": Contact } | { "seal_stock": SealStock } | { "operator": Operator } | { "person_key": PersonKey } | { "person_key_confirmed": {
    /** Whose. */
    person: OperatorId,
    /** Which key. */
    key: DeviceId, } } | { "person_key_ended": {
    /** Whose. */
    person: OperatorId,
    /** Which key. */
    key: DeviceId,
    /**
     * The last entry of the device the key lives on that the organisation had; what lies after it is
     * not signed by the person.
     */
    last?: LastEntry, } } | { "held_by": {
    /** Who. */
    person: OperatorId, } } | { "admitted": {
    /** Which entry. */
    entry: EntryId, } } | { "rules": Rules };

/** An ask of a step, and whether it is still to be answered. */
export type StepAsk = {
  /** What is asked. */
  ask: Ask,
  /** Whether it is missing. */
  missing: boolean, };

/** What a step asks for. */
export type StepAsks = {
  /** The step. */
  id: string,
  /** What it records. */
  records: Array<StepAsk>,
  /** What it may record besides. */
  may_record: Array<Ask>, };

/** How a step was left. */
export type StepOutcome = "done" | "not_right" | "skipped";

/** How a step stands. */
export type StepStatus = "open" | "partly" | "recorded" | "done" | "not_right" | "skipped" | "not_used";

/** One step of this car. */
export type StepView = {
  /** `shut_valve.liquid_a`. */
  id: string,
  /** Which part of the job. */
  stage: Stage,
  /** A few words. */
  title: string,
  /** A sentence or two. */
  what_to_do: string,
  /** The reason for it. */
  why: string,
  /** Who asks for it, with this receiver. */
  asked_by: AskedBy,
  /** On what ground, in words. */
  source: string,
  /** What can hurt here. */
  cautions: Array<string>,
  /** At which fitting. */
  fitting: Fitting | null,
  /** What it records: the forms to present. Empty: only acknowledged. */
  records: Array<RecordAsk>,
  /** What it may record besides. */
  may_record: Array<RecordAsk>,
  /** Which of `records` are still missing. */
  missing: Array<RecordAsk>,
  /** How it stands. */
  status: StepStatus,
  /** Who closed it. */
  said: Attribution | null,
  /** What was noted with it; the reason when it was skipped. */
  note: string,
  /** How often it is repeated, minutes. */
  repeat_minutes: number | null,
  /** When it is due again. */
  due: UtcMillis | null,
  /** Whether the job is complete without it. */
  optional: boolean, };

/** The steps, and where the job stands. */
export type StepsView = {
  /** Where the job stands. */
  stage: Stage,
  /** How far each stage is. */
  stages: Array<StageProgress>,
  /** What comes next, by id: the first open steps of the stage, and what is due again. */
  next: Array<string>,
  /** Open steps of earlier stages, by id. */
  left_behind: Array<string>,
  /** Every step, in order. */
  steps: Array<StepView>,
  /** Step entries whose step is not in the procedure, as sentences. */
  unknown: Array<string>, };

/** The tally. */
export type TallyView = {
  /** What is out, in the order in which it went out. */
  out: Array<ItemView>,
  /** What went out and came back. */
  back: Array<ItemView>,
  /** What came back without having gone out: a name mistyped, or an entry that is not here. */
  unknown: Array<ItemView>, };

/** A receiving tank. */
export type Tank = {
  /** Its name at the site. */
  name: string,
  /** Water capacity. */
  water_capacity: Amount,
  /** Whether it is buried or mounded. */
  underground: boolean, };

/** Test dates marked on a car. */
export type TestDate = "tank_qualification" | "relief_device" | "service_equipment";

/** A test date marked on the car. */
export type TestDateView = {
  /** Which test. */
  test: TestDate,
  /** When it is due, as read. */
  due: string,
  /** Whether that is past; nothing when the date cannot be read. */
  overdue: boolean | null,
  /** Who read it. */
  said: Attribution, };

/** A truck loaded from this car. */
export type TruckView = {
  /** Which. */
  truck: string,
  /** How much went into it. */
  amount: Amount,
  /** Who said so. */
  said: Attribution, };

/** Trucks and their sum. */
export type TrucksView = {
  /** Each load, in order. */
  loads: Array<TruckView>,
  /** Their sum in gallons, when every load is a volume that can be read. */
  total_gal: number | null, };

/** A unit as it stands on the instrument or the paper. */
export type Unit = "psi" | "kPa" | "bar" | "psia" | "kPa abs" | "°F" | "°C" | "K" | "Δ°F" | "in" | "ft" | "m" | "mm" | "gal" | "L" | "ft³" | "m³" | "lb" | "kg" | "lb/ft³" | "kg/m³" | "lb/gal" | "gal/min" | "gal/h" | "ft³/min" | "ft·lbf" | "N·m" | "s" | "min" | "h" | "1" | "%" | "turns" | "pcs" | "money" | "money/h";

/** How long a person's key stays unlocked on a phone. */
export type Unlocking = "act" | "shift";

/** Milliseconds since 1970-01-01T00:00:00Z. */
export type UtcMillis = number;

/** Where a valve stands. */
export type ValvePosition = "open" | "shut";

/** One car's stay, from placement to release. */
export type VisitId = string;

/** Random bytes that a visit's id is made from, together with its site. */
export type VisitNonce = string;

/** A stay in a list. */
export type VisitRow = {
  /** The visits of the stay. */
  visits: Array<VisitId>,
  /** The car's number. */
  car: string,
  /** Where. */
  site: SiteId | null,
  /** The site's name. */
  site_name: string,
  /** Track or spot, as the record was opened with it; empty when nobody said. */
  spot: string,
  /** Where the job stands. */
  stage: Stage,
  /** Whether it was released. */
  released: boolean,
  /** What keeps it, in a few words; empty when nothing does. */
  kept_by: string,
  /** Blockers nobody passed over. */
  open_blockers: number,
  /** Whether a hold stands. */
  on_hold: boolean,
  /** Disagreements nobody settled. */
  disagreements: number,
  /**
   * Findings that say that something is wrong. In a list, the evidence on the liquid is weighed only while
   * the car stands; the record of one that left says it still.
   */
  alarms: number,
  /** Its first claimed time. */
  since: UtcMillis | null,
  /** The same in the site's zone. */
  since_shown: string,
  /** Entries that no receipt covers. */
  unreceipted: number, };

/** An effort or a thread count at a fitting. */
export type WearPoint = {
  /** At which fitting. */
  fitting: Fitting,
  /** Of which part. */
  part: Part,
  /** How much. */
  amount: Amount,
  /** During which visit. */
  visit: VisitId | null,
  /** Corrected time. */
  at: UtcMillis,
  /** Who measured it. */
  said: Attribution, };

/** The evidence, weighed. */
export type Weighed = {
  /** What it indicates. */
  outcome: Outcome,
  /** Each piece that was given. */
  pieces: Array<Piece>,
  /** What to do next, most telling first. */
  next: Array<string>,
  /** What stands beside every outcome. */
  caution: string, };

/** How much a piece weighs. */
export type Weight = "none" | "weak" | "moderate" | "strong";
