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
  /** Two where only whoever typed it knows. */
  choices: { value: number; unit: string }[];
  /** Why it is none, in the phone's words. */
  refused: Key | null;
}

const REFUSED: Record<string, Key> = {
  not_a_number: "phone-amount-not_a_number",
  trailing_text: "phone-amount-trailing_text",
  two_readings: "phone-amount-two_readings",
  cannot_be: "phone-amount-cannot_be",
  other_kind: "phone-amount-other_kind",
};

/**
 * Asks the core. `chosen` is the reading the person chose of two. `mark` is the mark before decimals where a
 * keypad offers one and no other; without a keypad none is named as the usual one, since people carry their
 * habits over borders, and a text that says two things is asked back.
 */
export async function readAmount(
  calls: Pick<BookCalls, "readAmount">,
  text: string,
  unit: string,
  chosen = "",
  mark?: string,
): Promise<Read> {
  const answer = await calls.readAmount(text, unit, mark);
  const one =
    answer.readings.length === 1
      ? answer.readings[0]
      : answer.readings.find((reading) => String(reading.value) === chosen);
  return {
    text,
    unit,
    amount: one ? (JSON.parse(one.amount) as Amount) : null,
    choices:
      answer.readings.length > 1 ? answer.readings.map(({ value, unit: of }) => ({ value, unit: of })) : [],
    refused: one ? null : (REFUSED[answer.refused] ?? null),
  };
}
