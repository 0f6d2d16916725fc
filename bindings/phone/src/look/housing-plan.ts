/**
 * The housing plan: the core's drawing of the fittings under a car's housing as one SVG, with what is chosen
 * and what is next marked on it. Lives here: the strokes' elements and the places of words. Not here: places
 * and states of fittings (the core's `view/plan.rs`), colours (`plan.css`), the DOM. Lengths are inches at
 * the car, so that one unit of the drawing is one inch.
 */
import type { HousingPlan, Message, PlanShape, PlanTarget, PlanText } from "../core/shapes";

/** What a person is at. */
export interface AtHand {
  selected: string;
  next: string;
}

const MARKS: Record<string, string> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" };
const escaped = (text: string) => text.replace(/[&<>"]/g, (mark) => MARKS[mark]!);
const stroke = ({ pen, path }: PlanShape) => `<path class="p-${pen}" d="${path}"/>`;
const strokes = (shapes: PlanShape[]) => shapes.map(stroke).join("");
/** How far one line of words is below another, in inches. */
const LINE = 1.85;

/** A line of words; beside the housing, where there is little room, the rest of a name stands below. */
function words({ at: [x, y], anchor, words: all, narrow }: PlanText, say: (says: Message) => string): string {
  const line = (down: number, body: string) =>
    `<text x="${x}" y="${y + LINE * down}" text-anchor="${anchor}">${body}</text>`;
  const span = (text: string, pen: string) => `<tspan class="p-${pen}">${escaped(text)}</tspan>`;
  const spoken = all.map(({ says, pen }) => ({ text: say(says), pen }));
  if (!narrow) return line(0, spoken.map(({ text, pen }) => span(text, pen)).join(span(" · ", "state")));
  return spoken
    .flatMap(({ text, pen }) => {
      const [first = "", ...rest] = text.split(" ");
      return [first, rest.join(" ")].filter(Boolean).map((part, down) => line(down, span(part, pen)));
    })
    .join("");
}

/** The drawing. Its words come from the catalogues; whatever they are, they make no marks of their own. */
export function housingPlan(plan: HousingPlan, say: (says: Message) => string, at: AtHand): string {
  const fittings = plan.fittings.map((one) => {
    const place = `translate(${one.at.join(" ")}) rotate(${one.turned})`;
    const chosen = at.selected === one.fitting ? stroke({ pen: "select", path: one.chosen }) : "";
    const next = at.next === one.fitting && one.next ? stroke({ pen: "needle", path: one.next }) : "";
    const labels = one.words.map((text) => words(text, say)).join("");
    return `<g transform="${place}">${chosen}${strokes(one.shapes)}</g>${labels}${next}`;
  });
  const cover = at.selected === "cover" ? stroke({ pen: "select", path: plan.cover.chosen }) : "";
  const edge = plan.words.map((text) => words(text, say)).join("");
  const inside = `${strokes(plan.ground)}${fittings.join("")}<g class="p-beside">${edge}</g>${cover}`;
  const view = plan.bounds.join(" ");
  return `<svg class="plan" viewBox="${view}" aria-hidden="true" focusable="false">${inside}</svg>`;
}

/** Where each thing on the plan is touched. */
export const targetsOf = (plan: HousingPlan): (PlanTarget & { id: string })[] => [
  ...plan.fittings.map(({ fitting, target }) => ({ id: fitting, ...target })),
  { id: "cover", ...plan.cover },
];
