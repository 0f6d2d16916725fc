/**
 * Amounts as somebody types them: handed to the core as text with the unit asked for, and shown as the core
 * understood them. Lives here: the asking. Not here: any reading of numbers; that is the core's alone, so
 * that what is signed is what was typed.
 */
import type { BookCalls } from "./core/calls";
import type { Amount } from "./core/shapes";
import type { Key } from "./strings";

/**
 * What was typed, read. `text` and `unit` say of what, so that an answer that comes late is never taken for
 * another.
 */
export interface Read {
  text: string;
  unit: string;
  /** The amount, where there is one: what was typed says one thing, or the person chose. */
  amount: Amount | null;
  /** The number with its unit, as the core understood it. */
  shown: string;
  /** Two where only whoever typed it knows. */
  choices: { value: number; shown: string }[];
  /** Why it is none, in the phone's words. */
  refused: Key | null;
}

const REFUSED: Record<string, Key> = {
  not_a_number: "amount.not_a_number",
  trailing_text: "amount.trailing_text",
  two_readings: "amount.two_readings",
  cannot_be: "amount.cannot_be",
  other_kind: "amount.other_kind",
};

/**
 * Asks the core. `chosen` is the reading the person chose of two. No mark is named as the usual one: people
 * carry their habits over borders.
 */
export async function readAmount(
  calls: Pick<BookCalls, "readAmount">,
  text: string,
  unit: string,
  chosen = "",
): Promise<Read> {
  const answer = await calls.readAmount(text, unit, undefined);
  const one =
    answer.readings.length === 1
      ? answer.readings[0]
      : answer.readings.find((reading) => String(reading.value) === chosen);
  return {
    text,
    unit,
    amount: one ? (JSON.parse(one.amount) as Amount) : null,
    shown: one?.shown ?? "",
    choices: answer.readings.length > 1 ? answer.readings.map(({ value, shown }) => ({ value, shown })) : [],
    refused: one ? null : (REFUSED[answer.refused] ?? null),
  };
}
