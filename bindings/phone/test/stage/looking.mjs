// Looking at a screen as it stands: a picture of it, what is measured of it, and what axe finds. What falls
// short is collected, printed at once, and held against the story at its end.
import assert from "node:assert/strict";
import { mkdirSync, readFileSync } from "node:fs";
import { measure } from "./measure/whole-screen.mjs";
import { inPhone } from "./programs.mjs";

const AXE = readFileSync(inPhone("node_modules/axe-core/axe.min.js"), "utf8");
/** The smallest phone that is in use, and an ordinary one. */
const SIZES = [
  [360, 640],
  [390, 844],
];

/** Where pictures go: OUT names the folder. */
export function picturesGoTo() {
  const out = process.env.OUT ?? inPhone("dist-look/");
  mkdirSync(out, { recursive: true });
  return out;
}

/** Waits until what changed is drawn. */
export function isDrawn(page) {
  return page.evaluate(
    () => new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn))),
  );
}

/** What axe finds on a page, in words; `more` are axe's own options. */
export async function axeFinds(page, more = {}) {
  if (!(await page.evaluate(() => "axe" in window))) await page.evaluate(AXE);
  const found = await page.evaluate(async (more) => {
    const { violations } = await window.axe.run(document, { resultTypes: ["violations"], ...more });
    return violations.map(({ id, nodes }) => ({ id, where: nodes.map((node) => node.target.join(" ")) }));
  }, more);
  return found.map(({ id, where }) => `axe ${id}: ${where.slice(0, 3).join(" | ")}`);
}

/** Looks at the screens a story comes by, in both sizes, under names that begin with the story's. */
export class Looks {
  fallingShort = [];
  out = picturesGoTo();

  constructor(story) {
    this.story = story;
  }

  /** Pictures and measures the screen as it stands. */
  async at(page, name, { axe = true } = {}) {
    for (const [width, height] of SIZES) {
      await page.setViewportSize({ width, height });
      await isDrawn(page);
      await page.screenshot({ path: `${this.out}${this.story}-${name}-${width}.png` });
      const { found, scrolls } = await measure(page);
      for (const one of found) this.fallsShort(`${name} ${width} ${one}`);
      if (scrolls > 1) console.log(`    ${name} ${width} scrolls ${scrolls}px`);
    }
    if (!axe) return;
    for (const one of await axeFinds(page)) this.fallsShort(`${name} ${one}`);
  }

  fallsShort(what) {
    this.fallingShort.push(what);
    console.log("   ", what);
  }

  nothingFallsShort() {
    assert.deepEqual(this.fallingShort, [], "what was measured falls short");
  }
}
