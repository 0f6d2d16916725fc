/**
 * The steps on paper: which places a step has, and how they are called. Lives here: what stands on the paper,
 * out of the steps of the view. Not here: which fields of a record have a place (`paper-fields.generated.ts`,
 * made from the core's table), how it is drawn (`screens/Paper.svelte` and the parts beside it).
 */
import { titleOf } from "./ask";
import { PAPER_FIELDS, type PaperField } from "./core/paper-fields.generated";
import type { RecordAsk, StepView, VisitView } from "./core/shapes";
import type { Key, Say } from "./strings";
import { unitShown } from "./units";

/** A place to write or to tick. */
export interface Place {
  label: string;
  fill: PaperField["fill"] | "tick";
  unit: string;
  words: string[];
}
/** One step as it stands on paper. */
export interface PaperStep {
  step: StepView;
  /** What was recorded; nothing while the step is open. */
  known: string;
  places: Place[];
  /** The first number again, for the rounds after the first. */
  rounds: Place[][];
}

/** How often what is read again and again has a place; the office's paper has as many. */
const ROUNDS = 4;
/** What is recorded only when something happens, which has a place once, at the end. */
export const ASIDE = [
  "leak",
  "hold",
  "defect",
  "forwarded",
  "incident",
  "car_left",
  "car_moved",
  "next_time",
] as const;
const AT_NO_STEP = new Set<string>([...ASIDE, "outcome"]);
/** Answers that may differ from what the step asks for. */
const AS_FOUND = new Set<string>(["valve", "closure"]);

/** What a record is called on paper. */
function titleOn(record: RecordAsk, say: Say): string {
  if (record.statement === "last_round" || record.statement === "fit_to_unload")
    return say.capital(`slot-${record.statement}`);
  return titleOf({ ...record, slot: "" }, say);
}

/** The places for what a record asks for. */
export function placesOf(record: RecordAsk, say: Say): Place[] {
  const title = titleOn(record, say);
  if (record.statement === "photo") return [{ label: title, fill: "tick", unit: "", words: [] }];
  if (record.statement === "line" && !record.connected) return [];
  const fields: readonly PaperField[] = PAPER_FIELDS[record.statement];
  const own = "unit" in record ? record.unit : undefined;
  return fields
    .filter(({ field }) => AS_FOUND.has(record.statement) || !(field in record))
    .map(({ label, fill, unit, words }) => ({
      label: label === "" ? title : say.capital(label as Key),
      fill,
      unit: fill === "number" ? unitShown(own ?? unit ?? "1", say) : "",
      words: (words ?? []).map((word) => say(word as Key)),
    }));
}

/** What was recorded of a step, by whom and when. */
function knownOf(step: StepView, say: Say): string {
  const status = say.capital(`step_status-${step.status}`);
  const by = step.said ? `${step.said.name}, ${step.said.shown}` : "";
  const told = by === "" ? status : say("phone-strip-by", { status, by });
  return step.note === "" ? told : `${told} (${step.note})`;
}

/** The steps of a stay as they stand on paper. */
export function paperOf(view: VisitView, say: Say): PaperStep[] {
  return view.steps.steps.map((step) => {
    const closed = !["open", "partly", "held"].includes(step.status);
    const asked = step.status === "partly" ? step.missing : step.records;
    const may = step.may_record.filter((record) => !AT_NO_STEP.has(record.statement));
    const due = !closed || step.due !== null;
    const places = due ? [...asked, ...may].flatMap((record) => placesOf(record, say)) : [];
    const number = places.filter((place) => place.fill === "number").slice(0, 1);
    const time: Place = { label: say("phone-strip-done_at"), fill: "time", unit: "", words: [] };
    return {
      step,
      known: closed ? knownOf(step, say) : "",
      places,
      rounds: step.repeat_minutes && due ? Array<Place[]>(ROUNDS - 1).fill([time, ...number]) : [],
    };
  });
}
