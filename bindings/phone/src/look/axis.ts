/**
 * What every drawing of the phone stands on: few marks, few points, times near each other, whatever numbers a
 * record holds. Lives here: arithmetic only. The office's and the packet's drawings keep the same rules in
 * `sync-server/src/drawing.rs`.
 *
 * No loop here counts by adding a step to a number: for large numbers that changes nothing and never ends.
 */

/** More marks than this stand on no axis. */
export const MOST_MARKS = 16;
/** More points than this are not told apart on a screen. */
export const MOST_POINTS = 400;
/** More bolts than this no cover has; more are said in words and not drawn. */
export const MOST_BOLTS = 64;
/** Readings more than a month from the middle one come from a clock that was never set, and are not drawn. */
export const DRAWN_AROUND_MINUTES = 31 * 24 * 60;

const FARTHEST = 1e12;

/** The number, or the nearest end; the lower end for what is no number. */
export function clamped(value: number, low: number, high: number): number {
  return Number.isNaN(value) ? low : Math.min(Math.max(value, low), high);
}

/** Marks from `min` to `max` by `step`, both ends among them; nothing where these are no scale. */
export function marksOf(min: number, max: number, step: number, most = MOST_MARKS): number[] {
  const count = Math.round((max - min) / step);
  const near = Math.abs(min) <= FARTHEST && Math.abs(max) <= FARTHEST;
  if (!Number.isFinite(count) || !(step > 0) || count < 1 || count > most || !near) {
    return [];
  }
  return Array.from({ length: count + 1 }, (_, i) => min + i * step);
}

/** The least of 1, 2 or 5 times a power of ten that is no less than `rough`; 1 for what has none. */
export function roundStep(rough: number): number {
  if (!(rough > 0) || !Number.isFinite(rough)) return 1;
  const ten = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((times) => times * ten).find((known) => known >= rough);
  return step !== undefined && step > 0 && Number.isFinite(step) ? step : 1;
}

export interface Dated {
  minute: number;
  value: number;
  plus_minus: number;
}

/** The points that can be drawn: with numbers, near the middle one in time, few, and with their extremes. */
export function drawable<T extends Dated>(points: readonly T[]): T[] {
  const sound = points.filter((p) => Math.abs(p.value) <= FARTHEST && Number.isFinite(p.minute));
  const minutes = sound.map((p) => p.minute).sort((a, b) => a - b);
  const middle = minutes[Math.floor(minutes.length / 2)];
  if (middle === undefined) return [];
  const near = sound.filter((p) => Math.abs(p.minute - middle) <= DRAWN_AROUND_MINUTES);
  if (near.length <= MOST_POINTS) return near;
  const length = Math.ceil(near.length / (MOST_POINTS / 4));
  const kept = new Set<number>();
  for (let from = 0; from < near.length; from += length) {
    const until = Math.min(from + length, near.length);
    let least = from,
      greatest = from;
    for (let at = from; at < until; at++) {
      if (near[at]!.value < near[least]!.value) least = at;
      if (near[at]!.value > near[greatest]!.value) greatest = at;
    }
    for (const at of [from, least, greatest, until - 1]) kept.add(at);
  }
  return [...kept].sort((a, b) => a - b).map((at) => near[at]!);
}

export interface Frame {
  points: Dated[];
  /** The minute of the first point, which is drawn at 0. */
  first: number;
  minutes: number;
  minute_step: number;
  top: number;
}

/**
 * What a chart of points is drawn in: from its first minute on, so many minutes wide and so high, in few and
 * round steps. Ordinary proofs are drawn in tens of minutes and twenties of pressure.
 */
export function frameOf(points: readonly Dated[]): Frame {
  const drawn = drawable(points);
  const minutes = drawn.map((p) => p.minute);
  const first = minutes.length > 0 ? Math.min(...minutes) : 0;
  const wide = minutes.length > 0 ? Math.max(...minutes) - first : 0;
  const minute_step = Math.max(10, roundStep(wide / 12));
  const high = Math.max(0, ...drawn.map((p) => p.value)) * 1.3;
  const value_step = Math.max(20, roundStep(high / 100));
  return {
    points: drawn.map((p) => ({ ...p, minute: p.minute - first })),
    first,
    minute_step,
    minutes: Math.max(1, Math.ceil(wide / minute_step)) * minute_step,
    top: Math.max(1, Math.ceil(high / value_step)) * value_step,
  };
}
