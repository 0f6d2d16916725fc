/**
 * The forms of the phone, as data: which fields, and the entries they make. Drawn by `screens/Form.svelte`.
 * Lives here: the shape of each form that takes more than its fields. Not here: forms drawn from the core's
 * table of kinds (`kind-forms.ts`), rules (the core refuses what may not be said) and words (`strings.ts`).
 */
import { checkShown } from "./codes";
import type { Amount, Draft, Statement } from "./core/shapes";
import { VOCABULARIES } from "./core/statement-kinds.generated";
import { isFormKind, kindForm } from "./kind-forms";
import type { AppState } from "./state/app.svelte";
import type { Key, Say } from "./strings";

export type Field =
  | {
      kind: "text";
      key: string;
      word: Key;
      need?: boolean;
      upper?: boolean;
      digits?: boolean;
      area?: boolean;
    }
  | { kind: "choice"; key: string; word: Key; choices: { value: string; word: string }[]; need?: boolean }
  | { kind: "many"; key: string; word: Key; choices: { value: string; word: string }[] }
  | { kind: "time"; key: string; word: Key }
  /** An amount: read by the core as it is typed. */
  | { kind: "amount"; key: string; word: Key; unit: (v: Values) => string };
export type Values = Record<string, string>;
export interface Form {
  /** Whether it binds the person, so that the screen says who signs. */
  signs?: boolean;
  title: string;
  quote?: string;
  note?: string;
  fields: Field[];
  action: string;
  start?: Values;
  /** With what was typed, and the amounts the core read of it. */
  send(v: Values, read: Record<string, Amount>): Promise<boolean>;
}

/** The relief device is on every car and is not asked. */
const FITTINGS = VOCABULARIES.fitting.filter((fitting) => fitting !== "relief_device");
const filled = (v: Values, ...keys: string[]) =>
  Object.fromEntries(keys.map((k) => [k, (v[k] ?? "").trim()] as const).filter(([, value]) => value !== ""));
export { localTime } from "./kind-forms";

/** The form called `kind`, about `about`; nothing when there is no such form. */
export function formFor(kind: string, about: string, app: AppState, visit: string, say: Say): Form | null {
  const view = app.view;
  if (!view) return null;
  const by = app.settings.operator;
  const words = (prefix: string, values: readonly string[]) =>
    values.map((value) => ({ value, word: say(`${prefix}.${value}` as Key) }));
  const says = (s: Statement): Promise<boolean> => app.say(visit, s);
  const why: Field = { kind: "text", key: "why", word: "why", need: true, area: true };
  const reason = (
    title: string,
    action: Key,
    quote: string,
    act: (why: string) => Promise<string[]>,
  ): Form => ({
    signs: true,
    title,
    quote,
    fields: [why],
    action: say(action),
    send: (v) => app.decide(visit, () => act(v.why ?? "")),
  });
  const line = view.history.find((one) => one.said.entry === about);
  const step = view.steps.steps.find((one) => one.id === about);
  const people = app.people
    .filter((p) => p.active && p.operator !== by)
    .map((p) => ({ value: p.operator, word: p.name }));
  switch (kind) {
    case "paper":
      return {
        title: say("ask.paper"),
        note: say("paper.note"),
        action: say("record"),
        start: { odorised: "" },
        fields: [
          { kind: "text", key: "car", word: "paper.car", upper: true },
          { kind: "text", key: "un_number", word: "paper.un", upper: true },
          { kind: "text", key: "product", word: "paper.product" },
          {
            kind: "amount",
            key: "billed",
            word: "paper.billed",
            unit: (v) => v.billed_unit ?? app.settings.volume,
          },
          {
            kind: "choice",
            key: "billed_unit",
            word: "reading.unit",
            choices: ["gal", "lb", "kg", "L"].map((value) => ({ value, word: value })),
          },
          { kind: "amount", key: "relative_density", word: "measured.relative_density", unit: () => "1" },
          {
            kind: "choice",
            key: "odorised",
            word: "paper.odorised",
            choices: words("paper", ["yes", "no", "silent"]),
          },
          { kind: "text", key: "number", word: "paper.number" },
          { kind: "text", key: "shipper", word: "paper.shipper" },
        ],
        send: (v, read) =>
          says({
            paper: {
              ...filled(v, "car", "un_number", "product", "number", "shipper"),
              ...(read.billed ? { billed: read.billed } : {}),
              ...(read.relative_density ? { relative_density: read.relative_density } : {}),
              ...(v.odorised === "yes" || v.odorised === "no" ? { odorised: v.odorised === "yes" } : {}),
            },
          }),
      };
    case "weather":
      return {
        title: say("ask.weather"),
        action: say("record"),
        fields: [
          {
            kind: "choice",
            key: "precipitation",
            word: "weather.falls",
            need: true,
            choices: words("falls", VOCABULARIES.precipitation),
          },
          {
            kind: "choice",
            key: "from",
            word: "weather.wind",
            choices: words("wind", VOCABULARIES.wind[0]),
          },
          {
            kind: "choice",
            key: "force",
            word: "weather.force",
            choices: words("force", VOCABULARIES.wind[1]),
          },
        ],
        send: (v) =>
          says({
            weather: { precipitation: v.precipitation, wind: [v.from, v.force].filter(Boolean).join(" ") },
          }),
      };
    case "car_fittings":
      return {
        title: say("ask.car_fittings"),
        action: say("record"),
        start: {
          fittings: (view.car.fittings?.value ?? FITTINGS.filter((f) => f !== "vapour_two")).join(" "),
        },
        fields: [
          { kind: "many", key: "fittings", word: "fittings.there", choices: words("fitting", FITTINGS) },
        ],
        send: (v) => says({ car_fittings: { fittings: (v.fittings ?? "").split(" ").filter(Boolean) } }),
      };
    case "check_wrong":
      return {
        title: checkShown(about, say),
        action: say("record"),
        fields: [{ kind: "text", key: "note", word: "what.seen", need: true, area: true }],
        send: (v) => says({ check: { what: about, right: false, note: v.note } }),
      };
    case "lift":
      return kindForm("hold_lifted", about, view, say, says);
    case "give":
      return {
        title: say("handover.give"),
        note: say("handover.note"),
        action: say("handover.give"),
        fields: [
          people.length
            ? { kind: "choice", key: "to", word: "handover.to", need: true, choices: people }
            : { kind: "text", key: "to", word: "handover.to", need: true, upper: true },
        ],
        send: (v) => says({ handover_given: { to: (v.to ?? "").trim() } }),
      };
    case "take":
      return {
        title: say("handover.take"),
        quote: say("handover.from", { name: app.people.find((p) => p.operator === about)?.name ?? about }),
        action: say("handover.take"),
        fields: [],
        send: () => says({ handover_taken: { from: about } }),
      };
    case "opened_again": {
      const opened = view.header.opened?.value as
        { car: string; site: string; receiver: string; procedure: string; spot?: string } | undefined;
      if (!opened) return null;
      return {
        title: say("ask.opened"),
        action: say("record"),
        start: { car: opened.car, spot: opened.spot ?? "", receiver: opened.receiver },
        fields: [
          { kind: "text", key: "car", word: "new.whole", need: true, upper: true },
          { kind: "text", key: "spot", word: "new.spot" },
          {
            kind: "choice",
            key: "receiver",
            word: "new.receiver",
            need: true,
            choices: words("new", VOCABULARIES.receiver),
          },
        ],
        send: (v) => says({ opened: { ...opened, car: v.car, spot: v.spot ?? "", receiver: v.receiver } }),
      };
    }
    case "skip":
    case "not_right": {
      if (!step) return null;
      const send = (v: Values) =>
        app.record(visit, [], {
          id: about,
          outcome: kind === "skip" ? "skipped" : "not_right",
          note: v.why ?? "",
        });
      return {
        title: say(kind === "skip" ? "step.skip" : "look.wrong"),
        quote: step.title,
        fields: [
          kind === "skip" ? why : { kind: "text", key: "why", word: "what.seen", need: true, area: true },
        ],
        action: say("record"),
        send,
      };
    }
    case "withdraw":
      return line
        ? reason(say("entry.withdraw"), "entry.withdraw", line.sentence, (w) =>
            app.calls.withdraw(visit, about, w, by),
          )
        : null;
    case "pass": {
      const blocker = view.blockers.find((b) => b.code === about);
      return blocker
        ? {
            ...reason(say("blocker.pass"), "blocker.pass", blocker.missing, (w) =>
              app.calls.passOver(visit, about, w, by),
            ),
            note: say("blocker.note"),
          }
        : null;
    }
    case "keep": {
      const d = view.disagreements.find((one) => one.entries.includes(about));
      return d
        ? reason(
            say("differ.agree"),
            "differ.agree",
            d.claims.find((c) => c.said.entry === about)?.sentence ?? "",
            (w) => app.calls.settle(visit, about, w, by),
          )
        : null;
    }
    case "join":
    case "not_join": {
      const offer = view.offers.find((o) => o.other === about);
      const draft: Draft = {
        says: kind === "join" ? { joined: { other: about } } : { not_joined: { other: about } },
      };
      return offer
        ? {
            signs: true,
            title: say(kind === "join" ? "join.do" : "join.not"),
            quote: offer.sentence,
            note: say("join.note"),
            fields: [{ kind: "text", key: "why", word: "why", area: true }],
            action: say(kind === "join" ? "join.do" : "join.not"),
            send: (v) => app.record(visit, [{ ...draft, why: v.why ?? "" }]),
          }
        : null;
    }
    default:
      return isFormKind(kind) ? kindForm(kind, about, view, say, says) : null;
  }
}
