// @generated from the Rust views by core/src/book/shell_types_tests.rs. Do not edit.

/**
 * A typed amount. `text` is exactly what was entered, and `value` is its reading in `unit` if there is one.
 *
 * A number from outside that no instrument can show (see [`Unit::can_be`]) is dropped on reading; the text
 * stays.
 */
export type Amount = { text: string, unit: Unit, value?: number, };

/** One argument of a message. */
export type Arg = { "typed": string } | { "count": number } | { "number": string } | { "amount": {
    /** The text as typed. */
    typed: string,
    /** The number that it was read as, as a decimal with a full stop; absent if it is none. */
    value?: string,
    /** The unit's word, such as `psi_gauge`. */
    unit: string,
    /** Whether the text names its unit itself. */
    named?: boolean,
    /** Whether the number is shown beside the text, because the text has another, more usual reading. */
    echoed?: boolean, } } | { "figure": {
    /** The value. */
    value: string,
    /** The expanded uncertainty, if it is known. */
    plus_minus?: string,
    /** The unit's word, such as `gallon`. */
    unit: string, } } | { "says": Message } | { "list": {
    /** How they are joined. */
    joint: Joint,
    /** The messages. */
    items: Array<Message>, } };

/** Something that can be recorded, with its fitting: enough for a shell to present the right keys or form. */
export type Ask = {
  /**
   * The slot of the answer, which names the ask in a shell's addresses. Empty if the slot contains a
   * random id; for a seal the first of several slots.
   */
  slot: string,
  /** The fitting, if the ask concerns one. */
  fitting?: Fitting, } & ({ "statement": "opened", } | { "statement": "car_number_again", } | { "statement": "paper", } | { "statement": "clock", event: ClockEvent, } | { "statement": "reading", measured: Measured, place: Place, purpose: Purpose, unit: Unit, } | { "statement": "valve", position: ValvePosition, } | { "statement": "closure", state: ClosureState, } | { "statement": "listen", } | { "statement": "line", connected: boolean, } | { "statement": "effort", part: Part, } | { "statement": "threads", } | { "statement": "valve_feel", } | { "statement": "plug_condition", } | { "statement": "cover_condition", } | { "statement": "hose_pressure", } | { "statement": "next_time", } | { "statement": "item_out", item: string, } | { "statement": "item_in", item: string, } | { "statement": "seal", event: SealEvent, } | { "statement": "photo", of: PhotoOf, } | { "statement": "defect", } | { "statement": "forwarded", } | { "statement": "hold", } | { "statement": "attendance", presence: Presence, } | { "statement": "cover", } | { "statement": "protection", what: Protection, set: boolean, } | { "statement": "weather", } | { "statement": "empty_sign", sign: EmptySign, } | { "statement": "empty_decision", } | { "statement": "truck_load", } | { "statement": "tank_gauged", } | { "statement": "recovery_planned", } | { "statement": "inspection", } | { "statement": "check", what: string, } | { "statement": "car_fittings", } | { "statement": "car_capacity", } | { "statement": "car_diameter", } | { "statement": "outage_table", } | { "statement": "car_test_date", test: TestDate, } | { "statement": "incident", } | { "statement": "leak", } | { "statement": "car_left", } | { "statement": "car_moved", } | { "statement": "outcome", } | { "statement": "fit_to_unload", } | { "statement": "last_round", } | { "statement": "released", });

/** Who asks for something to be done or recorded. */
export type AskedBy = "law" | "practice" | "this_record";

/** The attendance at the connected car. */
export type AttendanceView = {
  /** The minutes without a sign after which a gap is reported. */
  threshold_minutes: number,
  /** Whether the site or its procedure stated this limit; otherwise it is the program's default. */
  threshold_from_site: boolean,
  /** Whether a line is connected now. */
  connected: boolean,
  /** The gaps. */
  gaps: Array<GapView>, };

/**
 * A value that stands, with its attribution. If entries disagree, this is the one claimed last and
 * `disputed` is true; the view's disagreements show all of them.
 */
export type Attested<T> = {
  /** The value. */
  value: T,
  /** The attribution of the value or, after a settlement, of the settlement. */
  said: Attribution,
  /** After a settlement, the attribution of the entry that was kept. */
  kept?: Attribution,
  /** The number of other live entries that state the same. */
  also: number,
  /** Whether a live entry states something else. */
  disputed: boolean, };

/** The attribution of an entry: who made it, when, and on which device. */
export type Attribution = {
  /** The entry's id. */
  entry: EntryId,
  /** The person's code. */
  by: OperatorId,
  /** The person's name from the roster, or the code. */
  name: string,
  /** The device. */
  device: DeviceId,
  /** The name that the device was enrolled under, or the first digits of its key. */
  device_name: string,
  /** The device's standing with its organisation. */
  standing: Standing,
  /** To what degree the person confirmed the entry. */
  named: Named,
  /** The time of the device's clock. */
  claimed: UtcMillis,
  /** The claimed time, corrected by the known clock difference, in the site's zone. */
  shown: string,
  /** When the thing was done, by the device's clock, if the entry states it. */
  done?: UtcMillis,
  /**
   * The same time, corrected as the claimed time is, in the site's zone: its time of day, with the date if it is
   * another day than the entry's.
   */
  done_shown?: string,
  /** The claimed time as the device displayed it, with its offset from UTC. */
  device_time: string,
  /** The known difference of the device's clock to the server's, in milliseconds; positive if it is ahead. */
  ahead_millis: number | null,
  /** Whether the difference comes from a neighbouring entry of the device instead of this one. */
  ahead_from_neighbour: boolean,
  /** The position that the device recorded. */
  place?: Position,
  /** Whether a receipt of the server covers the entry. */
  receipted: boolean,
  /** The reason stated in the entry. */
  why: string, };

/** An authority's answer. */
export type AuthorityView = {
  /** The person or office that answered. */
  by: string,
  /** The reference of the answer. */
  reference: string,
  /** The time of the oral answer. */
  spoken_at: UtcMillis | null,
  /** The time of the written answer. */
  written_at: UtcMillis | null,
  /** The time by which an oral answer must be confirmed in writing. */
  written_due: UtcMillis | null,
  /** The same time in the site's zone. */
  written_due_shown: string | null,
  /** Whether that time has passed. */
  overdue: boolean, };

/** How a shipper measured what is billed. */
export type BilledBy = "table" | "meter" | "scale";

/** Something that is missing at a gate. */
export type Blocker = {
  /** Stable code with its fitting, slot or name, such as `closure_not_tool_tight.liquid_a`. */
  code: string,
  /** What is missing, in a sentence. */
  missing: Message,
  /** Who asks for it. */
  asked_by: AskedBy,
  /** On what ground, in words. */
  source: Message,
  /** The slot in which it is missing. */
  slot: string,
  /** At which fitting. */
  fitting: Fitting | null,
  /** The live entries it stands on. Whoever passes it over puts these into `seen`. */
  evidence: Array<EntryId>,
  /** Who passed it over, where that stands. */
  passed_over: PassedOver | null, };

/** What is missing. The words begin the codes of items, and are frozen with them. */
export type BlockerKind = "line_connected" | "valve_not_shut" | "listen_missing" | "hiss_heard" | "closure_not_tool_tight" | "threads_one_or_less" | "unreadable_entries" | "not_opened" | "empty_not_accepted" | "empty_contradicted" | "final_pressure_missing" | "final_pressure_doubtful" | "item_out" | "cover_not_closed" | "cover_not_pinned" | "cover_bolts" | "seal_incomplete" | "seal_missing" | "blue_sign_down_early" | "hold_open" | "disagreement" | "authority_missing" | "alarm" | "doubt" | "number_not_checked" | "paper_not_compared" | "product_not_taken" | "protection_not_set" | "protection_out_of_order" | "not_recorded_as_found" | "check_missing" | "check_not_right" | "step_open" | "step_not_right" | "reading_missing" | "photo_missing" | "last_round_missing" | "sign_down_while_connected" | "incident_open" | "leak_open" | "outcome_unexplained";

/** The kind of a blocker, and where it is cleared. */
export type BlockerLead = {
  /** The kind of the blocker. */
  kind: BlockerKind,
  /** The place where it is cleared. */
  lead: Lead, };

/** The facts about a visit that are needed to compare it with others. */
export type Brief = {
  /** The visit; for a joined stay, the first one. */
  visit: VisitId,
  /** All visits of the stay. */
  joined: Array<VisitId>,
  /** The car number as typed. */
  car: CarNumber,
  /** The site. */
  site: SiteId | null,
  /** The earliest claimed time. */
  from: UtcMillis,
  /**
   * The latest claimed time; `None` as long as the car is still there. The brief does not depend on the
   * present time, so two devices with the same entries have the same brief.
   */
  until: UtcMillis | null,
  /** The visits that were stated not to be the same stay. */
  not_joined: Array<VisitId>, };

/** A call or report about an incident. */
export type CallView = {
  /** To whom, as a code or as typed. */
  to: Coded,
  /** When. */
  at: UtcMillis,
  /** The number of the report; empty if there was none. */
  number: string,
  /** The entry's attribution. */
  said: Attribution, };

/** An end of a car. */
export type CarEnd = "a" | "b";

/**
 * A car, identified by its normalised number, so that independently created documents about a car are
 * the same document.
 */
export type CarId = string;

/** The car was left with nobody at it. */
export type CarLeft = {
  /** Whether unloading equipment stays attached. */
  connected: boolean,
  /** What was seen to. */
  conditions?: Array<LeftCondition>,
  /** Until when, if that is known. */
  until?: UtcMillis,
  /** Anything else about it. */
  note?: string, };

/** How much a car holds when it goes away. */
export type CarLoad = "residue" | "part_loaded" | "loaded";

/** The car was moved during its stay. */
export type CarMoved = {
  /** The track or spot where it stands now. */
  to?: string,
  /** Who moved it. */
  by?: string, };

/**
 * A car number exactly as it was typed.
 *
 * ```
 * use farsiding_core::entry::car_number::{CarNumber, CarNumberFinding};
 *
 * let typed = CarNumber("zzqx 004417".to_owned());
 * assert_eq!(typed.normal(), "ZZQX 4417");
 * assert_eq!(typed.id(), CarNumber("ZZQX4417".to_owned()).id());
 *
 * let wagon = CarNumber("21 81 2471 217-4".to_owned());
 * assert_eq!(wagon.findings(), [CarNumberFinding::WrongCheckDigit]);
 * ```
 */
export type CarNumber = string;

/** A reason to check a car number again. */
export type CarNumberFinding = "unusual_form" | "wrong_check_digit";

/** How the car goes away. */
export type CarOutcome = {
  /** How much it holds. */
  load: CarLoad,
  /** Why it goes, as a code or as typed. */
  because: Coded,
  /** Where it goes; empty if that is not known. */
  to?: string,
  /** Anything else about it. */
  note?: string, };

/** What is known about a car. */
export type CarView = {
  /** The shell capacity. */
  capacity: Attested<Amount> | null,
  /** The insulation of the tank. */
  insulation: Attested<Insulation> | null,
  /** The inside diameter. */
  diameter: Attested<Amount> | null,
  /** The owner's outage table. */
  outage_table: Attested<OutageTableView> | null,
  /** The valves and openings under the housing. */
  fittings: Attested<Array<Fitting>> | null,
  /** The kind of the gauging device. */
  gauging: Attested<GaugingKind> | null,
  /** The end of the car on which the vapor valve is. */
  vapour_end: Attested<CarEnd> | null,
  /** Test dates. */
  test_dates: Array<TestDateView>,
  /** The closing efforts over all visits, in order of time. */
  efforts: Array<WearPoint>,
  /** The thread counts over all visits, in order of time. */
  threads: Array<WearPoint>,
  /** The defects over all visits, in order of time. */
  defects: Array<DefectView>,
  /** The notes for the next visit, and the conditions that are not in order. */
  carried: Array<CarriedView>, };

/** A note for the next visit, or a condition that is not in order. */
export type CarriedView = {
  /** The slot, which names it in a shell's addresses. */
  slot: string,
  /** The id of the note; `None` for a condition, which ends when it is recorded as in order. */
  note: NoteId | null,
  /** The fitting, if it is about one. */
  fitting: Fitting | null,
  /** What is to be known or done. */
  says: Message,
  /** The attribution of the entry. */
  said: Attribution,
  /** The visit during which it was recorded. */
  visit: VisitId | null,
  /** What was done about a note. */
  done: Attested<string> | null, };

/** A fault in a device's chain, with a sentence that describes it. */
export type ChainGapView = {
  /** The sentence. */
  sentence: Message, } & ({ "what": "missing",
  /** The device. */
  device: DeviceId,
  /** The first missing number. */
  from: number,
  /** The last missing number. */
  to: number, } | { "what": "doubled",
  /** The device. */
  device: DeviceId,
  /** The number. */
  seq: number,
  /** The entries. */
  entries: Array<EntryId>, } | { "what": "broken",
  /** The device. */
  device: DeviceId,
  /** The number of the entry with the wrong predecessor. */
  seq: number,
  /** The entry. */
  entry: EntryId, });

/** How the next word stands. */
export type CheckIn = "not_yet" | "due" | "overdue";

/** The last word that all is well, while somebody has the car. */
export type CheckInView = {
  /** How often it is asked for, in minutes. */
  minutes: number,
  /** The name of whoever made the last entry at the car. */
  name: string,
  /** When that was, by the office's clock as far as it is known. */
  last: UtcMillis,
  /** The same in the site's zone. */
  shown: string,
  /** When the next word is due. */
  due: UtcMillis, };

/** A check with a free name. */
export type CheckView = {
  /** The name of the check. */
  what: Message,
  /** Whether the result was right. */
  right: Attested<boolean>,
  /** A note of what was seen. */
  note: string, };

/** One side of a disagreement. */
export type Claim = {
  /** A sentence with the claim. */
  sentence: Message,
  /** The attribution of the claim. */
  said: Attribution, };

/** An event that matters for the car's demurrage clock. */
export type ClockEvent = "notice" | "constructive_placement" | "ordered_in" | "actual_placement" | "carrier_told" | "pulled";

/** An event that matters for the car's detention, which is computed from these times. */
export type ClockView = {
  /** The event. */
  event: ClockEvent,
  /** The time of the event. */
  at: Attested<UtcMillis>,
  /** The same time in the site's zone. */
  shown: string, };

/** The state of a plug or cap. */
export type ClosureState = "open" | "hand_tight" | "tool_tight";

/** A code, or text that somebody typed. */
export type Coded = string;

/** A computed value. `plus_minus` is half the width of the 95 % interval, in `unit`. */
export type Computed = {
  /** The value in `unit`, finite. */
  value: number,
  /** The unit. */
  unit: Unit,
  /**
   * The expanded uncertainty at 95 % in `unit` (JCGM 100:2008, 6.2); absent if the uncertainty of the
   * inputs is unknown.
   */
  plus_minus?: number,
  /** The input that contributes most to `plus_minus`. */
  largest?: Message,
  /** The id and version of the formula, such as `residue/1`. */
  formula: string,
  /** What the formula rests on: document, edition, table or equation. */
  source: Message,
  /** The reasons to doubt the value. */
  findings: Array<Finding>, };

/** A person or office to call. */
export type Contact = {
  /** The purpose of calling, as a code or as typed. */
  role: Coded,
  /** The name. */
  name: string,
  /** The telephone number. */
  telephone: string,
  /** Further information, such as where to stand or which shut-off to use. */
  note?: string, };

/** The condition of a part of the housing cover. */
export type CoverCondition = {
  /** Which part. */
  part: CoverPart,
  /** Its condition. */
  state: PartState,
  /** What was seen. */
  note?: string, };

/** A part of the housing cover. */
export type CoverPart = "pin" | "lug" | "hinge";

/** The housing cover. */
export type CoverState = {
  /** Whether the cover is closed. */
  closed: boolean,
  /** Whether the pin is in place. */
  pinned: boolean,
  /** The number of bolts in place. */
  bolts_in_place: number,
  /** The number of bolts required. */
  bolts_required: number, };

/** A defect of the car or its equipment. */
export type Defect = {
  /** The id of the defect. */
  defect: DefectId,
  /** The fitting with the defect, if it is at one. */
  fitting?: Fitting,
  /** A description of the defect. */
  what: string,
  /** Whether the car may be moved only with an authority's approval. */
  needs_authority: boolean,
  /** The photograph of it. */
  photo?: Digest, };

/** A defect noted on a car. */
export type DefectId = string;

/** A defect and its handling. */
export type DefectView = {
  /** The id of the defect. */
  id: DefectId,
  /** The fitting, if the defect is at one. */
  fitting: Fitting | null,
  /** A description of the defect. */
  what: string,
  /** Whether the car may be moved only with an authority's approval. */
  needs_authority: boolean,
  /** Photographs of it. */
  photos: Array<Digest>,
  /** The attribution of the entry that noted it. */
  said: Attribution,
  /** The visit during which it was noted. */
  visit: VisitId | null,
  /** The reports of the defect. */
  forwarded: Array<ForwardedView>,
  /** The authority's answer. */
  authority: Attested<AuthorityView> | null,
  /** The repair. */
  resolved: Attested<string> | null, };

/** A device, identified by its Ed25519 public key. */
export type DeviceId = string;

/** A device in this visit. */
export type DeviceView = {
  /** The device's key. */
  device: DeviceId,
  /** The name it was enrolled under, or the first digits of its key. */
  name: string,
  /** The device's standing with its organisation: the worst one over its entries here. */
  standing: Standing,
  /** The number of entries. */
  entries: number,
  /** The last known difference of its clock to the server's, in milliseconds; positive if it is ahead. */
  ahead_millis: number | null, };

/** A SHA-256 digest: of a photograph, a procedure or a change, for example. */
export type Digest = string;

/** Two or more live entries of one slot with different claims. */
export type Disagreement = {
  /** The slot. A settlement is an agreement in this slot that replaces `entries`. */
  slot: string,
  /** The slot in words. */
  about: Message,
  /** The claims in order. */
  claims: Array<Claim>,
  /** The live entries. */
  entries: Array<EntryId>,
  /**
   * Earlier settlements of this disagreement that were withdrawn, with attribution and reason, the newest
   * last.
   */
  reopened: Array<Claim>, };

/** An entry to be made. Shells pass drafts in their JSON form. */
export type Draft = {
  /** The statement. */
  says: Statement,
  /** The slot, for statements about other entries (agreement, withdrawal); empty otherwise. */
  slot: string,
  /** The entries that this one replaces. */
  replaces: Array<EntryId>,
  /** The reason; required with `replaces` and for passing over a blocker. */
  why: string,
  /** The device's position, if it may be recorded. */
  place: Position | null,
  /** When the thing was done, if that was before the entry is made. */
  done: UtcMillis | null,
  /** The entry of another car on the same track that this one rests on: nobody walked twice. */
  rests_on: RestsOn | null, };

/** Which page of the guidebook an emergency crew opens. */
export type EmergencyGuide = {
  /** The product it is for, as "UN1075". */
  un_number: string,
  /** The guide's number. */
  number: string,
  /** What the guide is about. */
  title: Message,
  /** Where the number is published. */
  source: Message, };

/** A decision whether the car is empty. */
export type EmptyDecisionView = {
  /** Whether the car was taken as empty of liquid. */
  accepted: boolean,
  /** The grounds for the decision. */
  grounds: string, };

/** An observation that bears on whether liquid remains. */
export type EmptySign = "rod_at_bottom" | "vapour_at_liquid_valve" | "liquid_at_closure" | "frost_ring";

/** A sign for or against remaining liquid. */
export type EmptySignView = {
  /** The sign. */
  sign: EmptySign,
  /** Whether it was seen. */
  seen: Attested<boolean>,
  /** Whether it indicates remaining liquid. */
  speaks_for_liquid: boolean, };

/** The evidence of whether the liquid is out, and a person's decision. */
export type EmptyView = {
  /** The signs, and whether each was seen. */
  signs: Array<EmptySignView>,
  /** The decision. */
  decision: Attested<EmptyDecisionView> | null,
  /** The evidence, weighed piece by piece. It is the result of a model and never a decision. */
  weighed: Weighed | null,
  /** The reason why the evidence could not be weighed. */
  not_weighed: Message | null, };

/** A disagreement that has ended. */
export type EndedDisagreement = {
  /** The slot. */
  slot: string,
  /** The slot in words. */
  about: Message,
  /** The claims. */
  claims: Array<Claim>,
  /** The claim that ended it. */
  ended_by: Claim,
  /**
   * Whether the disagreement was settled or corrected with a reason; otherwise a later entry superseded
   * it.
   */
  settled: boolean,
  /** The entry that a settlement agreed on, if there was one. */
  agreed: EntryId | null,
  /**
   * The entry that must be withdrawn, with a reason, to reopen the disagreement; `None` if no standing
   * settlement ended it.
   */
  reopened_by_withdrawing: EntryId | null, };

/** SHA-256 of an entry's signed bytes. */
export type EntryId = string;

/** Who was moved away. */
export type Evacuation = "none" | "site" | "public" | "public_hour";

/** A car that is expected, with what its paper says and where the office read it. */
export type ExpectedCar = {
  /** The office's entry. */
  entry: EntryId,
  /** The car number in its normal form. */
  car: string,
  /** What the paper says, in the form in which a stay records that it was compared with the paper in hand. */
  paper: Paper,
  /** The day on which the paper was made out; empty if the file does not say. */
  dated: string,
  /** The day on which the car is expected; empty if the file does not say. */
  expected: string,
  /** The SHA-256 of the imported file. */
  file: Digest,
  /** The name of the imported file. */
  file_name: string,
  /** The line in the file. */
  line: number,
  /** Who sent it. */
  by: OperatorId,
  /** When it was sent. */
  at: UtcMillis,
  /** Whether two papers that differ stand for this car, so that neither is taken for it. */
  disputed: boolean, };

/** The fate of an entry. */
export type Fate = "live" | "moved_on" | "corrected" | "withdrawn" | "settled" | "agreed" | "withdrawal" | "kept";

/** How a valve turned by hand. */
export type Feel = "easy" | "normal" | "hard";

/** An observation about an input or a result, with advice that a person can act on. */
export type Finding = {
  /** A stable identifier in snake_case, for tests and translations. */
  code: string,
  /** The importance. */
  severity: Severity,
  /** One or two sentences, including the arithmetic if there is any. */
  message: Message, };

/** A valve or opening under the housing of a pressure tank car. */
export type Fitting = "liquid_a" | "liquid_b" | "vapour" | "vapour_two" | "gauging_device" | "thermometer_well" | "sample_line" | "relief_device";

/** The state of one fitting. */
export type FittingView = {
  /** The fitting. */
  fitting: Fitting,
  /** The usual name. */
  name: string,
  /** The position of the valve, if the fitting has one. */
  valve: Attested<ValvePosition> | null,
  /** The state of the plug or cap. */
  closure: Attested<ClosureState> | null,
  /** What was heard last. */
  listen: Attested<Heard> | null,
  /** Whether somebody listened after the valve was last shut. */
  listened_since_shut: boolean,
  /** The state of the line. */
  line: Attested<LineState> | null,
  /** The number of full threads engaged. */
  threads: Attested<Amount> | null,
  /** Whether a line was connected to it at any time in this visit. */
  used: boolean,
  /** The closing efforts over all visits, in order of time. */
  efforts: Array<WearPoint>,
  /** The defects at the fitting, from this visit or earlier ones. */
  defects: Array<DefectId>,
  /** Advice from the fitting's history for the next person who works on it. */
  advice: Array<Finding>, };

/** A report of a defect to a person or office. */
export type ForwardedView = {
  /** The recipient. */
  to: string,
  /** The means, as a code or as typed. */
  how: Coded,
  /** The entry's attribution. */
  said: Attribution, };

/** A period without a sign of attendance while a line was connected. */
export type GapView = {
  /** The beginning. */
  from: UtcMillis,
  /** The end. */
  until: UtcMillis,
  /** Beginning and end in the site's zone. */
  shown: Message,
  /** The length in minutes. */
  minutes: number,
  /** Whether somebody had recorded that they left. */
  said_away: boolean,
  /** Whether somebody had declared to have the car, and neither left nor handed it over. */
  declared: boolean,
  /** Whether every valve with a connected line was recorded as shut when the period began. */
  valves_shut: boolean,
  /** Whether the period has not ended yet. */
  open: boolean, };

/** A moment at which a person signs that the stay may go on. */
export type Gate = "unload" | "release";

/** The kind of a car's gauging device. */
export type GaugingKind = "rod" | "slip_tube" | "other";

/** What a shell needs in addition to the record. */
export type Guide = {
  /** The asks of the steps, in order, without steps that ask for nothing. */
  steps: Array<StepAsks>,
  /**
   * Every ask with a slot of its own, by its slot: what steps ask for, what can be recorded at any time at
   * each fitting and elsewhere, and what was recorded already and may have to be corrected.
   */
  asks: { [key in string]: Ask },
  /** The kind and lead of each blocker, by its code. */
  leads: { [key in string]: BlockerLead },
  /** The minutes that a pressure hold lasts, if the procedure sets them. */
  hold_minutes?: number,
  /** How the word that all is well stands now, while somebody has the car and the procedure asks for it. */
  check_in?: CheckIn,
  /** The steps that one key records now. */
  together?: StepsTogether,
  /** The paper that the office sent for this stay, as long as the stay takes it for its own. */
  office_paper?: ExpectedCar, };

/** A stay in the form that shells receive. */
export type GuidedVisit = {
  /** What the shell needs in addition to the record. */
  guide: Guide,
  /** The header: car, site, receiver, people and devices. */
  header: Header,
  /** The present stage of the job. */
  stage: Stage,
  /** The steps of the procedure. */
  steps: StepsView,
  /** The fittings. */
  fittings: Array<FittingView>,
  /** The plan of the fittings as a drawing; empty in a list. */
  plan: HousingPlan,
  /** The protections. */
  protections: Array<ProtectionView>,
  /** The housing cover. */
  cover: Attested<CoverState> | null,
  /** The readings with a single true value. */
  readings: Array<ReadingView>,
  /** The series of readings. */
  series: Array<SeriesView>,
  /** The computed quantities. */
  computed: Array<Quantity>,
  /** Advice computed from the weather and the record. */
  advice: Array<Finding>,
  /** The evidence of whether the liquid is out. */
  empty: EmptyView,
  /** The trucks loaded. */
  trucks: TrucksView,
  /** Seals. */
  seals: Array<SealView>,
  /** Photographs. */
  photos: Array<PhotoView>,
  /** The objects that were taken out. */
  tally: TallyView,
  /** The defects of this visit and, marked by their visit, earlier ones. */
  defects: Array<DefectView>,
  /** Holds. */
  holds: Array<HoldView>,
  /** Incidents, with what is reported of them. */
  incidents: Array<IncidentView>,
  /** The leaks that were found. */
  leaks: Array<LeakView>,
  /** How the car is left, and how it goes away. */
  leaving: LeavingView,
  /** Handovers. */
  handovers: Array<HandoverView>,
  /** Attendance. */
  attendance: AttendanceView,
  /** The last word that all is well, while somebody has the car and the procedure asks for it. */
  check_in?: CheckInView,
  /** The events that matter for the car's detention. */
  clock: Array<ClockView>,
  /** Checks with a free name. */
  checks: Array<CheckView>,
  /** The weather recorded last, as a sentence. */
  weather: Attested<Message> | null,
  /** What is known about the car, including this visit. */
  car: CarView,
  /** The unsettled disagreements. */
  disagreements: Array<Disagreement>,
  /** The ended disagreements. */
  ended_disagreements: Array<EndedDisagreement>,
  /** The gate before unloading, with its items. */
  unloading: UnloadingView,
  /** The blockers of release. */
  blockers: Array<Blocker>,
  /** All entries that pass over a blocker. */
  passed_over: Array<PassedOver>,
  /** The state of the release. */
  release: ReleaseView,
  /** The facts for comparing this stay with others; `None` as long as nobody opened it. */
  brief: Brief | null,
  /** The offers to join this stay with another record. */
  offers: Array<Offer>,
  /** The findings, the most severe first. */
  findings: Array<Finding>,
  /** Missing or contradictory entries in the chains of the devices involved. */
  chain_gaps: Array<ChainGapView>,
  /** Entries of kinds that this version does not know. */
  unrecognised: Array<HistoryLine>,
  /** Every entry as a sentence, in causal order and otherwise by claimed time. */
  history: Array<HistoryLine>,
  /** The number of entries. */
  entries: number,
  /** The number of entries without a receipt. */
  unreceipted: number, };

/** A handover. */
export type HandoverView = {
  /** The person who hands over. */
  from: OperatorId,
  /** The person who takes over. */
  to: OperatorId,
  /** The attribution of the entry by the person who hands over. */
  given: Attribution | null,
  /** The attribution of the entry by the person who takes over. */
  taken: Attribution | null,
  /** Whether only one of the two made an entry. */
  one_sided: boolean, };

/** The header of a visit. */
export type Header = {
  /** The visits of this stay; more than one if visits were joined. */
  visits: Array<VisitId>,
  /** The car number in its normal form; empty as long as nobody opened the visit. */
  car: string,
  /** The car's id. */
  car_id: CarId | null,
  /** The statement with which the visit was opened. */
  opened: Attested<Opened> | null,
  /** The findings about the car number. */
  number_findings: Array<CarNumberFinding>,
  /** The car number as read a second time. */
  number_again: Attested<CarNumber> | null,
  /** The site's id. */
  site: SiteId | null,
  /** The site's name; empty as long as it is not known here. */
  site_name: string,
  /** The time zone in which times are shown. */
  zone: string,
  /** The local code and owner's instructions that take precedence, from the site's document. */
  local_rules: string,
  /** The track or spot, where it was last moved to during its stay if somebody said. */
  spot: string,
  /** What receives the cargo. */
  receiver: Receiver | null,
  /** The content of the shipping paper. */
  paper: Attested<Paper> | null,
  /** The product according to the paper; empty without a paper. */
  product: string,
  /** The emergency guide for the paper's UN number; `None` without a paper or for an unknown number. */
  emergency: EmergencyGuide | null,
  /** The digest of the procedure followed. */
  procedure: Digest | null,
  /** The procedure's title and edition. */
  procedure_title: Message,
  /** The note above the procedure's steps. */
  procedure_note: Message,
  /** Whether the exact text is known here; otherwise the default procedure is shown instead. */
  procedure_known: boolean,
  /** Everybody who made an entry. */
  people: Array<PersonView>,
  /** Every device that made an entry. */
  devices: Array<DeviceView>,
  /** The person who is responsible for the car now. */
  responsible: OperatorId | null,
  /** The earliest claimed time. */
  since: UtcMillis | null,
  /** The same time in the site's zone. */
  since_shown: string,
  /** The latest claimed time. */
  latest: UtcMillis | null, };

/** What was heard at a fitting after it was shut. */
export type Heard = "quiet" | "hiss";

/** One entry as a sentence. */
export type HistoryLine = {
  /** The slot of the entry. */
  slot: string,
  /** The sentence. */
  sentence: Message,
  /** The fate of the entry. */
  fate: Fate,
  /**
   * The reason why the entry no longer stands, in the words of the person who corrected it, or why it does
   * not count.
   */
  why_gone: Message,
  /** Whether the statement binds the person, in which case the degree of confirmation matters. */
  binds: boolean,
  /** The attribution. */
  said: Attribution, };

/** A hold: somebody has said that work must stop. */
export type HoldId = string;

/** A hold. */
export type HoldView = {
  /** The id of the hold. */
  id: HoldId,
  /** The reason. */
  because: string,
  /** The attribution of the entry that placed the hold. */
  said: Attribution,
  /** Whether the hold still stands. */
  open: boolean,
  /** The reason for lifting it, with attribution. */
  lifted: Attested<string> | null, };

/** A hose. */
export type Hose = {
  /** The hose's number at the site. */
  name: string,
  /** The service for which the hose is marked. */
  service: string,
  /** The date when its test is due, `YYYY-MM-DD`; empty if unknown. */
  test_due?: string, };

/** The plan of a car's fittings. */
export type HousingPlan = {
  /** The smallest coordinates and the size of the drawing: left, top, width and height, in inches. */
  bounds: [number, number, number, number],
  /** The tank's shell, the housing, its cover's bolts and the pin. */
  ground: Array<PlanShape>,
  /** The fittings. */
  fittings: Array<PlanFitting>,
  /** The words at the edges: the ends of the car, the scale, the cover. */
  words: Array<PlanText>,
  /** The target of the cover. */
  cover: PlanTarget, };

/** Something that went wrong: a release, a fire, an injury. */
export type Incident = {
  /** The id of the incident. */
  incident: IncidentId,
  /** What it came from, as a code or as typed. */
  source: Coded,
  /** The fitting, if it was at one. */
  fitting?: Fitting,
  /** When it was noticed. */
  noticed_at: UtcMillis,
  /** The worst that happened to anybody; absent if that was not said. */
  injury?: Injury,
  /** Whether anything caught fire; absent if that was not said. */
  ignition?: boolean,
  /** Who was moved away; absent if that was not said. */
  evacuation?: Evacuation,
  /** Whether a road, a railroad line or a facility was closed for an hour or more; absent if that was not said. */
  closed?: boolean,
  /** What happened. */
  what?: string, };

/** A call or report about an incident. */
export type IncidentCall = {
  /** Which incident. */
  incident: IncidentId,
  /** To whom, as a code or as typed. */
  to: Coded,
  /** When. */
  at: UtcMillis,
  /** The number that the report was given, or the person who answered; empty if there was none. */
  number?: string, };

/** An incident of a visit. */
export type IncidentId = string;

/** The end of the release of an incident. */
export type IncidentStopped = {
  /** Which incident. */
  incident: IncidentId,
  /** When it stopped. */
  at: UtcMillis,
  /** How much was lost, as estimated. */
  loss?: Amount,
  /**
   * Whether it was no more than the minimal amount of connecting, disconnecting or venting, and damaged nothing;
   * absent if that was not said.
   */
  minimal?: boolean, };

/** An incident. */
export type IncidentView = {
  /** The id of the incident. */
  id: IncidentId,
  /** What it came from, as a code or as typed. */
  source: Coded,
  /** The fitting, if it was at one. */
  fitting: Fitting | null,
  /** When it was noticed. */
  noticed_at: UtcMillis,
  /** What happened. */
  what: string,
  /** All that is known of it: what a later entry leaves open stands as an earlier one has it. */
  known: Incident,
  /** The attribution of the entry that told of it last. */
  said: Attribution,
  /** When it stopped. */
  stopped: Attested<StoppedView> | null,
  /** The calls and reports, in order. */
  calls: Array<CallView>,
  /** Whether it still stops the job. */
  open: boolean,
  /** What was done, as whoever closed it said. */
  closed: Attested<string> | null,
  /** The report by telephone that is still to be made. */
  telephone: ReportDue | null,
  /** The written report that is still to be made. */
  written: ReportDue | null, };

/** The worst that happened to anybody. */
export type Injury = "none" | "first_aid" | "hospital" | "death";

/** Somebody from outside inspected the car or the site. */
export type Inspection = {
  /** Whose inspector, and who. */
  by: string,
  /** What was looked at. */
  looked_at?: string,
  /** Whether something was found that has to be put right; absent if that was not said. */
  found?: boolean,
  /** The finding. */
  finding?: string,
  /** Whether a copy was left; absent if that was not said. */
  copy_left?: boolean, };

/** An instrument. */
export type Instrument = {
  /** The instrument's name at the site, as written on it. */
  name: string,
  /** The measured quantity, as a code or as typed. */
  measures: Coded,
  /** The full span. */
  span: Amount,
  /** The accuracy grade (ASME B40.100 for pressure gauges: 4A, 3A, 2A, 1A, A, B, C, D); empty if unknown. */
  grade?: string,
  /** The date when calibration is due, `YYYY-MM-DD`; empty if unknown. */
  calibration_due?: string, };

/** The insulation of a car's tank, by which its filling limits are chosen. */
export type Insulation = "none" | "thermal_protection" | "insulated";

/** An object that was taken out. */
export type ItemView = {
  /** The object's name. */
  item: string,
  /** The fitting whose closure it replaces. */
  fitting: Fitting | null,
  /** The attribution of the entry that took it out. */
  out: Attribution | null,
  /** The attribution of the entry that put it back; `None` while it is out. */
  back: Attribution | null, };

/** How the parts of a list are joined. */
export type Joint = "and" | "or" | "comma" | "semicolon" | "sentences";

/** A person's key stored on this device. */
export type KeyHere = {
  /** The person. */
  person: OperatorId,
  /** The public key. */
  key: DeviceId,
  /** The sixteen digits for comparison by telephone. */
  fingerprint: string,
  /** The number of tries left before the key is locked permanently; 0 if it is. */
  tries_left: number,
  /** The time from which the PIN may be tried again, if there is a waiting time. */
  wait_until: UtcMillis | null,
  /** Whether the office has confirmed the key, as far as is known here. */
  confirmed: boolean,
  /** Whether the office has ended the key, as far as is known here. */
  ended: boolean, };

/** The person who holds the phone, whose key is unlocked. */
export type KeyHolder = {
  /** Who. */
  person: OperatorId,
  /** Whether the key is unlocked for one act or for the shift. */
  how: Unlocking,
  /** The time of unlocking. */
  since: UtcMillis,
  /** The time at which the key is locked at the latest. */
  until: UtcMillis, };

/** How a person's key is protected on the phone where it was created. */
export type KeyKept = "pin" | "platform";

/** The last entry of a device that its organisation had received when the device was revoked. */
export type LastEntry = {
  /** The entry's number in the device's chain. */
  seq: number,
  /** The entry's id. */
  entry: EntryId, };

/** The place in a shell where a blocker is cleared. */
export type Lead = { "to": "disagreement",
  /** The slot. */
  slot: string, } | { "to": "empty_proof" } | { "to": "ask",
  /** The slot of the ask, see [`Guide::asks`]. */
  slot: string, } | { "to": "tally" } | { "to": "cover" } | { "to": "seal",
  /** The event to record. */
  event: SealEvent, } | { "to": "holds" } | { "to": "defects" } | { "to": "fitting",
  /** The fitting. */
  fitting: Fitting, } | { "to": "step" };

/** A leak that was found. */
export type Leak = {
  /** The id of the leak. */
  leak: LeakId,
  /** Where, as a code or as typed. */
  at: Coded,
  /** The fitting, if it was at one. */
  fitting?: Fitting,
  /** What was done about it. */
  action?: string, };

/** A leak was checked again. */
export type LeakChecked = {
  /** Which leak. */
  leak: LeakId,
  /** Whether it is tight now. */
  tight: boolean,
  /** What was done in between, and how it was checked. */
  note?: string, };

/** A leak found during a visit. */
export type LeakId = string;

/** A leak. */
export type LeakView = {
  /** The id of the leak. */
  id: LeakId,
  /** Where, as a code or as typed. */
  at: Coded,
  /** The fitting, if it was at one. */
  fitting: Fitting | null,
  /** What was done about it. */
  action: string,
  /** The attribution of the entry that told of it. */
  said: Attribution,
  /** Whether it still stops the job. */
  open: boolean,
  /** Whether it was tight when it was checked last. */
  checked: Attested<boolean> | null, };

/** How a car is left. */
export type LeavingView = {
  /** How it goes away, if somebody said. */
  outcome: Attested<CarOutcome> | null,
  /** The times at which it was left or moved, in order. */
  left: Array<LeftView>,
  /** The protections that were not recorded as set again since. */
  set_again: Array<Protection>, };

/**
 * What was seen to when a car was left. For transloading 49 CFR 174.67(k) asks for all five while equipment is
 * attached (read).
 */
export type LeftCondition = "designated" | "monitored" | "valves_closed" | "brakes_blocked" | "track_secured";

/** A time at which the car was left, or a move. */
export type LeftView = {
  /** How it was left; `None` for a move. */
  left: CarLeft | null,
  /** Where it was moved; `None` if it was left. */
  moved: CarMoved | null,
  /** The entry's attribution. */
  said: Attribution, };

/** The similarity between two visits. */
export type Likeness = "same_car" | "near_number";

/** The state of a line. */
export type LineState = {
  /** Whether it is connected. */
  connected: boolean,
  /** The hose; empty if it was not stated. */
  hose: string, };

/** What would change. */
export type Meaning = {
  /** The uncertainty of the reading, if the draft is one. */
  worth: ReadingUncertainty | null,
  /** The quantities whose value would change; each has a value. */
  figures: Array<Quantity>,
  /**
   * The new blockers, then the new findings, then the reasons why quantities still cannot be computed. No
   * sentence occurs twice.
   */
  findings: Array<Meant>, };

/** A consequence of a draft. */
export type Meant = {
  /** A sentence for people. */
  message: Message,
  /** Whether the person should check it before going on. */
  hot: boolean, };

/** The quantity that a reading measures. */
export type Measured = "pressure" | "temperature" | "outage" | "level" | "relative_density" | "volume" | "rate";

/**
 * One thing said to people: an id in the catalogues of `farsiding-words`, with the arguments that the sentence has
 * room for. In JSON it is `{"message": id, "args": {name: argument}}`.
 *
 * ```
 * use farsiding_message::{Message, Arg, message};
 *
 * let said = message!("gate-hold-open", because = Arg::typed("leak at the plug"));
 * assert_eq!(said.id(), "gate-hold-open");
 * ```
 */
export type Message = { message: string, args?: Record<string, Arg>, };

/** Something that a gate asks for and that is there. */
export type Met = {
  /** The kind of the item that it would be. */
  item: BlockerKind,
  /** What is there, in a few words. */
  what: Message,
  /** The entry that met it last, where it is one that can be named. */
  by: Attribution | null, };

/** The office removed a person's name: whoever holds name and salt of these commitments deletes them. */
export type NameForgotten = {
  /** The person's code. */
  person: OperatorId,
  /** The commitments of all names that the roster held of the person. */
  named: Array<Digest>, };

/** Where a person's name comes from, or why there is none. */
export type NameStanding = "open" | "kept" | "not_here" | "removed";

/** The degree to which an entry is confirmed by the person it names. */
export type Named = "by_phone" | "held" | "own_hand" | "hand_not_confirmed" | "hand_not_theirs";

/** A note for the next visit of the car. */
export type NextTime = {
  /** The id of the note. */
  note: NoteId,
  /** What the next person should know or do. */
  what: string,
  /** The fitting, if it is about one. */
  fitting?: Fitting, };

/** Somebody saw to a note for the next visit. */
export type NextTimeDone = {
  /** Which note. */
  note: NoteId,
  /** What was done. */
  how?: string, };

/** A note for the next visit of a car. */
export type NoteId = string;

/** An offer to join a visit with another one. */
export type Offer = {
  /** The other visit. */
  other: VisitId,
  /** The other visit's car number. */
  car: CarNumber,
  /** The reason for the offer. */
  likeness: Likeness,
  /** A sentence for people. */
  sentence: Message, };

/** The facts with which a visit is opened. */
export type OpenVisit = {
  /** The car number as read from the stencil. */
  car: string,
  /** The site where the car stands. */
  site: SiteId,
  /** What receives the cargo. */
  receiver: Receiver,
  /** The digest of the procedure to follow. */
  procedure: Digest,
  /** The track or spot. */
  spot: string, };

/** The opening of a visit. */
export type Opened = {
  /** The car number as read from the stencil. */
  car: CarNumber,
  /** The site where the car stands. */
  site: SiteId,
  /** What receives the cargo. */
  receiver: Receiver,
  /** The digest of the procedure's text. */
  procedure: Digest,
  /** The track or spot as the site names it. */
  spot?: string,
  /**
   * The nonce from which, together with the site, the visit's id was computed (see
   * [`at_site`](crate::ids::VisitId::at_site)). It ties the visit to the site where it began. Absent in
   * records of version one.
   */
  nonce?: VisitNonce, };

/** A person of the organisation. */
export type Operator = {
  /** The person's short code. */
  operator: OperatorId,
  /**
   * The name as typed, in drafts and in entries of earlier versions. Entries made since hold an empty text
   * here, which earlier versions read as a person without a name, and `named` in its place.
   */
  name: string,
  /** The commitment to the name, see [`super::PersonName`]. */
  named?: Digest,
  /** The date of the last training, `YYYY-MM-DD`; empty if unknown. */
  trained_on?: string,
  /** Whether the person belongs to the organisation now. */
  active: boolean, };

/**
 * The person who makes an entry, by the short code that the organisation uses for the person: 1 to 64
 * characters.
 */
export type OperatorId = string;

/** The owner's outage table. */
export type OutageTableView = {
  /** The owner's name for the table. */
  name: string,
  /** The rows: outage in inches and volume in gallons. */
  rows: Array<[number, number]>,
  /** Whether the volumes are of liquid; otherwise they are of the empty space. */
  liquid: boolean, };

/** The indication of all evidence together. There is no outcome "empty", because that decision is a person's. */
export type Outcome = "liquid_indicated" | "no_liquid_indicated" | "not_enough_evidence";

/**
 * The content of the shipping paper. Any field may be empty, because nothing that is missing on the paper
 * may be made up.
 */
export type Paper = {
  /** The number of the paper. */
  number?: string,
  /** The car number as printed on the paper. */
  car?: string,
  /** The shipper. */
  shipper?: string,
  /** The identification number, such as UN1075. */
  un_number?: string,
  /** The proper shipping name. */
  product?: string,
  /** The billed quantity. */
  billed?: Amount,
  /** The relative density at 60 °F as billed. */
  relative_density?: Amount,
  /** Whether the product is odorised according to the paper; absent if the paper does not say. */
  odorised?: boolean,
  /** The grade of the product, if the paper or the shipper says it. */
  grade?: ProductGrade,
  /** How the shipper measured the billed quantity. */
  billed_by?: BilledBy,
  /** Whether the car was filled to winter limits, according to the shipper's notice. */
  winter_fill?: boolean,
  /**
   * The entry of the office that said what the paper says. The person compared it with the paper in hand; the
   * figures that are the same here and there were written by the office's import and typed by nobody.
   */
  compared?: EntryId, };

/**
 * A shipping paper that the office imported and sent to a site. It says what is printed there and where the office
 * read it; nobody at the car has compared it with anything yet.
 */
export type PaperExpected = {
  /** The car number as printed. */
  car: CarNumber,
  /** The number of the paper. */
  number?: string,
  /** The shipper. */
  shipper?: string,
  /** The identification number, such as UN1075. */
  un_number?: string,
  /** The proper shipping name. */
  product?: string,
  /** The billed quantity. */
  billed?: Amount,
  /** The relative density at 60 °F as billed. */
  relative_density?: Amount,
  /** Whether the product is odorised according to the paper; absent if the paper does not say. */
  odorised?: boolean,
  /** The grade of the product, if the file says it. */
  grade?: ProductGrade,
  /** How the shipper measured the billed quantity, if the file says it. */
  billed_by?: BilledBy,
  /** Whether the car was filled to winter limits, if the file says it. */
  winter_fill?: boolean,
  /** The day on which the paper was made out, `YYYY-MM-DD`; empty if the file does not say. */
  dated?: string,
  /** The day on which the car is expected, `YYYY-MM-DD`; empty if the file does not say. */
  expected?: string,
  /** The SHA-256 of the imported file. */
  file: Digest,
  /** The name of the imported file. */
  file_name?: string,
  /** The line in the file; the headings are line 1. */
  line: number, };

/** The office takes the paper of a car back: the car is not expected by it any more. */
export type PaperTakenBack = {
  /** The car number as printed on the paper. */
  car: CarNumber,
  /** Why. */
  because: string, };

/** The part that a torque or a wear history belongs to. */
export type Part = "valve" | "closure";

/** The condition of a part of the housing cover. */
export type PartState = "sound" | "worn" | "bent" | "broken" | "missing";

/** A person's word that a blocker was seen and passed over. */
export type PassedOver = {
  /** The blocker's code. */
  blocker: string,
  /** The code in words. */
  spoken: Message,
  /** At which gate; `None` for a word of an earlier version, which holds at both. */
  gate: Gate | null,
  /** Why: a reason from the list, or in the person's words. */
  why: Message,
  /** Who and when. */
  said: Attribution,
  /**
   * Whether this word still stands: given with a reason, not withdrawn, and the record has not
   * said anything else since.
   */
  stands: boolean,
  /** Why it does not stand, when it does not. */
  fallen: Message | null,
  /** Whether the blocker is still there. */
  blocks_still: boolean, };

/** The people of this device in the form that shells show. */
export type PeopleHere = {
  /** The person who holds the phone now. */
  holder: KeyHolder | null,
  /** The keys stored here. */
  keys: Array<KeyHere>,
  /** The organisation's rules. */
  rules: Rules,
  /** Whether a key can be created: the device is enrolled, and the shell has passed in its secret. */
  can_make: boolean, };

/** A person of the organisation as known here. */
export type Person = {
  /** The person's short code. */
  operator: OperatorId,
  /** The name, or the code if no name is known here. */
  name: string,
  /** Where the name comes from. */
  name_is: NameStanding,
  /** The date of the last training, `YYYY-MM-DD`; empty if unknown. */
  trained_on?: string,
  /** Whether the person belongs to the organisation now. */
  active: boolean, };

/** A person's own signing key. */
export type PersonKey = {
  /** The person's code. */
  person: OperatorId,
  /** The Ed25519 public key (RFC 8032). */
  key: DeviceId,
  /** How the secret key is protected. */
  kept: KeyKept, };

/** A person in this visit. */
export type PersonView = {
  /** The person's code. */
  operator: OperatorId,
  /** The person's name, or the code if the name is unknown. */
  name: string,
  /** Whether the person's name was removed at the office. */
  name_removed?: boolean,
  /** The number of entries. */
  entries: number, };

/** The object that a photograph shows. */
export type PhotoOf = "car_number" | "seal" | "threads" | "defect" | "instrument" | "housing" | "paper" | "other";

/** A photograph by the digest and length of its exact bytes, which are transferred apart from the record. */
export type PhotoRef = {
  /** The SHA-256 of the exact bytes received from the camera. */
  sha256: Digest,
  /** The number of bytes. */
  length: number,
  /** The media type, such as `image/jpeg`. */
  media: string, };

/** A photograph. */
export type PhotoView = {
  /** The digest, length and media type of the photograph's bytes. */
  photo: PhotoRef,
  /** The object that the photograph shows. */
  of: PhotoOf,
  /** The slot that the photograph belongs to; empty if there is none. */
  about: string,
  /** The entry's attribution. */
  said: Attribution, };

/** One judged piece of evidence. */
export type Piece = {
  /** A stable name: gauge_rod, liquid_valve, superheat, hold_test, saturation_bound. */
  name: "gauge_rod" | "liquid_valve" | "superheat" | "hold_test" | "saturation_bound",
  /** The indication. */
  says: Says,
  /** The weight. */
  weight: Weight,
  /** The reason, with the arithmetic. */
  reason: Message,
  /** The number behind the judgement, if there is one. */
  computed?: Computed, };

/** The place of a measurement. */
export type Place = "car" | "car_low" | "liquid_line" | "vapour_line" | "compressor" | "compressor_suction" | "compressor_discharge" | "shut_off_panel" | "storage_tank" | "truck" | "air";

/** A fitting of the plan. */
export type PlanFitting = {
  /** Which one. */
  fitting: Fitting,
  /** Its centre, in inches. */
  at: [number, number],
  /**
   * How far its shapes are turned about its centre, in degrees: 0 if the outlet points toward the B end, 90 if
   * it points toward the viewer.
   */
  turned: number,
  /** The shapes, with the outlet toward the B end and the centre at nought. */
  shapes: Array<PlanShape>,
  /** The corners around the fitting when it is chosen, drawn as the shapes are. */
  chosen: string,
  /** A mark on the housing's rim that points at the fitting when it is next; empty for one outside. */
  next: string,
  /** Its name and state. */
  words: Array<PlanText>,
  /** Where it is touched. */
  target: PlanTarget, };

/** A line or an area of the plan. */
export type PlanShape = {
  /** What it is, for the pen: `solid`, `hollow-hot`, `unknown` and so on. Hot is what needs attention. */
  pen: string,
  /** The path in the language of SVG 1.1, section 8.3, in inches. */
  path: string, };

/** A place to touch. */
export type PlanTarget = {
  /** Its centre, in inches. */
  at: [number, number],
  /** Its radius, in inches. */
  radius: number,
  /**
   * The frame around what is touched when it is chosen, in the drawing's own coordinates; empty for a
   * fitting, which has one of its own.
   */
  chosen: string, };

/** Words on the plan, on one line. */
export type PlanText = {
  /** Where the line begins, is in the middle or ends, in inches. */
  at: [number, number],
  /** Which of these is there: `start`, `middle` or `end`. */
  anchor: string,
  /** The words, each with its pen, divided by a dot. */
  words: Array<PlanWord>,
  /** Whether each of the words may stand on a line of its own, as beside the housing. */
  narrow: boolean, };

/** A word of the plan. */
export type PlanWord = {
  /** The word. */
  says: Message,
  /** Its pen: `name`, `state`, `state-hot` or `small`. */
  pen: string, };

/** The condition of a plug and its square. */
export type PlugCondition = {
  /** Whose plug. */
  fitting: Fitting,
  /** Its condition. */
  state: PlugState,
  /** What was seen. */
  note?: string, };

/** The condition of a plug and of the square that the wrench takes. */
export type PlugState = "sound" | "rounded" | "seized";

/** One reading as entered. */
export type Point = {
  /** The value that the instrument showed, as typed. */
  amount: Amount,
  /** The name of the instrument; empty if it was not stated. */
  instrument: string,
  /** The reading's uncertainty. */
  worth: ReadingUncertainty,
  /** The entry's attribution. */
  said: Attribution,
  /** The fate of the entry. */
  fate: Fate,
  /** The reason for the correction, in the words of the person who made it. */
  why_gone: Message, };

/** A position as the device reported it. */
export type Position = {
  /** The latitude in degrees north, −90 to 90. */
  latitude: number,
  /** The longitude in degrees east, −180 to 180. */
  longitude: number,
  /** The radius of the 95 % circle in metres. */
  accuracy_m: number, };

/** The kind of precipitation. */
export type Precipitation = "dry" | "rain" | "freezing_rain" | "snow" | "frost";

/** Whether somebody attends the connected car. */
export type Presence = "here" | "away";

/** A stay as it would be with drafts, and what would change. */
export type PreviewedVisit = {
  /** The differences from the record as it stands. */
  meaning: Meaning,
  /** The header: car, site, receiver, people and devices. */
  header: Header,
  /** The present stage of the job. */
  stage: Stage,
  /** The steps of the procedure. */
  steps: StepsView,
  /** The fittings. */
  fittings: Array<FittingView>,
  /** The plan of the fittings as a drawing; empty in a list. */
  plan: HousingPlan,
  /** The protections. */
  protections: Array<ProtectionView>,
  /** The housing cover. */
  cover: Attested<CoverState> | null,
  /** The readings with a single true value. */
  readings: Array<ReadingView>,
  /** The series of readings. */
  series: Array<SeriesView>,
  /** The computed quantities. */
  computed: Array<Quantity>,
  /** Advice computed from the weather and the record. */
  advice: Array<Finding>,
  /** The evidence of whether the liquid is out. */
  empty: EmptyView,
  /** The trucks loaded. */
  trucks: TrucksView,
  /** Seals. */
  seals: Array<SealView>,
  /** Photographs. */
  photos: Array<PhotoView>,
  /** The objects that were taken out. */
  tally: TallyView,
  /** The defects of this visit and, marked by their visit, earlier ones. */
  defects: Array<DefectView>,
  /** Holds. */
  holds: Array<HoldView>,
  /** Incidents, with what is reported of them. */
  incidents: Array<IncidentView>,
  /** The leaks that were found. */
  leaks: Array<LeakView>,
  /** How the car is left, and how it goes away. */
  leaving: LeavingView,
  /** Handovers. */
  handovers: Array<HandoverView>,
  /** Attendance. */
  attendance: AttendanceView,
  /** The last word that all is well, while somebody has the car and the procedure asks for it. */
  check_in?: CheckInView,
  /** The events that matter for the car's detention. */
  clock: Array<ClockView>,
  /** Checks with a free name. */
  checks: Array<CheckView>,
  /** The weather recorded last, as a sentence. */
  weather: Attested<Message> | null,
  /** What is known about the car, including this visit. */
  car: CarView,
  /** The unsettled disagreements. */
  disagreements: Array<Disagreement>,
  /** The ended disagreements. */
  ended_disagreements: Array<EndedDisagreement>,
  /** The gate before unloading, with its items. */
  unloading: UnloadingView,
  /** The blockers of release. */
  blockers: Array<Blocker>,
  /** All entries that pass over a blocker. */
  passed_over: Array<PassedOver>,
  /** The state of the release. */
  release: ReleaseView,
  /** The facts for comparing this stay with others; `None` as long as nobody opened it. */
  brief: Brief | null,
  /** The offers to join this stay with another record. */
  offers: Array<Offer>,
  /** The findings, the most severe first. */
  findings: Array<Finding>,
  /** Missing or contradictory entries in the chains of the devices involved. */
  chain_gaps: Array<ChainGapView>,
  /** Entries of kinds that this version does not know. */
  unrecognised: Array<HistoryLine>,
  /** Every entry as a sentence, in causal order and otherwise by claimed time. */
  history: Array<HistoryLine>,
  /** The number of entries. */
  entries: number,
  /** The number of entries without a receipt. */
  unreceipted: number, };

/** The grade of a liquefied petroleum gas. */
export type ProductGrade = "hd5_propane" | "commercial_propane" | "commercial_butane" | "butane_propane" | "isobutane" | "propylene";

/** A protection of the people and the car during work. */
export type Protection = "blue_sign" | "hand_brake" | "chocks" | "track_secured" | "emergency_shut_off" | "gas_detector";

/** A protection. */
export type ProtectionView = {
  /** The protection. */
  what: Protection,
  /** Whether it is set; `None` if nobody recorded it. */
  set: Attested<boolean> | null, };

/** An edition of a procedure that the organisation publishes for its sites. */
export type PublishedProcedure = {
  /** The SHA-256 of the text, by which stays name the edition. */
  procedure: Digest,
  /** The whole text, in the form of the texts in `core/procedures`; at most [`LARGEST_PROCEDURE`] bytes. */
  text: string,
  /** The sites at which new stays begin under the edition; all sites if there is none. */
  sites?: Array<SiteId>,
  /** The edition that it was made from: a built-in one, or one that was published before. */
  from?: Digest,
  /** What was changed, in the words of the person who publishes. */
  note?: string, };

/**
 * The purpose of a reading. Arrival and final readings have a single true value; the others form a
 * series.
 */
export type Purpose = "arrival" | "leak_test" | "transfer" | "recovery" | "hold_test" | "empty_proof" | "final";

/** A computed quantity, or the reason why it cannot be computed. */
export type Quantity = {
  /** A stable name, such as `residue`. */
  name: string,
  /** The title for people. */
  title: Message,
  /** The value; the lowest one if only the grade of the product is known. */
  value: Computed | null,
  /** The highest value, if only the grade is known and the composition makes a difference. */
  up_to: Computed | null,
  /** The product that the value applies to, in words; empty if the product does not matter. */
  product: Message,
  /** A sentence that tells why there is no value. */
  missing: Message | null, };

/** One reading of one instrument. */
export type Reading = {
  /** The measured quantity. */
  measured: Measured,
  /** The place of measurement. */
  place: Place,
  /** The purpose of the reading. */
  purpose: Purpose,
  /** The value that the instrument showed, as typed. */
  amount: Amount,
  /** The site's name for the instrument; empty if it was not stated. */
  instrument?: string, };

/** The ± of a reading. */
export type ReadingUncertainty = {
  /** The expanded uncertainty at about 95 %, in the unit of the reading; `None` if it is not known. */
  plus_minus: number | null,
  /** The basis in words: the instrument's grade and span or what was presumed, or why there is no ±. */
  by: Message, };

/** A reading with a single true value. */
export type ReadingView = {
  /** Its slot. */
  slot: string,
  /** The title, such as "Final pressure at the car". */
  title: Message,
  /** The measured quantity. */
  measured: Measured,
  /** The place. */
  place: Place,
  /** The purpose. */
  purpose: Purpose,
  /** The standing value. */
  current: Attested<Reading> | null,
  /** All entries ever made in the slot, in order, each with its fate. */
  history: Array<Point>, };

/** What receives the cargo. It decides which rules the procedure shows. */
export type Receiver = "fixed_tank" | "truck";

/**
 * One thing that a step records, with enough detail for a phone to present the right form. A fitting that it
 * concerns is that of the step.
 */
export type RecordAsk = { "statement": "opened", } | { "statement": "car_number_again", } | { "statement": "paper", } | { "statement": "clock", event: ClockEvent, } | { "statement": "reading", measured: Measured, place: Place, purpose: Purpose, unit: Unit, } | { "statement": "valve", position: ValvePosition, } | { "statement": "closure", state: ClosureState, } | { "statement": "listen", } | { "statement": "line", connected: boolean, } | { "statement": "effort", part: Part, } | { "statement": "threads", } | { "statement": "valve_feel", } | { "statement": "plug_condition", } | { "statement": "cover_condition", } | { "statement": "hose_pressure", } | { "statement": "next_time", } | { "statement": "item_out", item: string, } | { "statement": "item_in", item: string, } | { "statement": "seal", event: SealEvent, } | { "statement": "photo", of: PhotoOf, } | { "statement": "defect", } | { "statement": "forwarded", } | { "statement": "hold", } | { "statement": "attendance", presence: Presence, } | { "statement": "cover", } | { "statement": "protection", what: Protection, set: boolean, } | { "statement": "weather", } | { "statement": "empty_sign", sign: EmptySign, } | { "statement": "empty_decision", } | { "statement": "truck_load", } | { "statement": "tank_gauged", } | { "statement": "recovery_planned", } | { "statement": "inspection", } | { "statement": "check", what: string, } | { "statement": "car_fittings", } | { "statement": "car_capacity", } | { "statement": "car_diameter", } | { "statement": "outage_table", } | { "statement": "car_test_date", test: TestDate, } | { "statement": "incident", } | { "statement": "leak", } | { "statement": "car_left", } | { "statement": "car_moved", } | { "statement": "outcome", } | { "statement": "fit_to_unload", } | { "statement": "last_round", } | { "statement": "released", };

/** Down to which pressure vapor is to be recovered, and what is known of the compressor and of the money. */
export type RecoveryPlanned = {
  /** The pressure in the car at which recovery is to end. */
  target: Amount,
  /** The volume that the compressor sweeps. */
  swept?: Amount,
  /** Its volumetric efficiency. */
  efficiency?: Amount,
  /** The price of a gallon. */
  price?: Amount,
  /** The cost of running for an hour. */
  cost?: Amount, };

/** Where release stands. */
export type ReleaseView = {
  /** Whether the car was released, and whether as residue. */
  released: Attested<boolean> | null,
  /** Blockers nobody passed over. */
  open: number,
  /** Blockers that were passed over. */
  passed_over: number,
  /** What the gate asks for and is there. */
  met: Array<Met>,
  /** Always shown beside it. */
  note: Message, };

/** A report that is asked for, and by when. */
export type ReportDue = {
  /** By when. */
  due: UtcMillis,
  /** The same time in the site's zone. */
  shown: string,
  /** Whether that time has passed. */
  overdue: boolean,
  /** Whether the rule binds this unloading; otherwise a person checks whether it does. */
  must: boolean, };

/** An entry of another visit. */
export type RestsOn = {
  /** The visit. */
  visit: VisitId,
  /** The entry. */
  entry: EntryId, };

/** One thing that a device may do at the sites of its certificate. */
export type Right = "record" | "settle" | "lift_hold" | "override" | "release" | "withdraw_others" | "keep_site" | "issue_seals" | "keep_people" | "publish_procedures" | "admit" | "enrol" | "read";

/**
 * The organisation's decisions about rights and signatures. The newest rules count; without any, the
 * built-in rules of `authority` apply.
 */
export type Rules = {
  /** The rights of an operator's device, if they are fewer than the built-in rules grant. */
  operator_rights?: Array<Right>,
  /** How long a person's key stays unlocked. */
  unlocking: Unlocking,
  /** Whether binding acts count only with the person's own signature. */
  signature_required?: boolean, };

/** The indication of a piece of evidence. */
export type Says = "liquid" | "no_liquid" | "nothing";

/** One event of a seal. */
export type Seal = {
  /** Whether the seal was found, applied or removed. */
  event: SealEvent,
  /** The place of the seal. */
  place: SealPlace,
  /** The number as read; empty if it is illegible or missing. */
  number?: string,
  /** Its kind. */
  kind?: SealKind,
  /** Whether the seal was intact. */
  intact: boolean,
  /** The photograph of it in place. */
  photo?: Digest,
  /** Why there is no photograph or, for an illegible or broken seal, what was seen; as a code or as typed. */
  note?: Coded,
  /** Why another seal takes the place of the one before, or why it was removed. */
  because?: string, };

/** An event in the life of a seal. */
export type SealEvent = "found" | "applied" | "removed";

/** The kind of a seal. */
export type SealKind = "plastic" | "metal_strap" | "cable" | "bolt";

/** The place of a seal. */
export type SealPlace = "housing_pin" | "housing_lug" | "gauging_device" | "elsewhere";

/** A range of seals issued to a site. */
export type SealStock = {
  /** First number. */
  from: string,
  /** Last number. */
  to: string,
  /** The kind of seal, as a code or as typed. */
  kind: Coded, };

/** A place for a seal. */
export type SealView = {
  /** The place. */
  place: SealPlace,
  /** The seal found on arrival. */
  found: Attested<Seal> | null,
  /** The seal last applied or removed here. */
  now: Attested<Seal> | null,
  /** The photographs that belong to it. */
  photos: Array<Digest>,
  /** What the record of an applied seal still lacks, in words. */
  lacks: Array<Message>,
  /** Whether the seal found was replaced by another one here. */
  replaced: boolean, };

/** A series of readings. */
export type SeriesView = {
  /** Its slot. */
  slot: string,
  /** The title, such as "Transfer pressure at the car". */
  title: Message,
  /** The measured quantity. */
  measured: Measured,
  /** The place. */
  place: Place,
  /** The purpose. */
  purpose: Purpose,
  /** The standing points, by the corrected time at which they were read. */
  points: Array<Point>,
  /** The points that were corrected or withdrawn. */
  struck: Array<Point>, };

/** The importance of a finding. */
export type Severity = "note" | "check" | "alarm";

/** One siding with its tanks, instruments and people. */
export type SiteId = string;

/** The profile of a site. */
export type SiteProfile = {
  /** Its name. */
  name: string,
  /** The IANA time zone, such as `Etc/GMT+6`, in which times are shown. */
  zone: string,
  /** The elevation above sea level, for converting gauge to absolute pressure. */
  elevation: Amount,
  /** The longest time in minutes without a sign of attendance at a connected car before a gap is reported. */
  attendance_gap_minutes: number,
  /** Local code and owner's instructions that take precedence, as text. */
  local_rules?: string,
  /** The name of the organisation that keeps the site's record, as it is to stand on paper. */
  organisation?: string,
  /** Where the site lies: its address, or how it is found where it has none. */
  address?: string, };

/** A site as it is known. */
export type SiteView = {
  /** The site's id. */
  id: SiteId | null,
  /** The name; empty if nobody recorded it. */
  name: string,
  /** The IANA time zone; empty if nobody recorded it. */
  zone: string,
  /** The elevation above sea level. */
  elevation: Amount | null,
  /** The minutes without a sign of attendance after which a gap is reported; `None` if nobody recorded it. */
  attendance_gap_minutes: number | null,
  /** Local code and owner's instructions that take precedence. */
  local_rules: string,
  /** The name of the organisation that keeps the site's record; empty if nobody recorded it. */
  organisation: string,
  /** Where the site lies; empty if nobody recorded it. */
  address: string,
  /** The receiving tanks. */
  tanks: Array<Tank>,
  /** Instruments. */
  instruments: Array<Instrument>,
  /** Hoses. */
  hoses: Array<Hose>,
  /** The people and offices to call. */
  contacts: Array<Contact>,
  /** The seals issued to the site. */
  seal_stock: Array<SealStock>,
  /** The emergency guide for any liquefied petroleum gas. The guide of a car's own paper takes precedence. */
  emergency: EmergencyGuide | null,
  /** The slots in which entries disagree. */
  disputed: Array<string>,
  /**
   * The cars that are expected, as far as whoever hands the view out says: see
   * [`Snapshot::site_now`](crate::book::Snapshot::site_now). The fold of the site's entries alone leaves it empty.
   */
  expected: Array<ExpectedCar>, };

/** The stages of the job, in order. */
export type Stage = "receive" | "gauge" | "connect" | "transfer" | "recover" | "prove_empty" | "disconnect" | "final_pressure" | "close" | "release";

/** The progress of a stage. */
export type StageProgress = {
  /** The stage. */
  stage: Stage,
  /** The number of closed steps. */
  closed: number,
  /** The number of steps, without optional ones and those of unused lines. */
  of: number, };

/** The standing of the device that made an entry with its organisation. */
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
    engaged: Amount, } } | { "valve_feel": ValveFeel } | { "plug_condition": PlugCondition } | { "cover_condition": CoverCondition } | { "hose_pressure": {
    /** At which fitting. */
    fitting: Fitting,
    /** How much. */
    amount: Amount, } } | { "item_out": {
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
    how: string, } } | { "incident": Incident } | { "incident_stopped": IncidentStopped } | { "incident_call": IncidentCall } | { "incident_closed": {
    /** Which incident. */
    incident: IncidentId,
    /** What was done, and why work may go on. */
    how: string, } } | { "leak": Leak } | { "leak_checked": LeakChecked } | { "car_left": CarLeft } | { "car_moved": CarMoved } | { "outcome": CarOutcome } | { "next_time": NextTime } | { "next_time_done": NextTimeDone } | { "hold": {
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
    presence: Presence, } } | { "checked_in": Record<symbol, never> } | { "cover": {
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
    grounds: string, } } | { "truck_load": TruckLoad } | { "tank_gauged": TankGauged } | { "recovery_planned": RecoveryPlanned } | { "inspection": Inspection } | { "check": {
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
    seen?: Array<EntryId>, } } | { "overridden": {
    /** At which gate. */
    gate: Gate,
    /** The codes of the items. */
    items: Array<string>,
    /**
     * The entries that the items stood on. Should the record say something else of an item later, that
     * item is open again. Empty: it holds whatever comes.
     */
    seen?: Array<EntryId>,
    /** Why: a code, or as typed. */
    reason: Coded, } } | { "last_round": {
    /** The fittings that were in order. */
    fittings: Array<Fitting>,
    /** The fittings that were not. */
    except?: Array<Fitting>,
    /** What was not in order there. */
    note?: string,
    /** The photograph of the open housing. */
    photo?: Digest, } } | { "fit_to_unload": Record<symbol, never> } | { "released": {
    /** Whether it goes as residue (not cleaned and purged). */
    as_residue: boolean, } } | { "car_number_again": {
    /** As read. */
    car: CarNumber, } } | { "car_fittings": {
    /** All of them, the relief device aside. */
    fittings: Array<Fitting>,
    /** The kind of the gauging device, if that was seen. */
    gauging?: GaugingKind,
    /** The end of the car on which the vapor valve is, if that was seen. */
    vapour_end?: CarEnd, } } | { "car_capacity": {
    /** How much it holds, shell full. */
    capacity: Amount,
    /** How the tank is insulated, if that was seen. */
    insulation?: Insulation, } } | { "car_diameter": {
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
    due: string, } } | { "site": SiteProfile } | { "tank": Tank } | { "instrument": Instrument } | { "hose": Hose } | { "contact": Contact } | { "seal_stock": SealStock } | { "operator": Operator } | { "name_forgotten": NameForgotten } | { "person_key": PersonKey } | { "person_key_confirmed": {
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
    entry: EntryId, } } | { "rules": Rules } | { "procedure_published": PublishedProcedure } | { "procedure_withdrawn": {
    /** The digest of the edition's text. */
    procedure: Digest,
    /** Why. */
    because: string, } } | { "paper_expected": PaperExpected } | { "paper_taken_back": PaperTakenBack };

/** An ask of a step, and whether it is still unanswered. */
export type StepAsk = {
  /** The ask. */
  ask: Ask,
  /** Whether its answer is missing. */
  missing: boolean, };

/** The asks of a step. */
export type StepAsks = {
  /** The id of the step. */
  id: string,
  /** What the step records. */
  records: Array<StepAsk>,
  /** What the step may record in addition. */
  may_record: Array<Ask>,
  /** What can be recorded now, while an answer to the step holds the job. */
  now: Array<Ask>, };

/** The outcome of a step. */
export type StepOutcome = "done" | "not_right" | "skipped";

/** The status of a step. */
export type StepStatus = "open" | "partly" | "recorded" | "done" | "not_right" | "skipped" | "not_used" | "held";

/** One of the steps. */
export type StepTogether = {
  /** The id of the step. */
  step: string,
  /** What the key records when all went as listed; nothing where readings are to be typed. */
  says: Array<Statement>,
  /** The readings to be typed. */
  readings: Array<Ask>,
  /**
   * What the key says once more as it was recorded before, of the car or on another car of the track, one sentence
   * each.
   */
  known: Array<Message>,
  /** What each of `says` rests on, if it is taken over from another car on the track. */
  rests_on?: Array<RestsOn>, };

/** One step of this car. */
export type StepView = {
  /** The id, such as `shut_valve.liquid_a`. */
  id: string,
  /** The stage of the job. */
  stage: Stage,
  /** A title of a few words. */
  title: Message,
  /** The instruction, in a sentence or two. */
  what_to_do: Message,
  /** The reason for the step. */
  why: Message,
  /** Who asks for the step, given this receiver. */
  asked_by: AskedBy,
  /** The source, in words. */
  source: Message,
  /** The dangers at this step. */
  cautions: Array<Message>,
  /** The fitting, if the step has one. */
  fitting: Fitting | null,
  /** What the step records, that is, the forms to present. If this is empty, the step is only acknowledged. */
  records: Array<RecordAsk>,
  /** What the step may record in addition. */
  may_record: Array<RecordAsk>,
  /** Those of `records` that are still missing. */
  missing: Array<RecordAsk>,
  /** The status. */
  status: StepStatus,
  /** The attribution of the entry that closed the step. */
  said: Attribution | null,
  /** The note in that entry; for a skipped step the reason. */
  note: string,
  /** If an answer holds the job: which, one sentence each. */
  reasons?: Array<Message>,
  /** If an answer holds the job: what to do now. */
  what_now?: Message,
  /** If an answer holds the job: what can be recorded now. */
  now?: Array<RecordAsk>,
  /** The interval of repetition, in minutes. */
  repeat_minutes: number | null,
  /** The time when the step is due again. */
  due: UtcMillis | null,
  /** Whether the job is complete without the step. */
  optional: boolean, };

/** Open steps that one key records. */
export type StepsTogether = {
  /** The id of the group, with its fitting if each line has a key of its own: `line_on.liquid_a`. */
  id: string,
  /** What the steps are together. */
  title: Message,
  /** What must have been done before the key is pressed. */
  what_to_do: Message,
  /** The line, if each has a key of its own. */
  fitting?: Fitting,
  /** The open steps in order: at least two, or one that is taken over from another car on the track. */
  steps: Array<StepTogether>, };

/** The steps, and the present stage of the job. */
export type StepsView = {
  /** The present stage of the job. */
  stage: Stage,
  /** The progress of each stage. */
  stages: Array<StageProgress>,
  /**
   * The ids of the next steps: what holds the job, what is asked again, what is due again, the decision about the
   * liquid if the car is being closed up without it, and the first open steps of the stage.
   */
  next: Array<string>,
  /**
   * The ids of the steps that are asked again because the car was moved, or left with nobody at it: they come
   * before anything else that is next, until the car is closed up.
   */
  again?: Array<string>,
  /** The ids of open steps of earlier stages. */
  left_behind: Array<string>,
  /** Every step in order. */
  steps: Array<StepView>,
  /** Sentences about step entries whose step is not in the procedure. */
  unknown: Array<Message>, };

/** The end of an incident's release. */
export type StoppedView = {
  /** When it stopped. */
  at: UtcMillis,
  /** How much was lost, as estimated. */
  loss: Amount | null,
  /** Whether it was no more than the minimal amount of connecting or disconnecting; `None` if nobody said. */
  minimal: boolean | null, };

/** All objects that were taken out. */
export type TallyView = {
  /** The objects that are out, in the order in which they were taken out. */
  out: Array<ItemView>,
  /** The objects that were taken out and put back. */
  back: Array<ItemView>,
  /**
   * The objects that were put back without having been taken out, because of a mistyped name or an entry
   * that is not here.
   */
  unknown: Array<ItemView>, };

/** A receiving tank. */
export type Tank = {
  /** The tank's name at the site. */
  name: string,
  /** The water capacity. */
  water_capacity: Amount,
  /** Whether the tank is buried or mounded. */
  underground: boolean, };

/** What a receiving tank showed before or after the transfer. */
export type TankGauged = {
  /** The site's name of the tank. */
  tank: string,
  /** Before or after. */
  moment: TankMoment,
  /** The level, a share of the water capacity from 0 to 100 %. */
  level?: Amount,
  /** The pressure in the tank. */
  pressure?: Amount,
  /** The temperature of the liquid in the tank. */
  temperature?: Amount,
  /** What the meter in the line to it shows. */
  meter?: Amount, };

/** When a receiving tank was read. */
export type TankMoment = "before" | "after";

/** A test date marked on a car. */
export type TestDate = "tank_qualification" | "relief_device" | "service_equipment";

/** A test date marked on the car. */
export type TestDateView = {
  /** The test. */
  test: TestDate,
  /** The due date as read. */
  due: string,
  /** Whether the due date has passed; `None` if it cannot be read. */
  overdue: boolean | null,
  /** The entry's attribution. */
  said: Attribution, };

/** A truck was loaded from the car. */
export type TruckLoad = {
  /** Which truck. */
  truck: string,
  /** How much went into it. */
  amount: Amount,
  /** The number of its ticket. */
  ticket?: string,
  /** Who drives it. */
  driver?: string,
  /** The level in it afterwards, a share of the water capacity from 0 to 100 %. */
  level?: Amount,
  /** The temperature of what is in it. */
  temperature?: Amount,
  /** The number of its seal. */
  seal?: string, };

/** A truck loaded from this car. */
export type TruckView = {
  /** The truck. */
  truck: string,
  /** The amount loaded. */
  amount: Amount,
  /** The entry's attribution. */
  said: Attribution, };

/** The trucks and the sum of their loads. */
export type TrucksView = {
  /** The loads in order. */
  loads: Array<TruckView>,
  /** The sum in gallons, if every load is a readable volume. */
  total_gal: number | null, };

/**
 * A unit as it stands on an instrument or a paper.
 *
 * ```
 * use farsiding_measure::units::{Dimension, Unit};
 *
 * assert_eq!(Unit::read("deg F"), Ok(Unit::Fahrenheit));
 * assert_eq!(Unit::PsiGauge.dimension(), Dimension::GaugePressure);
 *
 * // The SI unit of temperature is the kelvin: water boils at 373.15 K.
 * assert!((Unit::Fahrenheit.to_si(212.0) - 373.15).abs() < 1e-9);
 * // A US gallon has exactly 231 cubic inches, which is 3.785 411 784 L.
 * let cubic_metres = Unit::Gallon.to_si(1.0);
 * assert!((Unit::Litre.from_si(cubic_metres) - 3.785_411_784).abs() < 1e-12);
 * ```
 */
export type Unit = "psi" | "kPa" | "bar" | "psia" | "kPa abs" | "°F" | "°C" | "K" | "Δ°F" | "in" | "ft" | "m" | "mm" | "gal" | "L" | "ft³" | "m³" | "lb" | "kg" | "lb/ft³" | "kg/m³" | "lb/gal" | "gal/min" | "gal/h" | "ft³/min" | "ft·lbf" | "N·m" | "s" | "min" | "h" | "1" | "%" | "turns" | "pcs" | "money" | "money/h";

/**
 * Where the gate before unloading stands. Once unloading began, this is how the gate stood then; only overriding
 * is still taken into account.
 */
export type UnloadingView = {
  /** Whether the stay's procedure has this gate. */
  asked: boolean,
  /** Who signed that the stay is fit to unload. */
  fit: Attested<boolean> | null,
  /** The entry with which unloading began. */
  began: Attribution | null,
  /** What is missing, alarms first. */
  blockers: Array<Blocker>,
  /** What is there. */
  met: Array<Met>,
  /** Items nobody overrode. */
  open: number,
  /** Items that were overridden. */
  passed_over: number, };

/** How long a person's key stays unlocked on a phone. */
export type Unlocking = "act" | "shift";

/** Milliseconds since 1970-01-01T00:00:00Z. */
export type UtcMillis = number;

/** How a valve turned, by hand and without a torque wrench. */
export type ValveFeel = {
  /** Whose valve. */
  fitting: Fitting,
  /** How it turned. */
  feel: Feel, };

/** The position of a valve. */
export type ValvePosition = "open" | "shut";

/** One car's stay, from placement to release. */
export type VisitId = string;

/** The random bytes from which, together with the site, a visit's id is computed. */
export type VisitNonce = string;

/** A stay in a list. */
export type VisitRow = {
  /** The visits of the stay. */
  visits: Array<VisitId>,
  /** The car number. */
  car: string,
  /** The site. */
  site: SiteId | null,
  /** The site's name. */
  site_name: string,
  /** The track or spot from the opening; empty if it was not stated. */
  spot: string,
  /** The present stage of the job. */
  stage: Stage,
  /** Whether it was released. */
  released: boolean,
  /** A short description of what prevents release; empty if nothing does. */
  kept_by: Message,
  /** The number of blockers that were not passed over. */
  open_blockers: number,
  /** The number of open items of the gate before unloading, as long as nobody signed it. */
  open_before_unloading: number,
  /** Whether somebody signed that the stay is fit to unload. */
  fit_to_unload: boolean,
  /** Whether a hold stands, or an incident or a leak that stops the job like one. */
  on_hold: boolean,
  /** The number of unsettled disagreements. */
  disagreements: number,
  /**
   * The number of findings of severity alarm. In a list, the evidence of remaining liquid is weighed only
   * as long as the car stands; the record of a released car still shows it.
   */
  alarms: number,
  /** The earliest claimed time. */
  since: UtcMillis | null,
  /** The same time in the site's zone. */
  since_shown: string,
  /** The number of entries without a receipt. */
  unreceipted: number, };

/** An effort or a thread count at a fitting, over the life of the car. */
export type WearPoint = {
  /** The fitting. */
  fitting: Fitting,
  /** The part of the fitting. */
  part: Part,
  /** The torque or the number of threads. */
  amount: Amount,
  /** The visit during which it was recorded. */
  visit: VisitId | null,
  /** The corrected time. */
  at: UtcMillis,
  /** The entry's attribution. */
  said: Attribution, };

/** The weighed evidence. */
export type Weighed = {
  /** The outcome. */
  outcome: Outcome,
  /** The judged pieces. */
  pieces: Array<Piece>,
  /** The next measurements to make, the most conclusive first. */
  next: Array<Message>,
  /** The caution shown with every outcome. */
  caution: Message, };

/** The weight of a piece of evidence. */
export type Weight = "none" | "weak" | "moderate" | "strong";
