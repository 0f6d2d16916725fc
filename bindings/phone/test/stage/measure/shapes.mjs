// Shapes of the drawings: each stands out from what it is drawn on. Everything here runs in the page.
import { ground, ratio, rgb } from "./colour.mjs";
import { short, shown } from "./telling.mjs";

export function measuresShapes({ found, bounds }) {
  for (const svg of document.querySelectorAll("svg")) {
    if (!shown(svg)) continue;
    const floor = svg.querySelector(".p-floor");
    const under = floor ? rgb(getComputedStyle(floor).fill) : ground(svg);
    for (const shape of svg.querySelectorAll("path, rect, circle, polygon")) {
      if (shape.matches(bounds.DECORATION) || shape.closest("defs")) continue;
      const style = getComputedStyle(shape);
      const inks = [style.fill, style.stroke]
        .filter((ink) => ink !== "none")
        .map(rgb)
        .filter((ink) => ink[3] > 128);
      const best = Math.max(0, ...inks.map((ink) => ratio(ink, under)));
      if (!inks.length || best >= bounds.SHAPE) continue;
      const what = shape.getAttribute("class") ?? shape.tagName;
      const where = `${svg.getAttribute("class")} (${short(svg.parentElement?.textContent)})`;
      found.add(`shape ${best.toFixed(2)}:1 ${what} in ${where}`);
    }
  }
}
