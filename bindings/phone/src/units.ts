/**
 * Units and amounts as people read them. Lives here: which word a unit has, and how a number stands before
 * it. What an amount is, and how a typed one is read, is the core's.
 */
import type { Amount } from "./core/shapes";
import { UNIT_NAMES } from "./core/statement-kinds.generated";
import type { Say } from "./strings";

/** What the core's messages call a unit. */
const nameOf = (unit: string) =>
  unit in UNIT_NAMES ? UNIT_NAMES[unit as keyof typeof UNIT_NAMES] : undefined;

/** A unit's word; nothing stands behind a figure without a unit. */
export function unitShown(unit: string, say: Say): string {
  const name = nameOf(unit);
  return name ? say(`unit-${name}`) : unit;
}

/** A number as it was read, without separators of thousands, which another language reads as decimals. */
export const readShown = (value: number, unit: string, say: Say): string =>
  [say.plain(String(value)), unitShown(unit, say)].filter(Boolean).join(" ");

/** An amount as somebody typed it, as the core's messages write it. */
export const amountShown = (a: Amount, say: Say): string => {
  const named = /[\p{L}°%]/u.test(a.text),
    unit = a.unit === "turns" || a.unit === "1" ? "one" : (nameOf(a.unit) ?? "one"),
    value = a.value === undefined ? {} : { value: String(a.value) };
  return say.of({
    message: "quantity-value",
    args: { value: { amount: { typed: a.text, unit, named, echoed: false, ...value } } },
  });
};

/** The number of an amount, without its unit. */
export const figureShown = (a: Amount, say: Say): string =>
  a.value === undefined ? say.of(a.text) : say.number(String(a.value));

/** A ± to as many places as it deserves. */
export const plusMinus = (pm: number, say: Say): string => {
  if (!(pm > 0)) return "0";
  const ten = Math.floor(Math.log10(pm)),
    lead = pm / 10 ** ten;
  return say.number(pm.toFixed(Math.max(0, Math.min(6, -ten + (lead < 2.95 ? 1 : 0)))));
};

/** A figure with so many digits that count, never as a power of ten. */
export const digitsShown = (value: number, digits: number, say: Say): string => {
  const ten = value === 0 ? 0 : Math.floor(Math.log10(Math.abs(value)));
  const rounded = Number(value.toPrecision(digits));
  return say.number(rounded.toFixed(Math.max(0, Math.min(6, digits - 1 - ten)))).replace("-", "−");
};
