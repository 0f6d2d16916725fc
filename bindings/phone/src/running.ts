/**
 * What goes on at a car while nothing is to be tapped: a transfer between two readings. Lives here: when that
 * is so, and what would come next. When a reading is due again is the core's.
 */
import type { StepView, VisitView } from "./core/shapes";

export interface Running {
  /** The steps whose readings are taken again and again. */
  steps: StepView[];
  /** When the first of them is due again. */
  due: number;
  /** The step that comes once the transfer is over. */
  next: string;
}

/**
 * The transfer that goes on: its readings were taken, none is due yet, and what comes next would end it.
 * Nothing where an answer holds the job.
 */
export function runningAt(view: VisitView): Running | undefined {
  const { steps, stages, next } = view.steps;
  const first = steps.find((step) => step.id === next[0]);
  const rank = (stage: string) => stages.findIndex((one) => one.stage === stage);
  if (!first || first.status === "held" || rank(first.stage) <= rank("transfer")) return undefined;
  const repeated = steps.filter(({ stage, due }) => stage === "transfer" && due !== null);
  const due = Math.min(...repeated.flatMap((step) => step.due ?? []));
  return repeated.length > 0 ? { steps: repeated, due, next: first.id } : undefined;
}

/** The whole minutes until then, never less than one: what is due is asked for in place of this. */
export const minutesTo = (due: number, now: number): number => Math.max(1, Math.ceil((due - now) / 60_000));
