/**
 * What can be typed on the keypad: the units, where it is read, and the statement a figure makes. Lives here:
 * the keypad's side of an ask. What a figure means is asked of the core as it is typed.
 */
import type { Ask } from "./ask";
import type {
  Amount,
  Instrument,
  KnownStatement,
  Meaning,
  Quantity,
  SiteView,
  ReadingUncertainty,
} from "./core/shapes";
import type { Settings } from "./field/settings";
import { own } from "./own-text";
import type { Key, Say } from "./strings";

export interface Figure {
  title: string;
  where: string;
  units: string[];
  signed: boolean;
  instruments: Instrument[];
  words?: { key: string; word: Key };
  halves: boolean;
  build(a: Amount, instrument: string, word: string): KnownStatement;
}

const UNITS: Record<string, string[]> = {
  pressure: ["psi", "kPa", "bar"],
  temperature: ["°F", "°C"],
  outage: ["in", "mm"],
  level: ["%"],
  relative_density: ["1"],
  volume: ["gal", "L", "m³"],
  rate: ["gal/min", "gal/h"],
  effort: ["ft·lbf", "N·m"],
  threads: ["turns"],
  car_capacity: ["gal", "L", "m³"],
  car_diameter: ["in", "ft", "mm"],
  truck_load: ["gal", "L", "lb", "kg"],
};
/** The unit 1 stands before no figure. */
export const unitShown = (unit: string): string => (unit === "1" ? "" : unit);
/** As typed; the unit is put behind it unless whoever typed it did so. */
export const amountShown = (a: Amount): string =>
  a.unit === "turns" || a.unit === "1" || /[\p{L}°%]/u.test(a.text)
    ? own(a.text)
    : `${own(a.text)} ${a.unit}`;
/** A ± to as many places as it deserves. */
export const plusMinus = (pm: number): string => {
  if (!(pm > 0)) return "0";
  const ten = Math.floor(Math.log10(pm)),
    lead = pm / 10 ** ten;
  return pm.toFixed(Math.max(0, Math.min(6, -ten + (lead < 2.95 ? 1 : 0))));
};
/**
 * "22:12 · 11-24" of "2026-11-24 22:12 -06": what one needs to know at the car; the whole stands in the
 * entry.
 */
export const hourAndDay = (shown: string): string =>
  shown.length >= 16 ? `${shown.slice(11, 16)} · ${shown.slice(5, 10)}` : shown;

export function figureOf(ask: Ask, site: SiteView | undefined, settings: Settings, say: Say): Figure | null {
  const measured = ask.statement === "reading" ? ask.measured : ask.statement;
  const all = UNITS[measured];
  if (!all) return null;
  const wish = [settings.pressure, settings.temperature, settings.volume, settings.torque];
  const units = [...all].sort((a, b) => Number(wish.includes(b)) - Number(wish.includes(a)));
  const at = ask.fitting ? say(`fitting.${ask.fitting}`) : "";
  const base = {
    units,
    signed: measured === "temperature" || measured === "pressure",
    halves: measured === "threads",
  };
  if (ask.statement === "reading") {
    const instruments = (site?.instruments ?? []).filter((i) => i.measures === measured);
    return {
      ...base,
      title: say(`measured.${ask.measured}`),
      where: `${say(`place.${ask.place}`)} · ${say(`purpose.${ask.purpose}`)}`,
      instruments,
      build: (a, instrument) => ({
        reading: {
          measured: ask.measured,
          place: ask.place,
          purpose: ask.purpose,
          amount: a,
          ...(instrument ? { instrument } : {}),
        },
      }),
    };
  }
  const { fitting } = ask;
  const none = { ...base, instruments: [] as Instrument[] };
  switch (ask.statement) {
    case "effort":
      return fitting
        ? {
            ...none,
            title: say(`effort.${ask.part}`),
            where: at,
            build: (a) => ({ effort: { fitting, part: ask.part, amount: a } }),
          }
        : null;
    case "threads":
      return fitting
        ? {
            ...none,
            title: say("defect.threads"),
            where: at,
            build: (a) => ({ threads: { fitting, engaged: a } }),
          }
        : null;
    case "car_capacity":
      return {
        ...none,
        title: say("ask.car_capacity"),
        where: say("stencil"),
        build: (a) => ({ car_capacity: { capacity: a } }),
      };
    case "car_diameter":
      return {
        ...none,
        title: say("ask.car_diameter"),
        where: say("stencil"),
        build: (a) => ({ car_diameter: { diameter: a } }),
      };
    case "truck_load":
      return {
        ...none,
        title: say("ask.truck_load"),
        where: "",
        words: { key: "truck", word: "truck.which" },
        build: (a, _, truck) => ({ truck_load: { truck, amount: a } }),
      };
    default:
      return null;
  }
}

/** A scale for an instrument's face: five numbered divisions of a round size. Drawing only. */
export function faceOf(
  instrument: Instrument | undefined,
  unit: string,
): { min: number; max: number; step: number; major: number } | null {
  const span = instrument?.span;
  if (!span || span.value === undefined || span.unit !== unit || !(span.value >= 1e-3 && span.value <= 1e9))
    return null;
  const rough = span.value / 6,
    ten = 10 ** Math.floor(Math.log10(rough));
  const major = [1, 2, 5, 10].map((k) => k * ten).find((k) => k >= rough) ?? ten * 10;
  return { min: 0, max: span.value, step: major / 5, major: 5 };
}

/** What a draft means, with its figures as they are shown. */
export interface ShownMeaning {
  worth: ReadingUncertainty | null;
  figures: { title: string; value: string; plus_minus: string; unit: string; formula: string }[];
  findings: Meaning["findings"];
}
const shown = (v: number, pm: number | undefined): [string, string] => {
  const places = pm !== undefined && pm > 0 ? Math.max(0, Math.min(6, Math.ceil(1 - Math.log10(pm)))) : 1;
  return [v.toFixed(places).replace("-", "−"), pm === undefined ? "?" : pm.toFixed(places)];
};
/** The core's answer, with each figure to as many places as its ± deserves. */
export function shownMeaning({ worth, figures, findings }: Meaning): ShownMeaning {
  const computed = figures.filter(
    (q): q is Quantity & { value: NonNullable<Quantity["value"]> } => q.value !== null,
  );
  return {
    worth,
    findings,
    figures: computed.map((q) => {
      const top = q.up_to ?? q.value,
        [low, plus_minus] = shown(q.value.value, top.plus_minus),
        [high] = shown(top.value, top.plus_minus);
      const value = low === high ? low : `${low} … ${high}`;
      return { title: q.title, value, plus_minus, unit: unitShown(q.value.unit), formula: q.value.formula };
    }),
  };
}
