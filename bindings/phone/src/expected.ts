/**
 * Cars that are expected by the papers the office sent, and what such a paper says, line by line. Lives
 * here: how they are shown. Which cars a site expects, and which paper belongs to a stay, is the core's.
 */
import type { ExpectedCar } from "./core/shapes";
import { own } from "./own-text";
import type { AppState } from "./state/app.svelte";
import type { Key, Say } from "./strings";
import { amountShown } from "./units";

/** The expected cars of the phone's site: those with a day first, in the order of their days. */
export function expectedHere(app: AppState): ExpectedCar[] {
  const all = app.site()?.expected ?? [];
  return [...all].sort(
    (a, b) => (a.expected || "~").localeCompare(b.expected || "~") || a.car.localeCompare(b.car),
  );
}

/** A car number without blanks, dashes and leading zeros, as two typings of one number are compared. */
export const plainCar = (text: string): string => {
  const [, mark = "", number = ""] =
    /^(\p{L}*)(.*)$/u.exec(text.replace(/[^\p{L}\p{N}]/gu, "").toUpperCase()) ?? [];
  return mark + number.replace(/^0+(?=.)/, "");
};

/** Whether two car numbers differ by one slip: a character wrong, missing or extra, or two swapped. */
export function isOneSlip(one: string, other: string): boolean {
  const [a, b] = [plainCar(one), plainCar(other)];
  if (a === b || Math.abs(a.length - b.length) > 1) return false;
  let at = 0;
  while (at < a.length && a[at] === b[at]) at += 1;
  const [x, y] = [a.slice(at), b.slice(at)];
  const swapped = x.length > 1 && x[0] === y[1] && x[1] === y[0] && x.slice(2) === y.slice(2);
  return swapped || x.slice(1) === y.slice(1) || x.slice(1) === y || x === y.slice(1);
}

/** What is said of an expected car in one line. */
export const expectedBelow = (one: ExpectedCar, say: Say): string =>
  [
    one.disputed ? say("phone-expected-differ") : "",
    one.expected ? say("phone-expected-on", { day: one.expected }) : "",
    one.paper.number ? say("phone-expected-paper", { number: own(one.paper.number) }) : "",
    one.paper.billed ? amountShown(one.paper.billed, say) : "",
    own(one.paper.shipper ?? ""),
  ]
    .filter(Boolean)
    .join(" · ");

/** What the paper says, each with its name. What the file does not say is left out, but for the odorant. */
export function factsOf(one: ExpectedCar, say: Say): { name: Key; value: string }[] {
  const { paper } = one;
  const text = (name: Key, value: string | undefined) => ({ name, value: own((value ?? "").trim()) });
  const word = (name: Key, family: string, code: string | undefined) => ({
    name,
    value: code === undefined ? "" : say.capital(`${family}-${code}` as Key),
  });
  const odorised: Key =
    paper.odorised === undefined ? "phone-paper-silent" : paper.odorised ? "phone-yes" : "phone-no";
  return [
    text("phone-paper-car", one.car),
    text("phone-paper-un_number", paper.un_number),
    text("phone-paper-product", paper.product),
    { name: "phone-paper-billed" as Key, value: paper.billed ? amountShown(paper.billed, say) : "" },
    {
      name: "phone-paper-relative_density" as Key,
      value: paper.relative_density ? amountShown(paper.relative_density, say) : "",
    },
    { name: "phone-paper-odorised" as Key, value: say(odorised) },
    word("phone-paper-grade", "calc_grade", paper.grade),
    word("phone-paper-billed_by", "billed_by", paper.billed_by),
    {
      name: "phone-paper-winter" as Key,
      value: paper.winter_fill === undefined ? "" : say(paper.winter_fill ? "phone-yes" : "phone-no"),
    },
    text("phone-paper-number", paper.number),
    text("phone-paper-shipper", paper.shipper),
    text("phone-paper-dated", one.dated),
  ].filter(({ value }) => value !== "");
}

/** The office's paper as a form is filled in with it. */
export function paperTyped(
  one: ExpectedCar,
  car: string,
  un_numbers: readonly string[],
): Record<string, string> {
  const { paper } = one;
  const un = (paper.un_number ?? "").trim();
  return {
    ...(plainCar(one.car) === plainCar(car) ? { same_car: "yes" } : { car: one.car }),
    ...(un_numbers.includes(un) ? { un_number: un } : { un_other: un }),
    product: paper.product ?? "",
    billed: paper.billed?.text ?? "",
    ...(paper.billed ? { billed_unit: paper.billed.unit } : {}),
    relative_density: paper.relative_density?.text ?? "",
    odorised: paper.odorised === undefined ? "silent" : paper.odorised ? "yes" : "no",
    grade: paper.grade ?? "",
    billed_by: paper.billed_by ?? "",
    ...(paper.winter_fill === undefined ? {} : { winter_fill: paper.winter_fill ? "yes" : "no" }),
    number: paper.number ?? "",
    shipper: paper.shipper ?? "",
  };
}
