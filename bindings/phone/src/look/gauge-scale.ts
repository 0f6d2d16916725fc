/**
 * The scale of an instrument with a needle as wide as the reading's uncertainty, and the pressure chart of a
 * proof. Lives here: drawing only. Values, ± and bands come from the core.
 */
import { clamped, drawable, marksOf } from "./axis";

const n = (v: number) => (Math.round(v * 10) / 10).toString();

export interface ScaleState {
  min: number;
  max: number;
  step: number;
  major: number;
  value?: number;
  plus_minus?: number;
}

export function gaugeScale(s: ScaleState): string {
  const marks = marksOf(s.min, s.max, s.step, 64);
  if (marks.length === 0) return "";
  const x = (v: number) => 18 + ((v - s.min) / (s.max - s.min)) * 354;
  const out: string[] = [];
  for (const [i, v] of marks.entries()) {
    const major = i % s.major === 0;
    out.push(`<path class="s-thin" d="M${n(x(v))} ${major ? 22 : 34}V48"/>`);
    if (major)
      out.push(
        `<text class="s-text" x="${n(x(v))}" y="68" text-anchor="${v >= s.max - s.step / 2 ? "end" : "middle"}" ${v >= s.max - s.step / 2 ? 'dx="14"' : ""}>${n(v)}</text>`,
      );
  }
  out.push(`<path class="s-base" d="M18 48H372"/>`);
  if (s.value !== undefined) {
    const v = clamped(s.value, s.min, s.max);
    const w = clamped(((s.plus_minus ?? 0) / (s.max - s.min)) * 354, 2.5, 354);
    out.push(
      `<path class="s-needle" d="M${n(x(v) - w)} 48V26L${n(x(v) - w - 7)} 2H${n(x(v) + w + 7)}L${n(x(v) + w)} 26V48z"/>`,
    );
    if (s.value < s.min || s.value > s.max)
      out.push(`<path class="s-hot" d="M${n(x(v) - 10)} 6l20 20m0 -20l-20 20"/>`);
  }
  return `<svg class="scale" viewBox="0 0 390 72" aria-hidden="true" focusable="false">${out.join("")}</svg>`;
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
  /** Minutes between two numbers under the chart; ten when it is not said. */
  minute_step?: number;
}

export function proofChart(s: ChartState): string {
  const L = 44,
    R = 378,
    T = 12,
    B = 190;
  const x = (m: number) => clamped(L + (m / s.minutes) * (R - L), L, R);
  const y = (v: number) => clamped(B - ((v - s.min) / (s.max - s.min)) * (B - T), T, B);
  const points = drawable(s.points);
  const out: string[] = [];
  if (s.liquid_band) {
    const top = y(s.liquid_band.high),
      h = y(s.liquid_band.low) - top;
    out.push(`<rect class="s-band" x="${L}" y="${n(top)}" width="${R - L}" height="${n(h)}"/>`);
    for (let k = L + 2; k < R - 14; k += 14)
      out.push(
        `<path class="s-bandline" d="M${k} ${n(top + h)}l${n(Math.min(h, 14))} ${n(-Math.min(h, 14))}"/>`,
      );
    out.push(
      `<text class="s-text s-onband" x="${R - 6}" y="${n(top + h / 2 + 6)}" text-anchor="end">${s.liquid_band.word}</text>`,
    );
  }
  for (const v of marksOf(s.min, s.max, s.step))
    out.push(
      `<path class="s-hair" d="M${L} ${n(y(v))}H${R}"/><text class="s-text" x="${L - 8}" y="${n(y(v) + 6)}" text-anchor="end">${n(v)}</text>`,
    );
  for (const m of marksOf(0, s.minutes, s.minute_step ?? 10)) {
    const last = m === s.minutes;
    out.push(
      `<text class="s-text" x="${n(x(m))}" y="212" text-anchor="${last ? "end" : "middle"}">${last ? `${m} ${s.minute_word}` : m}</text>`,
    );
  }
  out.push(`<text class="s-text" x="${L + 10}" y="${T + 26}">${s.unit}</text>`);
  out.push(`<path class="s-base" d="M${L} ${T}V${B}H${R}"/>`);
  out.push(
    `<path class="s-curve" d="${points.map((p, i) => `${i ? "L" : "M"}${n(x(p.minute))} ${n(y(p.value))}`).join("")}"/>`,
  );
  for (const p of points)
    out.push(
      `<path class="s-curve" d="M${n(x(p.minute))} ${n(y(p.value - p.plus_minus))}V${n(y(p.value + p.plus_minus))}"/><circle class="s-dot" cx="${n(x(p.minute))}" cy="${n(y(p.value))}" r="5"/>`,
    );
  return `<svg class="chart" viewBox="0 0 390 218" aria-hidden="true" focusable="false">${out.join("")}</svg>`;
}

/** Full threads engaged, drawn: solid turns are in, hollow ones are not. */
export function threadsDrawing(engaged: number, wanted: number): string {
  const out: string[] = [];
  const of = Math.round(clamped(wanted, 1, 24));
  for (let i = 0; i < of; i++) {
    const k = Math.max(0, Math.min(1, engaged - i)),
      X = 20 + i * (350 / of),
      w = 350 / of - 8;
    out.push(`<path class="s-line" d="M${n(X)} 66L${n(X + 10)} 8H${n(X + w)}L${n(X + w - 10)} 66z"/>`);
    if (k > 0)
      out.push(
        `<path class="${engaged <= 1 ? "s-hotfill" : "s-solid"}" d="M${n(X)} 66L${n(X + 10)} 8H${n(X + 10 + (w - 10) * k)}L${n(X + (w - 10) * k)} 66z"/>`,
      );
  }
  return `<svg class="threads" viewBox="0 0 390 74" aria-hidden="true" focusable="false">${out.join("")}</svg>`;
}
