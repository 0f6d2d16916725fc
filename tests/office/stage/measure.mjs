// What is measured of a page of the office: every text on its ground, every target, and the page's width. All
// of it runs in the page.

/** The contrast that every text has. */
const LEAST_CONTRAST = 7;
/** Pixels of a target's height and width. */
const LEAST_HEIGHT = 40;
const LEAST_WIDTH = 24;

const IN_PAGE = [parse, light, ground, contrastOf, measuresTexts, measuresTargets];
const BOUNDS = { LEAST_CONTRAST, LEAST_HEIGHT, LEAST_WIDTH };

/**
 * Measures a page: how many texts there are, their lowest contrast, which are faint, which targets are small,
 * how much is too wide.
 */
export function measure(page) {
  return page.evaluate(`((bounds) => {
    ${IN_PAGE.join("\n")}
    const wide = document.scrollingElement.scrollWidth - innerWidth;
    return { ...measuresTexts(bounds), small: measuresTargets(bounds), wide };
  })(${JSON.stringify(BOUNDS)})`);
}

/** A colour of a style sheet; nothing where the text is no colour. */
function parse(text) {
  const match = /rgba?\(([^)]+)\)/.exec(text);
  if (!match) return null;
  const [r, g, b, a = 1] = match[1].split(/[ ,/]+/).map(Number);
  return { r, g, b, a };
}

/** The relative luminance of a colour (WCAG 2). */
function light({ r, g, b }) {
  const linear = (part) =>
    part / 255 <= 0.04045 ? part / 255 / 12.92 : ((part / 255 + 0.055) / 1.055) ** 2.4;
  return 0.2126 * linear(r) + 0.7152 * linear(g) + 0.0722 * linear(b);
}

/** The colour an element stands on. */
function ground(element) {
  for (let e = element; e; e = e.parentElement) {
    const colour = parse(getComputedStyle(e).backgroundColor);
    if (colour && colour.a === 1) return colour;
  }
  return { r: 255, g: 255, b: 255 };
}

/** The contrast of an element's text with what it stands on. */
function contrastOf(element) {
  const svg = element.closest("svg");
  const style = getComputedStyle(element);
  const lights = [parse(svg ? style.fill : style.color), ground(svg ?? element)].map(light);
  const [darker, lighter] = lights.sort((a, b) => a - b);
  return (lighter + 0.05) / (darker + 0.05);
}

function measuresTexts({ LEAST_CONTRAST }) {
  const faint = [];
  let texts = 0;
  let lowest = 21;
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) {
    const words = walker.currentNode.textContent.trim();
    const element = walker.currentNode.parentElement;
    const isSeen = element.checkVisibility({ visibilityProperty: true });
    if (!words || !isSeen || element.closest(".skip, .sr, script")) continue;
    const contrast = contrastOf(element);
    texts += 1;
    lowest = Math.min(lowest, contrast);
    if (contrast < LEAST_CONTRAST) faint.push(`${contrast.toFixed(2)} ${words.slice(0, 40)}`);
  }
  return { texts, lowest, faint };
}

function measuresTargets({ LEAST_HEIGHT, LEAST_WIDTH }) {
  const small = [];
  const targets = "button, .key, .go, nav a, a.num, input:not([type=hidden]), select, summary";
  for (const target of document.querySelectorAll(targets)) {
    // Who taps a label taps its box.
    const isBox = target.matches("[type=radio], [type=checkbox]");
    const box = ((isBox && target.closest("label")) || target).getBoundingClientRect();
    if (!target.checkVisibility() || box.width <= 0) continue;
    if (box.height < LEAST_HEIGHT || box.width < LEAST_WIDTH)
      small.push(`${Math.round(box.width)}x${Math.round(box.height)} ${target.outerHTML.slice(0, 80)}`);
  }
  return small;
}
