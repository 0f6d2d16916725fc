/**
 * The scale of an instrument with a needle as wide as the reading's uncertainty, and the pressure chart of a
 * proof. Lives here: drawing only. Values, ± and bands come from the core.
 */
import { clamped, drawable, marksOf } from "./axis";

/** A number in a drawing: a tenth of a unit is finer than any screen. */
const n = (v: number) => (Math.round(v * 10) / 10).toString();

const path = (look: string, d: string) => `<path class="${look}" d="${d}"/>`;

type Anchor = "start" | "middle" | "end";
const text = (at: { x: number; y: number; anchor?: Anchor; more?: string; look?: string }, word: string) => {
  const anchor = at.anchor ? ` text-anchor="${at.anchor}"${at.more ?? ""}` : "";
  return `<text class="${at.look ?? "s-text"}" x="${n(at.x)}" y="${n(at.y)}"${anchor}>${word}</text>`;
};

/** A whole drawing. It repeats what stands beside it in words, so nothing reads it aloud. */
const picture = (name: string, width: number, height: number, drawn: string[]) =>
  `<svg class="${name}" viewBox="0 0 ${width} ${height}" aria-hidden="true" focusable="false">` +
  `${drawn.join("")}</svg>`;

export interface ScaleState {
  min: number;
  max: number;
  step: number;
  major: number;
  value?: number;
  plus_minus?: number;
  /** A decimal as the language writes it. */
  shown?: (decimal: string) => string;
}
const asItIs = (decimal: string) => decimal;

export function gaugeScale(s: ScaleState): string {
  const marks = marksOf(s.min, s.max, s.step, 64);
  if (marks.length === 0) return "";
  const x = (v: number) => 18 + ((v - s.min) / (s.max - s.min)) * 354;
  const out: string[] = [];
  for (const [i, v] of marks.entries()) {
    const major = i % s.major === 0;
    out.push(path("s-thin", `M${n(x(v))} ${major ? 22 : 34}V48`));
    if (!major) continue;
    const last = v >= s.max - s.step / 2;
    const beside = last ? { anchor: "end" as const, more: ' dx="14"' } : { anchor: "middle" as const };
    out.push(text({ x: x(v), y: 68, ...beside }, (s.shown ?? asItIs)(n(v))));
  }
  out.push(path("s-base", "M18 48H372"));
  if (s.value !== undefined) {
    const v = clamped(s.value, s.min, s.max);
    const w = clamped(((s.plus_minus ?? 0) / (s.max - s.min)) * 354, 2.5, 354);
    const [left, right] = [x(v) - w, x(v) + w];
    out.push(path("s-needle", `M${n(left)} 48V26L${n(left - 7)} 2H${n(right + 7)}L${n(right)} 26V48z`));
    if (s.value < s.min || s.value > s.max) out.push(path("s-hot", `M${n(x(v) - 10)} 6l20 20m0 -20l-20 20`));
  }
  return picture("scale", 390, 72, out);
}

export interface ChartState {
  points: { minute: number; value: number; plus_minus: number }[];
  /** Where it would stand if liquid were left, as the core computed it. */
  liquid_band?: { low: number; high: number; word: string };
  minutes: number;
  min: number;
  max: number;
  step: number;
  unit: string;
  minute_word: string;
  shown?: (decimal: string) => string;
  /** Minutes between two numbers under the chart; ten when it is not said. */
  minute_step?: number;
}

/** Where the chart stands in its drawing. */
const [LEFT, RIGHT, TOP, BOTTOM] = [44, 378, 12, 190];

/** A hatched band with its word inside. */
function band(high: number, low: number, word: string): string[] {
  const h = low - high;
  const hatch: string[] = [];
  for (let k = LEFT + 2; k < RIGHT - 14; k += 14) {
    const up = Math.min(h, 14);
    hatch.push(path("s-bandline", `M${k} ${n(low)}l${n(up)} ${n(-up)}`));
  }
  return [
    `<rect class="s-band" x="${LEFT}" y="${n(high)}" width="${RIGHT - LEFT}" height="${n(h)}"/>`,
    ...hatch,
    text({ x: RIGHT - 6, y: high + h / 2 + 6, anchor: "end", look: "s-text s-onband" }, word),
  ];
}

export function proofChart(s: ChartState): string {
  const x = (m: number) => clamped(LEFT + (m / s.minutes) * (RIGHT - LEFT), LEFT, RIGHT);
  const y = (v: number) => clamped(BOTTOM - ((v - s.min) / (s.max - s.min)) * (BOTTOM - TOP), TOP, BOTTOM);
  const points = drawable(s.points);
  const out: string[] = [];
  if (s.liquid_band) out.push(...band(y(s.liquid_band.high), y(s.liquid_band.low), s.liquid_band.word));
  for (const v of marksOf(s.min, s.max, s.step)) {
    out.push(path("s-hair", `M${LEFT} ${n(y(v))}H${RIGHT}`));
    out.push(text({ x: LEFT - 8, y: y(v) + 6, anchor: "end" }, (s.shown ?? asItIs)(n(v))));
  }
  for (const m of marksOf(0, s.minutes, s.minute_step ?? 10)) {
    const last = m === s.minutes;
    const anchor = last ? "end" : "middle";
    out.push(text({ x: x(m), y: 212, anchor }, last ? `${m} ${s.minute_word}` : `${m}`));
  }
  out.push(text({ x: LEFT + 10, y: TOP + 26 }, s.unit));
  out.push(path("s-base", `M${LEFT} ${TOP}V${BOTTOM}H${RIGHT}`));
  const curve = points.map((p, i) => `${i ? "L" : "M"}${n(x(p.minute))} ${n(y(p.value))}`);
  out.push(path("s-curve", curve.join("")));
  for (const p of points) {
    const [at, low, high] = [n(x(p.minute)), n(y(p.value - p.plus_minus)), n(y(p.value + p.plus_minus))];
    out.push(path("s-curve", `M${at} ${low}V${high}`));
    out.push(`<circle class="s-dot" cx="${at}" cy="${n(y(p.value))}" r="5"/>`);
  }
  return picture("chart", 390, 218, out);
}

/** Full threads engaged, drawn: solid turns are in, hollow ones are not. */
export function threadsDrawing(engaged: number, wanted: number): string {
  const out: string[] = [];
  const of = Math.round(clamped(wanted, 1, 24));
  const solid = engaged <= 1 ? "s-hotfill" : "s-solid";
  for (let i = 0; i < of; i++) {
    const k = Math.max(0, Math.min(1, engaged - i));
    const left = 20 + i * (350 / of);
    const w = 350 / of - 8;
    const turn = (right: number) =>
      `M${n(left)} 66L${n(left + 10)} 8H${n(left + 10 + right)}L${n(left + right)} 66z`;
    out.push(path("s-line", turn(w - 10)));
    if (k > 0) out.push(path(solid, turn((w - 10) * k)));
  }
  return picture("threads", 390, 74, out);
}
