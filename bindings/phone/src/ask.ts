/**
 * How each thing the core may ask for is answered on this phone: by a row of keys, a keypad, a form or a
 * screen of its own. Lives here: the mapping between asks, slots and screens, and the statements keys make.
 * What is asked, and when, is the core's.
 */
import { checkShown, itemShown } from "./codes";
import type { Ask, BlockerKind, Fitting, KnownStatement, Lead, VisitView } from "./core/shapes";
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

type MakeKey = (word: Key, icon: string, says: KnownStatement, on: boolean, hot?: boolean) => AskKey;

/** The keys of what is recorded at a fitting. */
function keysAt(fitting: Fitting, ask: Ask, view: VisitView, key: MakeKey): AskKey[] {
  const f = view.fittings.find((one) => one.fitting === fitting);
  const { valve, closure, listen, line } = f ?? {};
  switch (ask.statement) {
    case "valve": {
      const at = (position: "open" | "shut", hot: boolean) =>
        key(
          `valve.${position}`,
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
          `closure.${state}`,
          { open: "plug_out", hand_tight: "plug_hand", tool_tight: "plug_tight" }[state],
          { closure: { fitting, state } },
          closure?.value === state,
          state !== "tool_tight",
        ),
      );
    case "listen": {
      const as = (heard: "quiet" | "hiss", hot: boolean) =>
        key(`heard.${heard}`, heard, { listen: { fitting, heard } }, listen?.value === heard, hot);
      return [as("quiet", false), as("hiss", true)];
    }
    case "line": {
      const as = (connected: boolean, word: "on" | "off") =>
        key(
          `line.${word}`,
          `hose_${word}`,
          { line: { fitting, connected } },
          line?.value.connected === connected,
        );
      return [as(true, "on"), as(false, "off")];
    }
    default:
      return [];
  }
}

/** The keys that answer an ask with one tap; empty when it takes more than a tap. */
export function keysOf(ask: Ask, view: VisitView, say: Say): AskKey[] {
  const fitting = ask.fitting;
  const key: MakeKey = (word, icon, says, on, hot = false) => ({ word: say(word), icon, says, on, hot });
  switch (ask.statement) {
    case "valve":
    case "closure":
    case "listen":
    case "line":
      return fitting ? keysAt(fitting, ask, view, key) : [];
    case "protection": {
      const set = view.protections.find((p) => p.what === ask.what)?.set?.value;
      return [
        key("protection.set", "tick", { protection: { what: ask.what, set: true } }, set === true),
        key("protection.away", "close", { protection: { what: ask.what, set: false } }, set === false),
      ];
    }
    case "attendance":
      return [
        key("presence.here", "person", { attendance: { presence: "here" } }, false),
        key("presence.away", "away", { attendance: { presence: "away" } }, false, true),
      ];
    case "empty_sign": {
      const seen = view.empty.signs.find((s) => s.sign === ask.sign)?.seen.value;
      return [
        key("yes", "tick", { empty_sign: { sign: ask.sign, seen: true } }, seen === true),
        key("no", "close", { empty_sign: { sign: ask.sign, seen: false } }, seen === false),
      ];
    }
    case "check":
      return [key("look.right", "tick", { check: { what: ask.what, right: true } }, false)];
    case "item_out":
      return [
        key(
          "tally.out",
          "carry",
          { item_out: { item: ask.item, ...(fitting ? { fitting } : {}) } },
          view.tally.out.some((t) => t.item === ask.item),
        ),
      ];
    case "item_in":
      return [
        key(
          "tally.back",
          "back_in",
          { item_in: { item: ask.item } },
          view.tally.back.some((t) => t.item === ask.item),
        ),
      ];
    default:
      return [];
  }
}

/** What an ask is called here. */
export function titleOf(ask: Ask, say: Say): string {
  const word = (key: string) => say(key as Key);
  switch (ask.statement) {
    case "reading":
      return `${word(`measured.${ask.measured}`)}, ${word(`place.${ask.place}`).toLowerCase()}`;
    case "protection":
      return word(`what.${ask.what}`);
    case "empty_sign":
      return word(`sign.${ask.sign}`);
    case "clock":
      return word(`event.${ask.event}`);
    case "photo":
      return `${word("photo")}: ${word(`of.${ask.of}`).toLowerCase()}`;
    case "seal":
      return word(`seal.${ask.event}`);
    case "car_test_date":
      return word(`test.${ask.test}`);
    case "effort":
      return word(`effort.${ask.part}`);
    case "check":
      return checkShown(ask.what, say);
    case "item_out":
    case "item_in":
      return itemShown(ask.item, say);
    default:
      return word(`ask.${ask.statement}`);
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
  car_fittings: "valve_shut",
  empty_decision: "person",
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
    case "truck_load":
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
      return { screen: "gate", about: "" };
    case "hold":
      return { screen: "form", about: "hold|" };
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
      return (ask && doorOf(ask)) ?? { screen: "step", about: "" };
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
};
export const iconOfBlocker = (code: string, view: VisitView): string => {
  const kind = view.guide.leads[code]?.kind;
  return kind ? BLOCKER_ICONS[kind] : "caution";
};
