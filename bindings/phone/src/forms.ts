/**
 * The forms of the phone, as data: which fields, and the entries they make. Drawn by `screens/Form.svelte`.
 * Lives here: the shape of each form that takes more than its fields. Not here: forms drawn from the core's
 * table of kinds (`kind-forms.ts`), rules (the core refuses what may not be said).
 */
import { askAt, type Ask } from "./ask";
import { checkShown } from "./codes";
import type { Amount, Draft, Statement, VisitView } from "./core/shapes";
import { VOCABULARIES } from "./core/statement-kinds.generated";
import { paperTyped } from "./expected";
import { isFormKind, kindForm, localTime, type FormKind } from "./kind-forms";
import { own } from "./own-text";
import type { AppState } from "./state/app.svelte";
import type { Key, Say } from "./strings";
import { unitShown } from "./units";

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
  | { kind: "amount"; key: string; word: Key; unit: (v: Values) => string; need?: boolean };
export type Values = Record<string, string>;
export interface Form {
  /** Whether it binds the person, so that the screen says who signs. */
  signs?: boolean;
  title: string;
  quote?: string;
  note?: string;
  fields: Field[];
  action: string;
  /** Whether each field has the screen to itself; what is given so far can be recorded from each. */
  paged?: boolean;
  start?: Values;
  /** With what was typed, and the amounts the core read of it. */
  send(v: Values, read: Record<string, Amount>): Promise<boolean>;
}

/** The relief device is on every car and is not asked. */
const FITTINGS = VOCABULARIES.fitting.filter((fitting) => fitting !== "relief_device");
const filled = (v: Values, ...keys: string[]) =>
  Object.fromEntries(keys.map((k) => [k, (v[k] ?? "").trim()] as const).filter(([, value]) => value !== ""));
export { localTime };

/** The fittings of this car at which such a thing can be recorded. */
const fittingsFor = (statement: Ask["statement"], view: VisitView) =>
  VOCABULARIES.fitting.filter((fitting) => askAt(view, statement, fitting));
/** The site's hoses as keys; nothing where it has none. */
function hosesOf(app: AppState): Field[] {
  const choices = (app.site()?.hoses ?? []).map(({ name }) => ({ value: name, word: own(name) }));
  return choices.length ? [{ kind: "choice", key: "hose", word: "phone-hose-number", choices }] : [];
}
/** A form of the table with what this car and this site have to offer. */
function offered(kind: FormKind, form: Form, app: AppState, say: Say): Form {
  const at = ({ valve_feel: "valve", plug_condition: "closure", hose_pressure: "line" } as const)[
    kind as string
  ];
  const tanks = (app.site()?.tanks ?? []).map(({ name }) => ({ value: name, word: own(name) }));
  const fields = form.fields.map((field): Field => {
    if (at && field.kind === "choice" && field.key === "fitting") {
      const there = fittingsFor(at, app.view!);
      const choices = there.map((value) => ({ value, word: say.capital(`fitting-${value}`) }));
      return { ...field, choices };
    }
    if (field.key === "tank" && tanks.length > 0)
      return { kind: "choice", key: "tank", word: field.word, need: true, choices: tanks };
    return field;
  });
  return { ...form, fields };
}

/** UN numbers that are offered as keys, since most papers name one of them; which are taken is the gate's. */
const UN_NUMBERS = ["UN1075", "UN1978", "UN1011", "UN1969", "UN1077"];

/** The form called `kind`, about `about`; nothing when there is no such form. */
export function formFor(kind: string, about: string, app: AppState, visit: string, say: Say): Form | null {
  const view = app.view;
  if (!view) return null;
  const by = app.settings.operator;
  const words = (prefix: string, values: readonly string[]) =>
    values.map((value) => ({ value, word: say.capital(`${prefix}-${value}` as Key) }));
  const yes_no = [
    { value: "yes", word: say("phone-yes") },
    { value: "no", word: say("phone-no") },
  ];
  const says = (s: Statement): Promise<boolean> => app.say(visit, s);
  const why: Field = { kind: "text", key: "why", word: "phone-why", need: true, area: true };
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
    case "paper": {
      // What the office sent is filled in only where somebody came from it and said that it is not so.
      const sent = about === "office" ? view.guide.office_paper : undefined;
      return {
        title: say("phone-ask-paper"),
        note: say(sent ? "phone-paper-filled" : "phone-paper-note"),
        action: say("phone-record"),
        start: sent ? paperTyped(sent, view.header.car, UN_NUMBERS) : { odorised: "" },
        fields: [
          {
            kind: "choice",
            key: "same_car",
            word: "phone-paper-car",
            choices: [{ value: "yes", word: say("phone-paper-same_car", { car: view.header.car }) }],
          },
          { kind: "text", key: "car", word: "phone-paper-other_car", upper: true },
          {
            kind: "choice",
            key: "un_number",
            word: "phone-paper-un",
            choices: UN_NUMBERS.map((value) => ({ value, word: value })),
          },
          { kind: "text", key: "un_other", word: "phone-paper-un_other", upper: true },
          { kind: "text", key: "product", word: "phone-paper-product" },
          {
            kind: "amount",
            key: "billed",
            word: "phone-paper-billed",
            unit: (v) => v.billed_unit ?? app.settings.volume,
          },
          {
            kind: "choice",
            key: "billed_unit",
            word: "phone-reading-unit",
            choices: ["gal", "lb", "kg", "L"].map((value) => ({ value, word: unitShown(value, say) })),
          },
          { kind: "amount", key: "relative_density", word: "phone-paper-relative_density", unit: () => "1" },
          {
            kind: "choice",
            key: "odorised",
            word: "phone-paper-odorised",
            choices: [...yes_no, { value: "silent", word: say("phone-paper-silent") }],
          },
          {
            kind: "choice",
            key: "grade",
            word: "phone-paper-grade",
            choices: words("calc_grade", VOCABULARIES.grade),
          },
          {
            kind: "choice",
            key: "billed_by",
            word: "phone-paper-billed_by",
            choices: words("billed_by", VOCABULARIES.billed_by),
          },
          { kind: "choice", key: "winter_fill", word: "phone-paper-winter", choices: yes_no },
          { kind: "text", key: "number", word: "phone-paper-number" },
          { kind: "text", key: "shipper", word: "phone-paper-shipper" },
        ],
        send: (v, read) =>
          says({
            paper: {
              ...(v.same_car === "yes" ? { car: view.header.car } : {}),
              ...filled(v, "car", "un_number", "product", "number", "shipper", "grade", "billed_by"),
              ...(v.winter_fill ? { winter_fill: v.winter_fill === "yes" } : {}),
              ...((v.un_other ?? "").trim() ? { un_number: v.un_other!.trim() } : {}),
              ...(read.billed ? { billed: read.billed } : {}),
              ...(read.relative_density ? { relative_density: read.relative_density } : {}),
              ...(v.odorised === "yes" || v.odorised === "no" ? { odorised: v.odorised === "yes" } : {}),
              ...(sent && !sent.disputed ? { compared: sent.entry } : {}),
            },
          }),
      };
    }
    case "weather":
      return {
        title: say("phone-ask-weather"),
        action: say("phone-record"),
        fields: [
          {
            kind: "choice",
            key: "precipitation",
            word: "phone-weather-falls",
            need: true,
            choices: words("precipitation", VOCABULARIES.precipitation),
          },
          {
            kind: "choice",
            key: "from",
            word: "phone-weather-wind",
            choices: words("wind_from", VOCABULARIES.wind[0]),
          },
          {
            kind: "choice",
            key: "force",
            word: "phone-weather-force",
            choices: words("wind_force", VOCABULARIES.wind[1]),
          },
        ],
        send: (v) =>
          says({
            weather: { precipitation: v.precipitation, wind: [v.from, v.force].filter(Boolean).join(" ") },
          }),
      };
    case "car_fittings":
      return {
        title: say("phone-ask-car_fittings"),
        action: say("phone-record"),
        start: {
          fittings: (view.car.fittings?.value ?? FITTINGS.filter((f) => f !== "vapour_two")).join(" "),
          gauging: view.car.gauging?.value ?? "",
          vapour_end: view.car.vapour_end?.value ?? "",
        },
        fields: [
          {
            kind: "many",
            key: "fittings",
            word: "phone-fittings-there",
            choices: words("fitting", FITTINGS),
          },
          {
            kind: "choice",
            key: "gauging",
            word: "phone-fittings-gauging",
            choices: words("gauging_kind", VOCABULARIES.gauging_kind),
          },
          {
            kind: "choice",
            key: "vapour_end",
            word: "phone-fittings-vapor",
            choices: words("car_end", VOCABULARIES.car_end),
          },
        ],
        send: (v) =>
          says({
            car_fittings: {
              fittings: (v.fittings ?? "").split(" ").filter(Boolean),
              ...filled(v, "gauging", "vapour_end"),
            },
          }),
      };
    case "check_wrong":
      return {
        title: checkShown(about, say),
        action: say("phone-record"),
        fields: [{ kind: "text", key: "note", word: "phone-what-seen", need: true, area: true }],
        send: (v) => says({ check: { what: about, right: false, note: v.note } }),
      };
    case "earlier":
      return {
        title: say("phone-earlier-title"),
        note: say("phone-earlier-note"),
        action: say("phone-earlier-do"),
        start: { at: localTime(app.recording.doneAt(visit) ?? Date.now()) },
        fields: [{ kind: "time", key: "at", word: "phone-earlier-time" }],
        send: (v) => {
          const at = new Date(v.at ?? "").getTime();
          app.recording.enterAs(visit, Number.isFinite(at) ? at : undefined);
          return Promise.resolve(true);
        },
      };
    case "hose":
      return {
        title: say("phone-hose-number"),
        action: say("phone-record"),
        start: { fitting: about },
        fields: [
          {
            kind: "choice",
            key: "fitting",
            word: "phone-leak-fitting",
            need: true,
            choices: words("fitting", fittingsFor("line", view)),
          },
          ...hosesOf(app),
          {
            kind: "text",
            key: "other",
            word: hosesOf(app).length ? "phone-hose-other" : "phone-hose-number",
          },
        ],
        send: (v) => {
          const hose = (v.other ?? "").trim() || (v.hose ?? "");
          return hose
            ? says({ line: { fitting: v.fitting, connected: true, hose } })
            : Promise.resolve(false);
        },
      };
    case "lift":
      return kindForm("hold_lifted", about, view, say, says);
    case "give":
      return {
        title: say("phone-handover-give"),
        note: say("phone-handover-note"),
        action: say("phone-handover-give"),
        fields: [
          people.length
            ? { kind: "choice", key: "to", word: "phone-handover-to", need: true, choices: people }
            : { kind: "text", key: "to", word: "phone-handover-to", need: true, upper: true },
        ],
        send: (v) => says({ handover_given: { to: (v.to ?? "").trim() } }),
      };
    case "take":
      return {
        title: say("phone-handover-take"),
        quote: say("phone-handover-from", {
          name: app.people.find((p) => p.operator === about)?.name ?? about,
        }),
        action: say("phone-handover-take"),
        fields: [],
        send: () => says({ handover_taken: { from: about } }),
      };
    case "opened_again": {
      const opened = view.header.opened?.value as
        { car: string; site: string; receiver: string; procedure: string; spot?: string } | undefined;
      if (!opened) return null;
      return {
        title: say("phone-ask-opened"),
        action: say("phone-record"),
        start: { car: opened.car, spot: opened.spot ?? "", receiver: opened.receiver },
        fields: [
          { kind: "text", key: "car", word: "phone-new-whole", need: true, upper: true },
          { kind: "text", key: "spot", word: "phone-new-spot" },
          {
            kind: "choice",
            key: "receiver",
            word: "phone-new-receiver",
            need: true,
            choices: words("receiver", VOCABULARIES.receiver),
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
        title: say(kind === "skip" ? "phone-step-skip" : "phone-look-wrong"),
        quote: say.of(step.title),
        fields: [
          kind === "skip"
            ? why
            : { kind: "text", key: "why", word: "phone-what-seen", need: true, area: true },
        ],
        action: say("phone-record"),
        send,
      };
    }
    case "withdraw":
      return line
        ? reason(say("phone-entry-withdraw"), "phone-entry-withdraw", say.of(line.sentence), (w) =>
            app.calls.withdraw(visit, about, w, by),
          )
        : null;
    case "pass": {
      const blocker = view.blockers.find((b) => b.code === about);
      return blocker
        ? {
            ...reason(say("phone-blocker-pass"), "phone-blocker-pass", say.of(blocker.missing), (w) =>
              app.calls.passOver(visit, about, w, by),
            ),
            note: say("phone-blocker-note"),
          }
        : null;
    }
    case "keep": {
      const d = view.disagreements.find((one) => one.entries.includes(about));
      return d
        ? reason(
            say("phone-differ-agree"),
            "phone-differ-agree",
            say.of(d.claims.find((c) => c.said.entry === about)?.sentence),
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
            title: say(kind === "join" ? "phone-join-do" : "phone-join-not"),
            quote: say.of(offer.sentence),
            note: say("phone-join-note"),
            fields: [{ kind: "text", key: "why", word: "phone-why", area: true }],
            action: say(kind === "join" ? "phone-join-do" : "phone-join-not"),
            send: (v) => app.record(visit, [{ ...draft, why: v.why ?? "" }]),
          }
        : null;
    }
    default:
      return isFormKind(kind) ? offered(kind, kindForm(kind, about, view, say, says), app, say) : null;
  }
}
