/**
 * How each thing the core may ask for is answered on this phone: by a row of keys, a keypad, a form or a
 * screen of its own. Lives here: the mapping between asks, slots and screens, and the statements keys make.
 * What is asked, and when, is the core's.
 */
import { checkShown, itemShown } from "./codes";
import type { Ask, BlockerKind, Fitting, KnownStatement, Lead, StepView, VisitView } from "./core/shapes";
import type { Screen } from "./parts/context";
import type { Key, Say } from "./strings";

export type { Ask } from "./core/shapes";

/** A screen, and what it is about. */
export interface Door {
  screen: Screen;
  about: string;
}
/** The ask of one kind at a fitting; nothing where such a thing cannot be recorded there. */
export const askAt = (
  view: VisitView,
  statement: Ask["statement"],
  fitting: string,
  part?: "valve" | "closure",
): Ask | undefined =>
  Object.values(view.guide.asks).find(
    (ask) =>
      ask?.statement === statement &&
      ask.fitting === fitting &&
      (part === undefined || (ask.statement === "effort" && ask.part === part)),
  );
/**
 * The slots of the readings that are typed one after another now: those of the steps that one key records, or
 * those that the next step still lacks; all of them where it was done and is due again.
 */
export function readingsAtHand(view: VisitView): string[] {
  const { together, steps } = view.guide;
  const next = view.steps.next[0];
  const is_open = view.steps.steps.some((one) => one.id === next && ["open", "partly"].includes(one.status));
  const records = steps.find((step) => step.id === next)?.records ?? [];
  const asks = together
    ? together.steps.flatMap((step) => step.readings)
    : records.flatMap(({ ask, missing }) => (missing || !is_open ? [ask] : []));
  return asks.flatMap((ask) => (ask.statement === "reading" ? [ask.slot] : []));
}
/** Whether something stands that stops the job: a hold, a leak, an incident. */
export const isStopped = (view: VisitView): boolean =>
  [...view.holds, ...view.leaks, ...view.incidents].some((one) => one.open);
/** What comes next and is answered on one screen of its own, which is then shown in place of the step. */
export interface AtOnce {
  step: StepView;
  door: Door;
}
const SHOWN_AT_ONCE: Screen[] = ["figure", "form", "paper", "photo", "seal", "gate", "round", "car"];
/**
 * What is shown at once; nothing while an answer holds the job, where one tap answers, or where one key
 * records a list of steps.
 */
export function atOnce(view: VisitView): AtOnce | undefined {
  const { together, steps } = view.guide;
  const [reading] = readingsAtHand(view);
  const typed = together?.steps.find((one) => one.readings.length > 0);
  if (together && !typed) return undefined;
  const id = typed?.step ?? view.steps.next[0];
  const step = view.steps.steps.find((one) => one.id === id);
  const records = steps.find((one) => one.id === id)?.records ?? [];
  if (!step || step.status === "held") return undefined;
  const open = records.filter(
    ({ ask, missing }) => missing || (reading !== undefined && ask.slot === reading),
  );
  const doors = open.map(({ ask }) => (isKeyed(ask) ? null : doorIn(view, ask)));
  const [door] = doors;
  return door && doors.every((one) => one && SHOWN_AT_ONCE.includes(one.screen)) ? { step, door } : undefined;
}
/** The fitting that what stands in a slot is about. */
export const fittingOf = (view: VisitView, slot: string): Fitting | undefined =>
  view.guide.asks[slot]?.fitting;

export interface AskKey {
  word: string;
  icon: string;
  says: KnownStatement;
  on: boolean;
  hot: boolean;
}

type MakeKey = (word: string, icon: string, says: KnownStatement, on: boolean, hot?: boolean) => AskKey;

/** Counts of full threads that have a key; every other one is typed. */
const THREADS = [1, 2, 3, 4, 5, 6, 7];

/** The keys of what is recorded at a fitting. */
function keysAt(fitting: Fitting, ask: Ask, view: VisitView, say: Say, key: MakeKey): AskKey[] {
  const f = view.fittings.find((one) => one.fitting === fitting);
  const { valve, closure, listen, line } = f ?? {};
  switch (ask.statement) {
    case "valve": {
      const at = (position: "open" | "shut", hot: boolean) =>
        key(
          say.capital(`valve_position-${position}`),
          `valve_${position}`,
          { valve: { fitting, position } },
          valve?.value === position,
          hot,
        );
      return [at("open", true), at("shut", false)];
    }
    case "closure":
      return (["open", "hand_tight", "tool_tight"] as const).map((state) =>
        key(
          say.capital(`closure-${state}`),
          { open: "plug_out", hand_tight: "plug_hand", tool_tight: "plug_tight" }[state],
          { closure: { fitting, state } },
          closure?.value === state,
          state !== "tool_tight",
        ),
      );
    case "listen": {
      const as = (heard: "quiet" | "hiss", hot: boolean) =>
        key(
          say.capital(`heard-${heard}`),
          heard,
          { listen: { fitting, heard } },
          listen?.value === heard,
          hot,
        );
      return [as("quiet", false), as("hiss", true)];
    }
    case "line": {
      const as = (connected: boolean, word: "on" | "off") =>
        key(
          say(`phone-line-${word}`),
          `hose_${word}`,
          { line: { fitting, connected } },
          line?.value.connected === connected,
        );
      return [as(true, "on"), as(false, "off")];
    }
    case "threads":
      return THREADS.map((engaged) =>
        key(
          String(engaged),
          "",
          { threads: { fitting, engaged: { text: String(engaged), unit: "turns", value: engaged } } },
          f?.threads?.value.value === engaged,
          engaged <= 1,
        ),
      );
    default:
      return [];
  }
}

/** The keys that answer an ask with one tap; empty when it takes more than a tap. */
export function keysOf(ask: Ask, view: VisitView, say: Say): AskKey[] {
  const fitting = ask.fitting;
  const key: MakeKey = (word, icon, says, on, hot = false) => ({ word, icon, says, on, hot });
  switch (ask.statement) {
    case "valve":
    case "closure":
    case "listen":
    case "line":
    case "threads":
      return fitting ? keysAt(fitting, ask, view, say, key) : [];
    case "protection": {
      const set = view.protections.find((p) => p.what === ask.what)?.set?.value;
      return [
        key(say("phone-protection-set"), "tick", { protection: { what: ask.what, set: true } }, set === true),
        key(
          say("phone-protection-away"),
          "close",
          { protection: { what: ask.what, set: false } },
          set === false,
        ),
      ];
    }
    case "attendance":
      return [
        key(say("phone-presence-here"), "person", { attendance: { presence: "here" } }, false),
        key(say("phone-presence-away"), "away", { attendance: { presence: "away" } }, false, true),
      ];
    case "empty_sign": {
      const seen = view.empty.signs.find((s) => s.sign === ask.sign)?.seen.value;
      return [
        key(say("phone-yes"), "tick", { empty_sign: { sign: ask.sign, seen: true } }, seen === true),
        key(say("phone-no"), "close", { empty_sign: { sign: ask.sign, seen: false } }, seen === false),
      ];
    }
    case "check":
      return [key(say("phone-look-right"), "tick", { check: { what: ask.what, right: true } }, false)];
    case "item_out":
      return [
        key(
          say("phone-tally-out"),
          "carry",
          { item_out: { item: ask.item, ...(fitting ? { fitting } : {}) } },
          view.tally.out.some((t) => t.item === ask.item),
        ),
      ];
    case "item_in":
      return [
        key(
          say("phone-tally-back"),
          "back_in",
          { item_in: { item: ask.item } },
          view.tally.back.some((t) => t.item === ask.item),
        ),
      ];
    default:
      return [];
  }
}

/** Whether an ask is answered by a row of keys. */
const isKeyed = (ask: Ask): boolean => ask.statement === "threads" || doorOf(ask)?.screen === "ask";

/** What an ask is called here. */
export function titleOf(ask: Ask, say: Say): string {
  switch (ask.statement) {
    case "reading":
      return say("phone-reading-at", {
        measured: say.capital(`measured-${ask.measured}` as Key),
        place: say(`place-${ask.place}` as Key),
      });
    case "protection":
      return say.capital(`protection-${ask.what}` as Key);
    case "empty_sign":
      return say.capital(`empty_sign-${ask.sign}` as Key);
    case "clock":
      return say.capital(`clock_event-${ask.event}` as Key);
    case "photo":
      return say("phone-photo-of", { what: say(`photo_of-${ask.of}` as Key) });
    case "seal":
      return say.capital(`seal_event-${ask.event}` as Key);
    case "car_test_date":
      return say.capital(`test_date-${ask.test}` as Key);
    case "effort":
      return say(`phone-effort-${ask.part}`);
    case "check":
      return checkShown(ask.what, say);
    case "item_out":
    case "item_in":
      return itemShown(ask.item, say);
    default:
      return say(`phone-ask-${ask.statement}` as Key);
  }
}
const ICONS: Partial<Record<Ask["statement"], string>> = {
  reading: "gauge",
  photo: "camera",
  seal: "seal",
  clock: "clock",
  paper: "law",
  cover: "cover",
  weather: "weather",
  threads: "threads",
  effort: "wrench",
  defect: "caution",
  hold: "hold",
  forwarded: "call",
  truck_load: "truck",
  released: "tick",
  fit_to_unload: "tick",
  last_round: "plug_tight",
  car_fittings: "valve_shut",
  empty_decision: "person",
  incident: "caution",
  leak: "hiss",
  car_left: "away",
  car_moved: "forward",
  outcome: "truck",
  valve_feel: "turn",
  plug_condition: "plug_tight",
  cover_condition: "cover",
  hose_pressure: "gauge",
  next_time: "this_record",
  tank_gauged: "gauge",
  recovery_planned: "clock",
  inspection: "find",
};
export const iconOf = (ask: Ask): string => ICONS[ask.statement] ?? "forward";

/**
 * The screen that answers an ask which takes more than a tap; nothing when this phone has none (an outage
 * table is the office's).
 */
export function doorOf(ask: Ask): Door | null {
  switch (ask.statement) {
    case "opened":
    case "outage_table":
      return null;
    case "reading":
    case "effort":
    case "threads":
    case "car_capacity":
    case "car_diameter":
      return { screen: "figure", about: ask.slot };
    case "photo":
      return { screen: "photo", about: `${ask.of}|${ask.fitting ? `fitting/${ask.fitting}` : ""}` };
    case "seal":
      return { screen: "seal", about: ask.event };
    case "defect":
      return { screen: "defect", about: ask.fitting ?? "" };
    case "forwarded":
      return { screen: "defects", about: "" };
    case "cover":
      return { screen: "car", about: "cover" };
    case "released":
      return { screen: "gate", about: "release" };
    case "fit_to_unload":
      return { screen: "gate", about: "unload" };
    case "last_round":
      return { screen: "round", about: "" };
    case "hold":
      return { screen: "form", about: "hold|" };
    case "incident":
    case "leak":
    case "valve_feel":
    case "plug_condition":
    case "hose_pressure":
    case "next_time":
      return { screen: "form", about: `${ask.statement}|${ask.fitting ?? ""}` };
    case "car_left":
    case "car_moved":
    case "outcome":
    case "cover_condition":
    case "truck_load":
    case "tank_gauged":
    case "recovery_planned":
    case "inspection":
      return { screen: "form", about: `${ask.statement}|` };
    case "clock":
      return { screen: "form", about: `clock|${ask.event}` };
    case "car_test_date":
      return { screen: "form", about: `car_test_date|${ask.test}` };
    case "paper":
    case "weather":
    case "car_number_again":
    case "car_fittings":
    case "empty_decision":
      return { screen: "form", about: `${ask.statement}|` };
    default:
      return { screen: "ask", about: ask.slot };
  }
}
/** The same on this car: the paper that the office sent for it is looked at before it is typed. */
export const doorIn = (view: VisitView, ask: Ask): Door | null =>
  ask.statement === "paper" && view.guide.office_paper ? { screen: "paper", about: "" } : doorOf(ask);
/** Where what stands in a slot is said again. */
export const doorAgain = (ask: Ask): Door | null =>
  ask.statement === "opened" ? { screen: "form", about: "opened_again|" } : doorOf(ask);

/** The screen a blocker is cleared on. */
export function doorOfLead(lead: Lead, view: VisitView): Door {
  switch (lead.to) {
    case "disagreement":
      return { screen: "differ", about: lead.slot };
    case "empty_proof":
      return { screen: "proof", about: "" };
    case "ask": {
      const ask = view.guide.asks[lead.slot];
      return (ask && doorIn(view, ask)) ?? { screen: "step", about: "" };
    }
    case "tally":
    case "holds":
    case "defects":
    case "step":
      return { screen: lead.to, about: "" };
    case "cover":
      return { screen: "car", about: "cover" };
    case "seal":
      return { screen: "seal", about: lead.event };
    case "fitting":
      return { screen: "car", about: lead.fitting };
  }
}
const BLOCKER_ICONS: Record<BlockerKind, string> = {
  line_connected: "hose_on",
  valve_not_shut: "valve_open",
  listen_missing: "ear",
  hiss_heard: "hiss",
  closure_not_tool_tight: "plug_hand",
  threads_one_or_less: "threads",
  unreadable_entries: "caution",
  not_opened: "caution",
  empty_not_accepted: "gauge",
  empty_contradicted: "gauge",
  final_pressure_missing: "gauge",
  item_out: "tally",
  cover_not_closed: "cover",
  cover_not_pinned: "cover",
  cover_bolts: "cover",
  seal_incomplete: "seal",
  seal_missing: "seal",
  blue_sign_down_early: "caution",
  hold_open: "hold",
  disagreement: "differ",
  authority_missing: "law",
  final_pressure_doubtful: "gauge",
  alarm: "caution",
  doubt: "caution",
  number_not_checked: "find",
  paper_not_compared: "law",
  product_not_taken: "caution",
  protection_not_set: "caution",
  protection_out_of_order: "caution",
  not_recorded_as_found: "plug_hand",
  check_missing: "half",
  check_not_right: "caution",
  step_open: "half",
  step_not_right: "caution",
  reading_missing: "gauge",
  photo_missing: "camera",
  last_round_missing: "plug_hand",
  sign_down_while_connected: "caution",
  incident_open: "caution",
  leak_open: "hiss",
  outcome_unexplained: "law",
};
export const iconOfBlocker = (code: string, view: VisitView): string => {
  const kind = view.guide.leads[code]?.kind;
  return kind ? BLOCKER_ICONS[kind] : "caution";
};
