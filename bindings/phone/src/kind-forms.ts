/**
 * Forms that are drawn from the core's table of statement kinds: which fields, and the statement they make.
 * Lives here: how a field is drawn by its shape, and the words that are not called after their kind and
 * field. Not here: the table itself (it is generated), and forms that take more than their fields
 * (`forms.ts`).
 */
import type { Amount, Statement } from "./core/shapes";
import {
  KIND_FORMS,
  VOCABULARIES,
  type KindField,
  type KindForm,
  type Vocabulary,
} from "./core/statement-kinds.generated";
import type { Field, Form, Values } from "./forms";
import { newId } from "./statements";
import type { Key, Say } from "./strings";

type Forms = typeof KIND_FORMS;
/** A kind of statement that is asked for on such a form. */
export type FormKind = keyof Forms;

type FieldWord = {
  [K in FormKind]: Forms[K]["fields"][number] extends { name: infer N extends string } ? `${K}.${N}` : never;
}[FormKind];

/** The words of fields that are not called `kind.field`. A field without a word is a type error. */
const FIELD_WORDS: Record<Exclude<FieldWord, Key>, Key> = {
  "empty_decision.accepted": "decision.word",
  "empty_decision.grounds": "decision.grounds",
  "authority.spoken_at": "authority.spoken",
  "authority.written_at": "authority.written",
  "hold.because": "why",
  "hold_lifted.because": "why",
  "clock.at": "when",
  "remark.text": "what.seen",
  "car_number_again.car": "new.whole",
  "car_test_date.due": "test.due",
};

/** The titles that are not called `ask.kind`. A form without a title is a type error. */
const TITLES: Record<Exclude<`ask.${FormKind}`, Key>, (about: string) => string> = {
  "ask.hold_lifted": () => "hold.lift",
  "ask.clock": (event) => `event.${event}`,
  "ask.car_test_date": (test) => `test.${test}`,
};

const NOTES: Partial<Record<FormKind, Key>> = {
  empty_decision: "proof.you",
  authority: "authority.note",
  hold: "hold.note",
  car_number_again: "again.note",
};
const ACTIONS: Partial<Record<FormKind, Key>> = { hold: "hold.do", hold_lifted: "hold.lift" };

/** What the words of a vocabulary are called by, where that is not the vocabulary's name. */
const WORDS_OF: Partial<Record<Vocabulary, string>> = { told: "how" };
/** What yes and no are called in a field, where that is not a plain yes and no. */
const YES_AND_NO: Record<string, string> = { "empty_decision.accepted": "decision" };

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
}

const millis = (local: string) => new Date(local).getTime();
/** A moment as the browser's own field writes it, in the phone's zone. */
export const localTime = (at: number) =>
  new Date(at - new Date(at).getTimezoneOffset() * 60_000).toISOString().slice(0, 16);

export const isFormKind = (kind: string): kind is FormKind => kind in KIND_FORMS;

const keyOf = (kind: FormKind, field: KindField) => KEPT_AS[`${kind}.${field.name}`] ?? field.name;
const wordOf = (kind: FormKind, field: KindField): Key => {
  const word = `${kind}.${field.name}`;
  return (FIELD_WORDS as Record<string, Key>)[word] ?? (word as Key);
};

function choicesOf(kind: FormKind, field: KindField, say: Say): { value: string; word: string }[] {
  const words = (prefix: string, values: readonly string[]) =>
    values.map((value) => ({ value, word: say(`${prefix}.${value}` as Key) }));
  if (!field.vocabulary) return words(YES_AND_NO[`${kind}.${field.name}`] ?? "paper", ["yes", "no"]);
  const values: readonly (string | readonly string[])[] = VOCABULARIES[field.vocabulary];
  return words(WORDS_OF[field.vocabulary] ?? field.vocabulary, values.flat());
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
      return { kind: "amount", ...named, unit: () => field.unit ?? "1" };
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

/** The form for a kind, about `about`, making the statement that `says` records. */
export function kindForm(
  kind: FormKind,
  about: string,
  view: Quoted,
  say: Say,
  says: (statement: Statement) => Promise<boolean>,
): Form {
  const form: KindForm = KIND_FORMS[kind];
  const title = (TITLES as Record<string, (about: string) => string>)[`ask.${kind}`];
  const quotes: Record<string, () => string | undefined> = {
    hold: () => view.holds.find((hold) => hold.id === about)?.because,
    defect: () => view.defects.find((defect) => defect.id === about)?.what,
  };
  const quote = form.about === undefined ? undefined : quotes[form.about];
  const note = NOTES[kind];
  const now = form.fields.filter((field) => field.shape === "time" && field.usual === "now");
  return {
    signs: form.signs,
    title: say((title ? title(about) : `ask.${kind}`) as Key),
    ...(quote ? { quote: quote() ?? "" } : {}),
    ...(note ? { note: say(note) } : {}),
    action: say(ACTIONS[kind] ?? "record"),
    fields: form.fields.map((field) => drawn(kind, field, say)),
    ...(now.length
      ? { start: Object.fromEntries(now.map((field) => [keyOf(kind, field), localTime(Date.now())])) }
      : {}),
    send: (values: Values, read: Record<string, Amount>) => {
      const fields = form.fields.map((field): [string, unknown] => {
        const key = keyOf(kind, field);
        return [field.name, given(field, values[key], read[key])];
      });
      const known = fields.filter(([, value]) => value !== undefined);
      return says({
        [kind]: {
          ...(form.about === undefined ? {} : { [form.about]: about }),
          ...(form.makes === undefined ? {} : { [form.makes]: newId() }),
          ...Object.fromEntries(known),
        },
      });
    },
  };
}
