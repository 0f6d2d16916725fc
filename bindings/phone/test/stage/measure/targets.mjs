// Targets: their size, whether they stand inside the screen, whether they have an edge one can see, and
// whether one lies on another. Everything here runs in the page.
import { ground, ratio, rgb } from "./colour.mjs";
import { named, short, shown } from "./telling.mjs";

export function measuresTargets(seen) {
  const all = document.querySelectorAll("button, a[href], input:not(.sr), textarea, summary");
  const targets = [...all].filter(shown);
  for (const target of targets) {
    measuresTarget(seen, target);
    measuresEdge(seen, target);
  }
  measuresOverlaps(seen, targets);
}

export function measuresTarget({ found, bounds }, target) {
  const box = target.getBoundingClientRect();
  const isTouched = target.matches(bounds.NOT_GLOVE) || target.matches("input, textarea");
  const need = isTouched ? bounds.TOUCH : bounds.GLOVE;
  if (box.width < bounds.TOUCH - 0.1 || box.height < need - 0.1)
    found.add(`target ${box.width.toFixed(0)}x${box.height.toFixed(0)} < ${need}: ${named(target)}`);
  if (box.left < -0.5 || box.right > innerWidth + 0.5) found.add(`off the side: ${named(target)}`);

  const isChosen = target.getAttribute("aria-pressed") === "true" && !target.matches(".hit, .quietly");
  if (isChosen && ["none", "normal"].includes(getComputedStyle(target, "::after").content))
    found.add(`chosen by colour alone: ${named(target)}`);
  if (target.placeholder) {
    const words = rgb(getComputedStyle(target, "::placeholder").color);
    if (ratio(words, ground(target)) < bounds.TEXT)
      found.add(`placeholder under ${bounds.TEXT}:1: ${short(target.placeholder)}`);
  }
  const isTyped = target.matches("input:not([type=file]), textarea");
  if (isTyped && target.scrollWidth > target.clientWidth + 1)
    found.add(`typed words cut: ${short(target.value || target.placeholder)}`);
}

/** A target's edge is its border above or below, or its own ground. */
export function measuresEdge({ found, bounds }, target) {
  const style = getComputedStyle(target);
  const outside = ground(target.parentElement);
  const edges = [];
  for (const side of ["Top", "Bottom"]) {
    const isDrawn = parseFloat(style[`border${side}Width`]) > 0 && style[`border${side}Style`] !== "none";
    if (isDrawn) edges.push(rgb(style[`border${side}Color`]));
  }
  if (rgb(style.backgroundColor)[3] === 255) edges.push(rgb(style.backgroundColor));
  if (edges.length && Math.max(...edges.map((edge) => ratio(edge, outside))) < bounds.SHAPE)
    found.add(`edge under ${bounds.SHAPE}:1: ${named(target)}`);
}

export function measuresOverlaps({ found }, targets) {
  const isRound = (target) => target.matches(".hit");
  const betweenCircles = (p, q) => {
    const centres = Math.hypot(
      p.x + p.width / 2 - q.x - q.width / 2,
      p.y + p.height / 2 - q.y - q.height / 2,
    );
    return p.width / 2 + q.width / 2 - centres;
  };
  const betweenBoxes = (p, q) =>
    Math.min(p.right - q.left, q.right - p.left, p.bottom - q.top, q.bottom - p.top);
  const inFront = (target) => target.closest(".trouble, .update");
  targets.forEach((one, n) => {
    for (const other of targets.slice(n + 1)) {
      if (one.contains(other) || other.contains(one) || inFront(one) !== inFront(other)) continue;
      // What scrolls passes under the foot.
      if (!one.closest(".body") !== !other.closest(".body")) continue;
      const depth = isRound(one) && isRound(other) ? betweenCircles : betweenBoxes;
      const deep = depth(one.getBoundingClientRect(), other.getBoundingClientRect());
      if (deep > 6) found.add(`targets overlap by ${deep.toFixed(0)}px: ${named(one)} and ${named(other)}`);
    }
  });
}
