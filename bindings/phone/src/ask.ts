/**
 * How each thing the core may ask for is answered on this phone: by a row of keys, a keypad, a form or a screen of its own. Lives here:
 * the mapping between asks, slots and screens, and the statements keys make. What is asked, and when, is the core's.
 */
import { checkShown, itemShown } from "./codes";
import type { Fitting, RecordAsk, Statement, VisitView } from "./core/shapes";
import type { Screen } from "./parts/context";
import type { Key, Say } from "./strings";

/** An ask with the fitting it is about. */
export type Ask = RecordAsk & { fitting?: Fitting };
const text = (v: unknown) => (typeof v === "string" ? v : "");

export interface AskKey {
  word: string;
  icon: string;
  says: Statement;
  on: boolean;
  hot: boolean;
}

/** The keys that answer an ask with one tap; empty when it takes more than a tap. */
export function keysOf(ask: Ask, view: VisitView, say: Say): AskKey[] {
  const fitting = ask.fitting;
  const f = view.fittings.find((one) => one.fitting === fitting);
  const key = (word: Key, icon: string, says: Statement, on: boolean, hot = false): AskKey => ({
    word: say(word),
    icon,
    says,
    on,
    hot,
  });
  switch (ask.statement) {
    case "valve":
      return [
        key(
          "valve.open",
          "valve_open",
          { valve: { fitting, position: "open" } },
          f?.valve?.value === "open",
          true,
        ),
        key("valve.shut", "valve_shut", { valve: { fitting, position: "shut" } }, f?.valve?.value === "shut"),
      ];
    case "closure":
      return (["open", "hand_tight", "tool_tight"] as const).map((state) =>
        key(
          `closure.${state}`,
          { open: "plug_out", hand_tight: "plug_hand", tool_tight: "plug_tight" }[state],
          { closure: { fitting, state } },
          f?.closure?.value === state,
          state !== "tool_tight",
        ),
      );
    case "listen":
      return [
        key("heard.quiet", "quiet", { listen: { fitting, heard: "quiet" } }, f?.listen?.value === "quiet"),
        key("heard.hiss", "hiss", { listen: { fitting, heard: "hiss" } }, f?.listen?.value === "hiss", true),
      ];
    case "line":
      return [
        key("line.on", "hose_on", { line: { fitting, connected: true } }, f?.line?.value.connected === true),
        key(
          "line.off",
          "hose_off",
          { line: { fitting, connected: false } },
          f?.line?.value.connected === false,
        ),
      ];
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
      return `${word(`measured.${text(ask.measured)}`)}, ${word(`place.${text(ask.place)}`).toLowerCase()}`;
    case "protection":
      return word(`what.${text(ask.what)}`);
    case "empty_sign":
      return word(`sign.${text(ask.sign)}`);
    case "clock":
      return word(`event.${text(ask.event)}`);
    case "photo":
      return `${word("photo")}: ${word(`of.${text(ask.of)}`).toLowerCase()}`;
    case "seal":
      return word(`seal.${text(ask.event)}`);
    case "car_test_date":
      return word(`test.${text(ask.test)}`);
    case "effort":
      return word(`effort.${text(ask.part)}`);
    case "check":
      return checkShown(text(ask.what), say);
    case "item_out":
    case "item_in":
      return itemShown(text(ask.item), say);
    default:
      return word(`ask.${ask.statement}`);
  }
}
export const iconOf = (ask: Ask): string =>
  ({
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
  })[ask.statement] ?? "forward";

/** The screen that answers an ask which takes more than a tap; nothing when this phone has none (an outage table is the office's). */
export function doorOf(ask: Ask): { screen: Screen; about: string } | null {
  switch (ask.statement) {
    case "opened":
      return null;
    case "reading":
    case "effort":
    case "threads":
    case "car_capacity":
    case "car_diameter":
    case "truck_load":
      return { screen: "figure", about: JSON.stringify(ask) };
    case "photo":
      return { screen: "photo", about: `${text(ask.of)}|${ask.fitting ? `fitting/${ask.fitting}` : ""}` };
    case "seal":
      return { screen: "seal", about: text(ask.event) };
    case "defect":
      return { screen: "defect", about: ask.fitting ?? "" };
    case "forwarded":
      return { screen: "defects", about: "" };
    case "cover":
      return { screen: "car", about: "cover" };
    case "released":
      return { screen: "gate", about: "" };
    case "outage_table":
      return null;
    case "hold":
      return { screen: "form", about: "hold|" };
    case "clock":
      return { screen: "form", about: `clock|${text(ask.event)}` };
    case "car_test_date":
      return { screen: "form", about: `car_test_date|${text(ask.test)}` };
    case "paper":
    case "weather":
    case "car_number_again":
    case "car_fittings":
    case "empty_decision":
      return { screen: "form", about: `${ask.statement}|` };
    default:
      return { screen: "ask", about: JSON.stringify(ask) };
  }
}

/** The ask that a slot answers, for putting an entry right. */
export function askOfSlot(slot: string): Ask | null {
  const [a = "", b = "", c = "", d = ""] = slot.split("/");
  switch (a) {
    case "fitting":
      return { statement: c === "" ? "valve" : c, fitting: b as Fitting };
    case "reading":
      return { statement: "reading", purpose: b, measured: c, place: d };
    case "series":
      if (b === "effort") return { statement: "effort", fitting: c as Fitting, part: d };
      if (b === "weather" || b === "truck_load" || b === "attendance") return { statement: b };
      return d ? { statement: "reading", purpose: b, measured: c, place: d } : null;
    case "protection":
      return { statement: "protection", what: b };
    case "empty":
      return b === "decision" ? { statement: "empty_decision" } : { statement: "empty_sign", sign: b };
    case "check":
      return { statement: "check", what: slot.slice(6) };
    case "clock":
      return { statement: "clock", event: b };
    case "seal":
      return { statement: "seal", event: c || "applied" };
    case "cover":
    case "paper":
      return { statement: a };
    case "car_number":
      return { statement: "car_number_again" };
    case "car":
      return b === "fittings"
        ? { statement: "car_fittings" }
        : b === "capacity"
          ? { statement: "car_capacity" }
          : b === "diameter"
            ? { statement: "car_diameter" }
            : b === "test"
              ? { statement: "car_test_date", test: c }
              : null;
    case "opened":
      return { statement: "opened_again" };
    default:
      return null;
  }
}

/** Where a blocker is cleared. */
export function doorOfBlocker(
  code: string,
  fitting: Fitting | null,
  slot: string,
): { screen: Screen; about: string } {
  if (code.startsWith("disagreement")) return { screen: "differ", about: slot };
  if (code.startsWith("empty")) return { screen: "proof", about: "" };
  if (code.startsWith("final_pressure"))
    return {
      screen: "figure",
      about: JSON.stringify({
        statement: "reading",
        measured: "pressure",
        place: "car",
        purpose: "final",
        unit: "psi",
      }),
    };
  if (code.startsWith("item_out")) return { screen: "tally", about: "" };
  if (code.startsWith("cover")) return { screen: "car", about: "cover" };
  if (code.startsWith("seal")) return { screen: "seal", about: "applied" };
  if (code.startsWith("hold")) return { screen: "holds", about: "" };
  if (code.startsWith("authority")) return { screen: "defects", about: "" };
  if (code.startsWith("blue_sign"))
    return { screen: "ask", about: JSON.stringify({ statement: "protection", what: "blue_sign" }) };
  return fitting ? { screen: "car", about: fitting } : { screen: "step", about: "" };
}
export const iconOfBlocker = (code: string): string => {
  const kinds: [string, string][] = [
    ["closure", "plug_hand"],
    ["threads", "threads"],
    ["valve", "valve_open"],
    ["listen", "ear"],
    ["hiss", "hiss"],
    ["line", "hose_on"],
    ["disagreement", "differ"],
    ["item", "tally"],
    ["seal", "seal"],
    ["cover", "cover"],
    ["hold", "hold"],
    ["final", "gauge"],
    ["empty", "gauge"],
    ["authority", "law"],
  ];
  return kinds.find(([start]) => code.startsWith(start))?.[1] ?? "caution";
};
