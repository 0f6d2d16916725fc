// Words: their contrast and size, whether one is cut off, and whether one stands over another. Everything
// here runs in the page.
import { ground, ratio, rgb } from "./colour.mjs";
import { short, shown } from "./telling.mjs";

export function measuresWords(seen) {
  const lines = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const element = node.parentElement;
    const words = short(node.textContent);
    if (!words || !shown(element) || element.matches("textarea, script, style, option")) continue;
    measuresColour(seen, element, words);
    const size = sizeOf(element);
    if (size < seen.bounds.SMALLEST) seen.found.add(`small text ${size.toFixed(1)}px "${words}"`);
    const range = document.createRange();
    range.selectNodeContents(node);
    for (const box of range.getClientRects())
      if (box.width >= 1) measuresLine(seen, { element, words, box }, lines);
  }
  measuresWordsOverWords(seen, lines);
}

export function measuresColour(seen, element, words) {
  const { found, bounds } = seen;
  const style = getComputedStyle(element);
  const svg = element.closest("svg");
  const hasHalo = svg && style.stroke !== "none" && parseFloat(style.strokeWidth) > 0;
  const colour = rgb(svg ? style.fill : style.color);
  const contrast = ratio(colour, hasHalo ? rgb(style.stroke) : ground(element));
  seen.worst = Math.min(seen.worst, contrast);
  if (contrast < bounds.TEXT) found.add(`text ${contrast.toFixed(2)}:1 "${words}"`);
  // A key that is held down fills from the side, and its words stand on that too.
  const fill = element.closest(".hold")?.querySelector("i");
  if (!fill || element.closest(".armed")) return;
  if (ratio(colour, rgb(getComputedStyle(fill).backgroundColor)) < bounds.TEXT)
    found.add(`text under ${bounds.TEXT}:1 while it fills "${words}"`);
}

/** The size of a text on the screen: in a drawing it goes with the drawing's own. */
export function sizeOf(element) {
  const svg = element.closest("svg");
  const scale = svg ? svg.getBoundingClientRect().width / svg.viewBox.baseVal.width : 1;
  return parseFloat(getComputedStyle(element).fontSize) * scale;
}

/** Whether a line of words reaches over a box. A line's box is taller than its letters. */
export function overflows(line, box) {
  const slack = line.height * 0.16;
  return (
    line.right > box.right + 1 ||
    line.left < box.left - 1 ||
    line.bottom - slack > box.bottom + 1 ||
    line.top + slack < box.top - 1
  );
}

/** One line of a text, against the screen and everything it stands in; notes it in `lines`. */
export function measuresLine({ found, bounds }, { element, words, box }, lines) {
  const body = document.querySelector(".body");
  const svg = element.closest("svg");
  if (box.right > innerWidth + 0.5 || box.left < -0.5) found.add(`cut off at the side: "${words}"`);
  for (let e = element; e && e !== body && !e.matches(".screen, body"); e = e.parentElement) {
    const around = e.getBoundingClientRect();
    const hides = getComputedStyle(e).overflowX !== "visible" || e.matches("svg");
    if (hides && overflows(box, around)) found.add(`cut: "${words}"`);
    const isFrame = e.matches("button, .who, section, .caution, .hold, .item, li, .key");
    if (isFrame && !svg && overflows(box, around)) found.add(`spills: "${words}"`);
  }
  if (element.closest(bounds.OVER)) return;
  lines.push({
    words,
    element,
    text: element.closest("text"),
    left: box.left,
    top: box.top + box.height * 0.18,
    right: box.right,
    bottom: box.bottom - box.height * 0.18,
    inFront: element.closest(".trouble, .update"),
  });
}

export function measuresWordsOverWords({ found }, lines) {
  lines.forEach((one, n) => {
    for (const other of lines.slice(n + 1)) {
      const isOneText = one.text && one.text === other.text;
      const scrollsUnder = !one.element.closest(".body") !== !other.element.closest(".body");
      if (isOneText || one.inFront !== other.inFront || scrollsUnder) continue;
      const across = Math.min(one.right, other.right) - Math.max(one.left, other.left);
      const down = Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top);
      if (across > 2 && down > 2) found.add(`words over words: "${one.words}" and "${other.words}"`);
    }
  });
}
