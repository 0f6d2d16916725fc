/**
 * Forms that are drawn from the core's table of statement kinds: which fields, and the statement they make.
 * Lives here: how a field is drawn by its shape, and its word. Not here: the table itself (it is generated),
 * and forms that take more than their fields (`forms.ts`).
 */
import { leakAtShown, sourceShown } from "./codes";
import type { Amount, Statement, VisitView } from "./core/shapes";
import { KIND_FORMS, VOCABULARIES, type KindField, type KindForm } from "./core/statement-kinds.generated";
import type { Field, Form, Values } from "./forms";
import { newId } from "./statements";
import type { Key, Say } from "./strings";

type Forms = typeof KIND_FORMS;
/** A kind of statement that is asked for on such a form. */
export type FormKind = keyof Forms;

type FieldWord = {
  [K in FormKind]: Forms[K]["fields"][number] extends { name: infer N extends string } ? `${K}.${N}` : never;
}[FormKind];

/** The word of each field. A field without a word is a type error. */
const FIELD_WORDS: Record<FieldWord, Key> = {
  "empty_decision.accepted": "phone-decision-word",
  "empty_decision.grounds": "phone-decision-grounds",
  "forwarded.to": "phone-forwarded-to",
  "forwarded.how": "phone-forwarded-how",
  "authority.by": "phone-authority-by",
  "authority.reference": "phone-authority-reference",
  "authority.spoken_at": "phone-authority-spoken",
  "authority.written_at": "phone-authority-written",
  "resolved.how": "phone-resolved-how",
  "hold.because": "phone-why",
  "hold_lifted.because": "phone-why",
  "clock.at": "phone-when",
  "remark.text": "phone-what-seen",
  "car_number_again.car": "phone-new-whole",
  "car_test_date.due": "phone-test-due",
  "incident.source": "phone-incident-source",
  "incident.noticed_at": "phone-incident-noticed",
  "incident.injury": "phone-incident-injury",
  "incident.ignition": "phone-incident-ignition",
  "incident.evacuation": "phone-incident-evacuation",
  "incident.closed": "phone-incident-closed",
  "incident.what": "phone-what-seen",
  "incident.fitting": "phone-leak-fitting",
  "incident_stopped.at": "phone-incident-stopped",
  "incident_stopped.loss": "phone-incident-loss",
  "incident_stopped.minimal": "phone-incident-minimal",
  "incident_call.to": "phone-incident-to",
  "incident_call.at": "phone-when",
  "incident_call.number": "phone-incident-number",
  "incident_closed.how": "phone-incident-how",
  "leak.at": "phone-leak-at",
  "leak.action": "phone-leak-action",
  "leak.fitting": "phone-leak-fitting",
  "leak_checked.tight": "phone-leak-tight",
  "leak_checked.note": "phone-leak-how",
  "car_left.connected": "phone-left-connected",
  "car_left.conditions": "phone-left-conditions",
  "car_left.until": "phone-left-until",
  "car_left.note": "phone-note",
  "car_moved.to": "phone-moved-to",
  "car_moved.by": "phone-moved-by",
  "outcome.load": "phone-outcome-load",
  "outcome.because": "phone-outcome-because",
  "outcome.to": "phone-outcome-to",
  "outcome.note": "phone-note",
  "valve_feel.feel": "phone-feel-how",
  "valve_feel.fitting": "phone-leak-fitting",
  "plug_condition.state": "phone-part-state",
  "plug_condition.fitting": "phone-leak-fitting",
  "plug_condition.note": "phone-note",
  "cover_condition.part": "phone-part-which",
  "cover_condition.state": "phone-part-state",
  "cover_condition.note": "phone-note",
  "hose_pressure.fitting": "phone-leak-fitting",
  "hose_pressure.amount": "phone-hose-left",
  "next_time.what": "phone-next-what",
  "next_time.fitting": "phone-leak-fitting",
  "next_time_done.how": "phone-next-how",
  "truck_load.truck": "phone-truck-which",
  "truck_load.amount": "phone-truck-amount",
  "truck_load.ticket": "phone-truck-ticket",
  "truck_load.driver": "phone-truck-driver",
  "truck_load.level": "measured-level",
  "truck_load.temperature": "measured-temperature",
  "truck_load.seal": "phone-truck-seal",
  "tank_gauged.moment": "phone-tank-moment",
  "tank_gauged.tank": "phone-tank-which",
  "tank_gauged.level": "measured-level",
  "tank_gauged.pressure": "measured-pressure",
  "tank_gauged.temperature": "measured-temperature",
  "tank_gauged.meter": "phone-tank-meter",
  "recovery_planned.target": "phone-plan-target",
  "recovery_planned.swept": "phone-plan-swept",
  "recovery_planned.efficiency": "phone-plan-efficiency",
  "recovery_planned.price": "phone-plan-price",
  "recovery_planned.cost": "phone-plan-cost",
  "inspection.by": "phone-inspection-by",
  "inspection.looked_at": "phone-inspection-looked",
  "inspection.found": "phone-inspection-found",
  "inspection.finding": "phone-inspection-finding",
  "inspection.copy_left": "phone-inspection-copy",
};

/** The titles that are not called `phone-ask-kind`. A form without a title is a type error. */
const TITLES: Record<Exclude<`phone-ask-${FormKind}`, Key>, (about: string) => string> = {
  "phone-ask-hold_lifted": () => "phone-hold-lift",
  "phone-ask-clock": (event) => `clock_event-${event}`,
  "phone-ask-car_test_date": (test) => `test_date-${test}`,
};

const NOTES: Partial<Record<FormKind, Key>> = {
  empty_decision: "phone-proof-you",
  authority: "phone-authority-note",
  hold: "phone-hold-note",
  car_number_again: "phone-again-note",
  incident: "phone-incident-note",
  leak: "phone-leak-note",
  car_left: "phone-left-note",
  car_moved: "phone-moved-note",
  outcome: "phone-outcome-note",
  valve_feel: "phone-feel-note",
  next_time: "phone-next-note",
  hose_pressure: "phone-hose-note",
  recovery_planned: "phone-plan-note",
};
/** Forms that are filled in when there is no time to read one: one thing at a time. */
const PAGED: readonly FormKind[] = ["incident"];
const ACTIONS: Partial<Record<FormKind, Key>> = { hold: "phone-hold-do", hold_lifted: "phone-hold-lift" };

/** What yes and no are called in a field, where that is not a plain yes and no. */
const YES_AND_NO: Record<string, readonly [Key, Key]> = {
  "empty_decision.accepted": ["phone-decision-yes", "phone-decision-no"],
  "leak_checked.tight": ["phone-leak-yes", "phone-leak-no"],
  "car_left.connected": ["phone-left-yes", "phone-left-no"],
};

/**
 * The name that a field's draft is kept under, where older versions kept it under another than the field's.
 */
const KEPT_AS: Record<string, string> = {
  "authority.spoken_at": "spoken",
  "authority.written_at": "written",
};

/** What the forms quote of the record they are about. */
export interface Quoted {
  holds: readonly { id: string; because: string }[];
  defects: readonly { id: string; what: string }[];
  incidents: readonly { id: string; source: string; known: VisitView["incidents"][number]["known"] }[];
  leaks: readonly { id: string; at: string }[];
  car: Pick<VisitView["car"], "carried">;
}

const millis = (local: string) => new Date(local).getTime();
/** A moment as the browser's own field writes it, in the phone's zone. */
export const localTime = (at: number) =>
  new Date(at - new Date(at).getTimezoneOffset() * 60_000).toISOString().slice(0, 16);

/** A moment in UTC, as ISO 8601. */
export const isoTime = (at: number) => new Date(at).toISOString();

export const isFormKind = (kind: string): kind is FormKind => kind in KIND_FORMS;

const keyOf = (kind: FormKind, field: KindField) => KEPT_AS[`${kind}.${field.name}`] ?? field.name;
const wordOf = (kind: FormKind, field: KindField): Key =>
  (FIELD_WORDS as Record<string, Key>)[`${kind}.${field.name}`]!;

function choicesOf(kind: FormKind, field: KindField, say: Say): { value: string; word: string }[] {
  if (!field.vocabulary) {
    const [yes, no] = YES_AND_NO[`${kind}.${field.name}`] ?? ["phone-yes", "phone-no"];
    return [
      { value: "yes", word: say(yes) },
      { value: "no", word: say(no) },
    ];
  }
  const values: readonly (string | readonly string[])[] = VOCABULARIES[field.vocabulary];
  return values.flat().map((value) => ({ value, word: say.capital(`${field.vocabulary}-${value}` as Key) }));
}

function drawn(kind: FormKind, field: KindField, say: Say): Field {
  const named = { key: keyOf(kind, field), word: wordOf(kind, field) };
  switch (field.shape) {
    case "word":
    case "coded":
    case "yes_no":
      return { kind: "choice", ...named, need: field.must, choices: choicesOf(kind, field, say) };
    case "words":
      return { kind: "many", ...named, choices: choicesOf(kind, field, say) };
    case "time":
      return { kind: "time", ...named };
    case "amount":
      return { kind: "amount", ...named, need: field.must, unit: () => field.unit ?? "1" };
    case "prose":
      return { kind: "text", ...named, need: field.must, area: true };
    case "date":
      return { kind: "text", ...named, need: field.must, digits: true };
    case "person":
    case "car_number":
      return { kind: "text", ...named, need: field.must, upper: true };
    default:
      return { kind: "text", ...named, need: field.must };
  }
}

/** What stands in a field, as the statement has it; nothing when nothing was given and nothing must be. */
function given(field: KindField, typed: string | undefined, read: Amount | undefined): unknown {
  const text = (typed ?? "").trim();
  switch (field.shape) {
    case "amount":
      return read;
    case "time":
      return text !== "" ? millis(text) : field.usual === "now" ? Date.now() : undefined;
    case "yes_no":
      return field.must || text !== "" ? text === "yes" : undefined;
    case "words":
      return text.split(" ").filter(Boolean);
    default:
      return field.must || text !== "" ? typed : undefined;
  }
}

/** What stands in a field of a statement, as the form has it. */
function typedAs(field: KindField, value: unknown): string {
  if (field.shape === "time" && typeof value === "number") return localTime(value);
  if (field.shape === "yes_no" && typeof value === "boolean") return value ? "yes" : "no";
  return typeof value === "string" ? value : "";
}

/** The form for a kind, about `about`, making the statement that `says` records. */
export function kindForm(
  kind: FormKind,
  about: string,
  view: Quoted,
  say: Say,
  says: (statement: Statement) => Promise<boolean>,
): Form {
  const form: KindForm = KIND_FORMS[kind];
  const title = (TITLES as Record<string, (about: string) => string>)[`phone-ask-${kind}`];
  const quotes: Record<string, () => string | undefined> = {
    hold: () => view.holds.find((hold) => hold.id === about)?.because,
    defect: () => view.defects.find((defect) => defect.id === about)?.what,
    incident: () => {
      const incident = view.incidents.find((one) => one.id === about);
      return incident && sourceShown(incident.source, say);
    },
    leak: () => {
      const leak = view.leaks.find((one) => one.id === about);
      return leak && leakAtShown(leak.at, say);
    },
    note: () => {
      const carried = view.car.carried.find((one) => one.note === about);
      return carried && say.of(carried.says);
    },
  };
  const quote = form.about === undefined ? undefined : quotes[form.about];
  const note = NOTES[kind];
  const now = form.fields.filter((field) => field.shape === "time" && field.usual === "now");
  /** What is known of an incident to which facts are added: what is left as it stands is said again. */
  const known = kind === "incident" ? view.incidents.find((one) => one.id === about)?.known : undefined;
  const before = (field: KindField): unknown => (known as Record<string, unknown> | undefined)?.[field.name];
  /** What is about no earlier statement may be about a fitting. */
  const at_fitting = form.about === undefined && about !== "" && !known ? { fitting: about } : {};
  const start = {
    ...at_fitting,
    ...Object.fromEntries(now.map((field) => [keyOf(kind, field), localTime(Date.now())])),
    ...(known
      ? Object.fromEntries(form.fields.map((field) => [keyOf(kind, field), typedAs(field, before(field))]))
      : {}),
  };
  return {
    signs: form.signs,
    title: known
      ? say("phone-incident-more")
      : say.capital((title ? title(about) : `phone-ask-${kind}`) as Key),
    ...(quote ? { quote: quote() ?? "" } : {}),
    ...(note ? { note: say(note) } : {}),
    action: say(ACTIONS[kind] ?? "phone-record"),
    ...(PAGED.includes(kind) ? { paged: true } : {}),
    fields: form.fields.map((field) => drawn(kind, field, say)),
    start,
    send: (values: Values, read: Record<string, Amount>) => {
      const fields = form.fields.map((field): [string, unknown] => {
        const key = keyOf(kind, field);
        // A moment that was left as it stands keeps its seconds.
        if (known && values[key] === typedAs(field, before(field))) return [field.name, before(field)];
        return [field.name, given(field, values[key], read[key])];
      });
      const said = fields.filter(([, value]) => value !== undefined);
      return says({
        [kind]: {
          ...(form.about === undefined ? {} : { [form.about]: about }),
          ...(form.makes === undefined ? {} : { [form.makes]: known ? about : newId() }),
          ...Object.fromEntries(said),
        },
      });
    },
  };
}
