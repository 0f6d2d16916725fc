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
import type { Message } from "./core/views.generated";
import { VOCABULARIES } from "./core/statement-kinds.generated";
import type { Settings } from "./field/settings";
import type { Key, Say } from "./strings";
import { unitShown } from "./units";

export interface Figure {
  title: string;
  where: string;
  units: string[];
  signed: boolean;
  instruments: Instrument[];
  /** What is chosen beside the figure. */
  choose?: { word: Key; choices: { value: string; word: string }[] };
  halves: boolean;
  build(a: Amount, instrument: string, chosen: string): KnownStatement;
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
  const at = ask.fitting ? say(`phone-fitting-${ask.fitting}`) : "";
  const base = {
    units,
    signed: measured === "temperature" || measured === "pressure",
    halves: measured === "threads",
  };
  if (ask.statement === "reading") {
    const instruments = (site?.instruments ?? []).filter((i) => i.measures === measured);
    return {
      ...base,
      title: say.capital(`measured-${ask.measured}`),
      where: `${say.capital(`place-${ask.place}`)} · ${say.capital(`purpose-${ask.purpose}`)}`,
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
            title: say(`phone-effort-${ask.part}`),
            where: at,
            build: (a) => ({ effort: { fitting, part: ask.part, amount: a } }),
          }
        : null;
    case "threads":
      return fitting
        ? {
            ...none,
            title: say("phone-defect-threads"),
            where: at,
            build: (a) => ({ threads: { fitting, engaged: a } }),
          }
        : null;
    case "car_capacity":
      return {
        ...none,
        title: say("phone-ask-car_capacity"),
        where: say("phone-stencil"),
        choose: {
          word: "phone-shell-insulation",
          choices: VOCABULARIES.insulation.map((value) => ({
            value,
            word: say.capital(`insulation-${value}`),
          })),
        },
        build: (a, _, insulation) => ({
          car_capacity: {
            capacity: a,
            ...(insulation ? { insulation: insulation as (typeof VOCABULARIES.insulation)[number] } : {}),
          },
        }),
      };
    case "car_diameter":
      return {
        ...none,
        title: say("phone-ask-car_diameter"),
        where: say("phone-stencil"),
        build: (a) => ({ car_diameter: { diameter: a } }),
      };
    default:
      return null;
  }
}

/**
 * The instrument that is offered: the one last used for such a reading here; for the final pressure else the
 * one with the lowest span, since a coarse gauge says little about a nearly empty car.
 */
export function instrumentFor(ask: Ask, figure: Figure, last: string | undefined): Instrument | undefined {
  const used = figure.instruments.find((one) => one.name === last);
  if (used || ask.statement !== "reading" || ask.purpose !== "final") return used ?? figure.instruments[0];
  const span = (one: Instrument) => one.span?.value ?? Infinity;
  return figure.instruments.reduce<Instrument | undefined>(
    (low, one) => (low && span(low) <= span(one) ? low : one),
    undefined,
  );
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
  figures: { title: Message; value: string; plus_minus: string; unit: string; formula: string }[];
  findings: Meaning["findings"];
}
const shown = (v: number, pm: number | undefined, say: Say): [string, string] => {
  const places = pm !== undefined && pm > 0 ? Math.max(0, Math.min(6, Math.ceil(1 - Math.log10(pm)))) : 1,
    to = (number: number) => say.number(number.toFixed(places));
  return [to(v).replace("-", "−"), pm === undefined ? "?" : to(pm)];
};
/** The core's answer, with each figure to as many places as its ± deserves. */
export function shownMeaning({ worth, figures, findings }: Meaning, say: Say): ShownMeaning {
  const computed = figures.filter(
    (q): q is Quantity & { value: NonNullable<Quantity["value"]> } => q.value !== null,
  );
  return {
    worth,
    findings,
    figures: computed.map((q) => {
      const top = q.up_to ?? q.value,
        [low, plus_minus] = shown(q.value.value, top.plus_minus, say),
        [high] = shown(top.value, top.plus_minus, say);
      const value = low === high ? low : say("phone-to", { a: low, b: high });
      const unit = unitShown(q.value.unit, say);
      return { title: q.title, value, plus_minus, unit, formula: q.value.formula };
    }),
  };
}

/** When a reading was taken: when the entry says so, and else when it was entered. */
export const readAt = (said: { claimed: number; done?: number }): number =>
  Math.min(said.done ?? said.claimed, said.claimed);
