// What is measured of one screen, inside the page: every target, every word, every shape, and the frame they
// stand in. Returns what falls short, in words. The functions of the modules beside this one are sent into
// the page as they are written, all of them together.
import { BOUNDS } from "./bounds.mjs";
import { ground, light, ratio, rgb } from "./colour.mjs";
import { measuresFrame } from "./frame.mjs";
import { measuresShapes } from "./shapes.mjs";
import { measuresEdge, measuresOverlaps, measuresTarget, measuresTargets } from "./targets.mjs";
import { named, short, shown } from "./telling.mjs";
import {
  measuresColour,
  measuresLine,
  measuresWords,
  measuresWordsOverWords,
  overflows,
  sizeOf,
} from "./words.mjs";

const IN_PAGE = [
  ground,
  light,
  ratio,
  rgb,
  named,
  short,
  shown,
  measuresEdge,
  measuresOverlaps,
  measuresTarget,
  measuresTargets,
  measuresColour,
  measuresLine,
  measuresWords,
  measuresWordsOverWords,
  overflows,
  sizeOf,
  measuresShapes,
  measuresFrame,
  measuresScreen,
];
const CODE = `(({ bounds, car }) => {\n${IN_PAGE.join("\n")}\nreturn measuresScreen(bounds, car);\n})`;

/** Measures the page's screen. `car` is what the screen's head must say of the car it is bound to. */
export function measure(page, car = null) {
  return page.evaluate(`${CODE}(${JSON.stringify({ bounds: BOUNDS, car })})`);
}

/**
 * Runs in the page. Returns what falls short, the lowest contrast of any word, and by how much the screen
 * scrolls.
 */
function measuresScreen(bounds, car) {
  const found = new Set();
  const seen = { found, worst: 99, bounds };
  measuresTargets(seen);
  measuresWords(seen);
  measuresShapes(seen);
  measuresFrame(seen, car);
  const body = document.querySelector(".body");
  const scrolls = body ? Math.max(0, body.scrollHeight - body.clientHeight) : 0;
  return { found: [...found], worst: seen.worst, scrolls };
}
