/**
 * The housing plan: a to-scale drawing of the fittings under a car's protective housing, as a pure function of one state.
 * Lives here: geometry, glyphs, where the targets are. Not here: words (passed in), product logic (none), the DOM.
 * Units are inches at the car; the viewBox is in inches, so one unit on screen is one inch in the housing.
 */
import { MOST_BOLTS } from "./axis";

export type FittingId = string;
export type ValveState = "open" | "shut" | "unknown";
export type ClosureState = "open" | "hand_tight" | "tool_tight" | "unknown";
export type ListenState = "quiet" | "hiss" | "not_done";

export interface PlanFitting {
  id: FittingId;
  kind: "valve" | "small_valve" | "cap" | "relief";
  /** Centre, inches from the middle of the housing: along the car (+ toward the B end), across it (+ toward the viewer). */
  along_in: number;
  across_in: number;
  /** Which way the outlet points, degrees, 0 = toward the B end, 90 = toward the viewer. */
  outlet_deg: number;
  valve?: ValveState;
  closure?: ClosureState;
  listen?: ListenState;
  line_connected?: boolean;
  disagreement?: boolean;
  /** Where the label stands, inches from the fitting's centre; stacked = valve and closure on two lines. */
  label?: { dx: number; dy: number; anchor: "start" | "middle" | "end"; stacked?: boolean };
  outside?: boolean;
}
export interface HousingPlanState {
  inside_diameter_in: number;
  /** True when somebody measured this car; false = typical layout. */
  measured: boolean;
  /** True when the viewer stands on the other side of the car. */
  turned: boolean;
  cover: { closed: boolean; pinned: boolean; bolts_in: number; bolts_required: number };
  fittings: PlanFitting[];
  selected?: FittingId;
  next?: FittingId;
}
/** Every word the drawing shows. */
export interface PlanWords {
  fitting: Record<FittingId, string>;
  valve: Record<ValveState, string>;
  closure: Record<ClosureState, string>;
  a_end: string;
  b_end: string;
  foot: string;
  typical: string;
  measured: string;
  hiss: string;
  line: string;
  differ: string;
  cover_open: string;
  cover_shut: string;
  pin_out: string;
  /** "{in} of {required} bolts" already filled in by the caller. */
  bolts: string;
}
export interface PlanTarget {
  id: FittingId;
  x_in: number;
  y_in: number;
  r_in: number;
}
export interface HousingPlan {
  view: { x: number; y: number; w: number; h: number };
  svg: string;
  targets: PlanTarget[];
}

const n = (v: number) => (Math.round(v * 100) / 100).toString();
const esc = (s: string) =>
  s.replace(/[&<>"]/g, (c) => ({ "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" })[c]!);
const rad = (d: number) => (d * Math.PI) / 180;

const SIZE = {
  valve: { body: 2.9, spout: 2.6, half: 1.35, head: 1.6 },
  small_valve: { body: 1.7, spout: 1.5, half: 0.75, head: 1.0 },
  cap: { body: 1.8, spout: 0, half: 0, head: 0 },
  relief: { body: 2.6, spout: 0, half: 0, head: 0 },
} as const;

function valveGlyph(f: PlanFitting): string {
  const s = SIZE[f.kind];
  const tip = s.body + s.spout;
  const out: string[] = [];
  // outlet pipe
  out.push(
    `<path class="p-line" d="M${n(s.body - 0.3)} ${n(-s.half)}H${n(tip)}M${n(s.body - 0.3)} ${n(s.half)}H${n(tip)}"/>`,
  );
  if (f.line_connected) {
    // a hose leaves through the housing wall
    out.push(`<path class="p-hose" d="M${n(tip)} 0H30"/><path class="p-hose-core" d="M${n(tip)} 0H30"/>`);
    out.push(
      `<rect class="p-solid" x="${n(tip - 0.1)}" y="${n(-s.half - 0.45)}" width="1.2" height="${n(2 * s.half + 0.9)}"/>`,
    );
  } else if (f.closure === "tool_tight") {
    out.push(
      `<rect class="p-solid" x="${n(tip - 1.1)}" y="${n(-s.half)}" width="1.2" height="${n(2 * s.half)}"/>`,
    );
    out.push(
      `<rect class="p-solid" x="${n(tip)}" y="${n(-s.half - 0.5)}" width="${n(s.head)}" height="${n(2 * s.half + 1)}" rx="0.15"/>`,
    );
  } else if (f.closure === "hand_tight") {
    const gap = 0.75;
    out.push(
      `<path class="p-thin" d="M${n(tip + gap * 0.33)} ${n(-s.half + 0.25)}v${n(2 * s.half - 0.5)}M${n(tip + gap * 0.75)} ${n(-s.half + 0.25)}v${n(2 * s.half - 0.5)}"/>`,
    );
    out.push(
      `<rect class="p-hollow-hot" x="${n(tip + gap)}" y="${n(-s.half - 0.5)}" width="${n(s.head)}" height="${n(2 * s.half + 1)}" rx="0.15"/>`,
    );
    out.push(
      `<path class="p-hot-fill" d="M${n(tip + gap)} 0h${n(s.head)}v${n(s.half + 0.5)}h${n(-s.head)}z"/>`,
    );
  } else if (f.closure === "open") {
    out.push(
      `<path class="p-hot" d="M${n(tip)} ${n(-s.half)}l0.9 ${n(-0.9)}M${n(tip)} ${n(s.half)}l0.9 0.9"/>`,
    );
  } else {
    out.push(
      `<rect class="p-unknown" x="${n(tip)}" y="${n(-s.half - 0.4)}" width="${n(s.head)}" height="${n(2 * s.half + 0.8)}"/>`,
    );
  }
  // body and handle: across the outlet = shut, along it = open
  const bar = s.body * 1.28;
  const bw = s.body * 0.36;
  if (f.valve === "shut") {
    out.push(`<circle class="p-solid" r="${n(s.body)}"/>`);
    out.push(
      `<rect class="p-bar-on-solid" x="${n(-bw / 2)}" y="${n(-bar)}" width="${n(bw)}" height="${n(2 * bar)}" rx="0.3"/>`,
    );
  } else if (f.valve === "open") {
    out.push(`<circle class="p-hollow-hot" r="${n(s.body)}"/>`);
    out.push(
      `<rect class="p-bar-hot" x="${n(-bar)}" y="${n(-bw / 2)}" width="${n(2 * bar)}" height="${n(bw)}" rx="0.3"/>`,
    );
  } else {
    out.push(`<circle class="p-unknown" r="${n(s.body)}"/>`);
  }
  return out.join("");
}

function capGlyph(f: PlanFitting): string {
  const r = SIZE[f.kind].body;
  if (f.kind === "relief") {
    const spring = `<circle class="p-thin" r="${n(r * 0.62)}"/><path class="p-thin" d="M${n(-r * 0.62)} 0H${n(r * 0.62)}M0 ${n(-r * 0.62)}V${n(r * 0.62)}"/>`;
    return `<circle class="p-plain" r="${n(r)}"/>${spring}`;
  }
  const hex = (k: number) =>
    Array.from(
      { length: 6 },
      (_, i) => `${n(k * Math.cos(rad(60 * i)))},${n(k * Math.sin(rad(60 * i)))}`,
    ).join(" ");
  if (f.closure === "tool_tight")
    return `<polygon class="p-solid" points="${hex(r)}"/><circle class="p-on-solid" r="${n(r * 0.36)}"/>`;
  if (f.closure === "hand_tight")
    return `<polygon class="p-hollow-hot" points="${hex(r)}"/><path class="p-hot-fill" d="M${n(-r)} 0H${n(r)}L${n(r / 2)} ${n(r * 0.866)}H${n(-r / 2)}z"/>`;
  if (f.closure === "open")
    return `<circle class="p-hollow-hot" r="${n(r)}"/><circle class="p-hot" r="${n(r * 0.5)}"/>`;
  return `<polygon class="p-unknown" points="${hex(r)}"/>`;
}

function hissGlyph(): string {
  return `<path class="p-hot" d="M-1.1 -1.6l0.7 -1.5l0.8 1l0.8 -1.7M-2.2 -0.7l-1.2 -1.2l0.2 1.6l-1.7 0M2.2 -0.7l1 -1.3l0.2 1.5l1.6 -0.4"/>`;
}

export function housingPlan(state: HousingPlanState, words: PlanWords): HousingPlan {
  const R = state.inside_diameter_in / 2;
  const wall = 1.1;
  const flip = state.turned ? -1 : 1;
  const pos = (f: PlanFitting) => ({
    x: flip * f.along_in,
    y: flip * f.across_in,
    deg: f.outlet_deg + (state.turned ? 180 : 0),
  });
  const half = R + wall + 2.2;
  const view = { x: -half, y: -half + 0.9, w: 2 * half, h: 2 * half - 0.4 };
  const out: string[] = [];

  // the tank shell runs along the car, behind the housing
  out.push(
    `<path class="p-hair" d="M${n(-half)} ${n(-R * 0.97)}H${n(half)}M${n(-half)} ${n(R * 0.97)}H${n(half)}"/>`,
  );
  // wall, to scale
  out.push(
    `<circle class="p-wall" r="${n(R + wall / 2)}" stroke-width="${n(wall)}"/><circle class="p-floor" r="${n(R)}"/>`,
  );
  out.push(`<circle class="p-edge" r="${n(R)}"/><circle class="p-edge" r="${n(R + wall)}"/>`);
  // hinge at the far side, pin lug near the viewer
  out.push(`<path class="p-plain" d="M-4.4 ${n(-R - wall)}v-1.5h2.6v1.5M1.8 ${n(-R - wall)}v-1.5h2.6v1.5"/>`);
  out.push(`<path class="p-thin" d="M-5.2 ${n(-R - wall - 0.8)}H5.2"/>`);
  // cover bolts: solid in place, hollow and larger when not
  const b = state.cover.bolts_required <= MOST_BOLTS ? state.cover.bolts_required : 0;
  for (let i = 0; i < b; i++) {
    const a = rad(90 + (360 / b) * (i + 0.5));
    const x = (R + wall / 2) * Math.cos(a),
      y = (R + wall / 2) * Math.sin(a);
    out.push(
      i < state.cover.bolts_in
        ? `<circle class="p-solid" cx="${n(x)}" cy="${n(y)}" r="0.8"/>`
        : `<circle class="p-hollow-hot" cx="${n(x)}" cy="${n(y)}" r="1"/>`,
    );
  }
  // pin lug
  out.push(`<rect class="p-plain" x="-1.7" y="${n(R + wall - 0.1)}" width="3.4" height="1.9"/>`);
  out.push(
    state.cover.pinned
      ? `<path class="p-pin" d="M-3 ${n(R + wall + 0.9)}H3"/>`
      : `<circle class="p-hollow-hot" cx="0" cy="${n(R + wall + 0.9)}" r="0.62"/>`,
  );

  const targets: PlanTarget[] = [];
  for (const f of state.fittings) {
    const p = pos(f);
    const s = SIZE[f.kind];
    const g =
      f.kind === "cap" || f.kind === "relief"
        ? capGlyph(f)
        : `<g transform="rotate(${n(p.deg)})">${valveGlyph(f)}</g>`;
    const tipX = p.x + Math.cos(rad(p.deg)) * (s.body + s.spout) * 0.5;
    const tipY = p.y + Math.sin(rad(p.deg)) * (s.body + s.spout) * 0.5;
    const valved = f.kind === "valve" || f.kind === "small_valve";
    const cx = valved ? tipX * 0.6 + p.x * 0.4 : p.x,
      cy = valved ? tipY * 0.6 + p.y * 0.4 : p.y;
    if (state.selected === f.id) {
      const back = s.body + 1,
        front = valved ? s.body + s.spout + s.head + 1.1 : back,
        side = valved ? s.body * 1.28 + 0.5 : s.body + 0.6,
        c = valved ? 1.4 : 1;
      const corner = (x: number, y: number) =>
        `M${n(x)} ${n(y - Math.sign(y) * c)}V${n(y)}H${n(x - Math.sign(x) * c)}`;
      out.push(
        `<g transform="translate(${n(p.x)} ${n(p.y)}) rotate(${n(p.deg)})"><path class="p-select" d="${corner(-back, -side)}${corner(front, -side)}${corner(front, side)}${corner(-back, side)}"/></g>`,
      );
    }
    out.push(`<g transform="translate(${n(p.x)} ${n(p.y)})">${g}`);
    if (f.listen === "hiss") out.push(hissGlyph());
    out.push(`</g>`);
    // label: the name, then valve and closure, each of its own weight
    const l = f.label ?? { dx: 0, dy: s.body + 2.2, anchor: "middle" as const };
    const lx = p.x + flip * l.dx,
      ly = p.y + l.dy;
    const anchor =
      state.turned && l.anchor !== "middle" ? (l.anchor === "start" ? "end" : "start") : l.anchor;
    const bits: { word: string; hot: boolean }[] = [];
    if (f.disagreement) bits.push({ word: words.differ, hot: true });
    else if (f.listen === "hiss") bits.push({ word: words.hiss, hot: true });
    else {
      if (f.valve !== undefined) bits.push({ word: words.valve[f.valve], hot: f.valve === "open" });
      if (f.line_connected) bits.push({ word: words.line, hot: false });
      else if (f.closure !== undefined)
        bits.push({
          word: words.closure[f.closure],
          hot: f.closure === "open" || f.closure === "hand_tight",
        });
    }
    const put = (x: number, y: number, body: string) =>
      `<text x="${n(x)}" y="${n(y)}" text-anchor="${anchor}">${body}</text>`;
    const span = (b: { word: string; hot: boolean }) =>
      `<tspan class="${b.hot ? "p-state-hot" : "p-state"}">${esc(b.word)}</tspan>`;
    out.push(put(lx, ly, `<tspan class="p-name">${esc(words.fitting[f.id] ?? f.id)}</tspan>`));
    if (l.stacked) bits.forEach((b, i) => out.push(put(lx, ly + 1.85 * (i + 1), span(b))));
    else if (bits.length)
      out.push(put(lx, ly + 1.85, bits.map(span).join('<tspan class="p-state"> · </tspan>')));
    targets.push({ id: f.id, x_in: cx, y_in: cy, r_in: f.kind === "valve" ? 3.9 : 2.65 });
    if (state.next === f.id && !f.outside) {
      // the set-hand on the rim, at the fitting's bearing
      const a = Math.atan2(p.y, p.x);
      out.push(
        `<g transform="rotate(${n((a * 180) / Math.PI)}) translate(${n(R + wall + 2.1)} 0)"><path class="p-needle" d="M0 -1.5V1.5L-3.6 0z"/></g>`,
      );
    }
  }
  // ends of the car, scale, cover
  const aEnd = state.turned ? words.b_end : words.a_end,
    bEnd = state.turned ? words.a_end : words.b_end;
  const bottom = view.y + view.h - 0.7;
  const left = -half + 0.9,
    right = half - 0.9;
  out.push(
    `<path class="p-arrow" d="M${n(left)} ${n(view.y + 1.6)}l1.5 -0.9v1.8z"/><text class="p-end" x="${n(left + 2)}" y="${n(view.y + 2.2)}">${esc(aEnd)}</text>`,
  );
  out.push(
    `<path class="p-arrow" d="M${n(right)} ${n(bottom - 2.9)}l-1.5 -0.9v1.8z"/><text class="p-end" x="${n(right - 2)}" y="${n(bottom - 2.3)}" text-anchor="end">${esc(bEnd)}</text>`,
  );
  out.push(
    `<path class="p-thin" d="M${n(left)} ${n(bottom - 4.1)}v1.2h12v-1.2"/><text class="p-small" x="${n(left)}" y="${n(bottom - 0.95)}">${esc(words.foot)}</text>`,
  );
  const c = state.cover;
  const whole = c.closed && c.pinned && c.bolts_in >= c.bolts_required;
  const said = !c.closed
    ? words.cover_open
    : !c.pinned
      ? words.pin_out
      : c.bolts_in < c.bolts_required
        ? words.bolts
        : words.cover_shut;
  out.push(
    `<text class="p-cover ${whole ? "p-state" : "p-state-hot"}" x="4.1" y="${n(bottom)}">${esc(said)}</text>`,
  );
  out.push(
    `<text class="p-small" x="-4.1" y="${n(bottom)}" text-anchor="end">${esc(state.measured ? words.measured : words.typical)}</text>`,
  );
  if (state.selected === "cover")
    out.push(`<rect class="p-select" x="-2.9" y="${n(R + wall - 0.9)}" width="5.8" height="2.9"/>`);
  targets.push({ id: "cover", x_in: 0, y_in: R + wall + 0.4, r_in: 2.65 });
  const svg = `<svg class="plan" viewBox="${n(view.x)} ${n(view.y)} ${n(view.w)} ${n(view.h)}" aria-hidden="true" focusable="false">${out.join("")}</svg>`;
  return { view, svg, targets };
}
