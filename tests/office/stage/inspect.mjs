// Looking at a page as it stands: what axe finds, what is measured, and a picture.
import assert from "node:assert/strict";
import { mkdirSync, statSync } from "node:fs";
import { join } from "node:path";
import axe from "axe-core";
import { run } from "../../../bindings/phone/test/stage/programs.mjs";
import { measured } from "../../../bindings/phone/test/stage/story.mjs";
import { measure } from "./measure.mjs";
import { PYTHON, SHOTS } from "./programs.mjs";

const seen = { texts: 0, lowest: 21, byAxe: 0 };

/** Says what axe finds wrong with a page. */
async function foundByAxe(page) {
  await page.evaluate(axe.source);
  const found = await page.evaluate(async () => {
    const { violations } = await window.axe.run(document, { resultTypes: ["violations"] });
    return violations.map(({ id, help, nodes }) => ({
      id,
      help,
      where: nodes.map((n) => n.target.join(" ")),
    }));
  });
  return found.map(({ id, help, where }) => `${id}: ${help} — ${where.slice(0, 3).join(" | ")}`);
}

/**
 * Looks at one page by axe, by its contrast and targets and its width, and takes a picture. A printed page
 * has no targets. Axe and the picture take longest, and are left out where others have them.
 */
export async function inspects(page, what, name, { printed = false, byAxe = true, pictured = true } = {}) {
  if (byAxe) assert.deepEqual(await foundByAxe(page), [], `${what} by ${name}`);
  const { texts, lowest, faint, small, wide } = await measure(page);
  assert.deepEqual(faint, [], `${what} by ${name}: text below 7:1`);
  if (!printed) assert.deepEqual(small, [], `${what} by ${name}: targets`);
  assert.ok(wide <= 0, `${what} by ${name} is ${wide} px too wide`);
  seen.texts += texts;
  seen.lowest = Math.min(seen.lowest, lowest);
  if (byAxe) seen.byAxe += 1;
  if (pictured) await page.screenshot({ path: join(SHOTS, `${what}-${name}.png`), fullPage: true });
}

/** Prints on how many pages nothing was found. */
export function tellsWhatWasSeen(pages) {
  const lowest = `lowest contrast ${seen.lowest.toFixed(2)}:1 (aim >= 7)`;
  measured(`axe finds nothing on ${seen.byAxe} ${pages}; ${seen.texts} texts, ${lowest}`);
}

const TO_WEBP = [
  "import sys",
  "from PIL import Image",
  "Image.open(sys.argv[1]).convert('RGB').save(sys.argv[2], quality=82, method=6)",
].join("; ");

/** With PICTURES=1, takes one of the pictures that stand in the README: what the window shows. */
export async function pictures(page, name) {
  if (process.env.PICTURES !== "1") return;
  const shot = join(SHOTS, `picture-${name}.png`);
  const kept = `sync-server/pictures/office-${name}.webp`;
  mkdirSync("sync-server/pictures", { recursive: true });
  await page.screenshot({ path: shot });
  run(PYTHON, ["-c", TO_WEBP, shot, kept]);
  assert.ok(statSync(kept).size <= 120_000, `${kept} is ${statSync(kept).size} bytes`);
}
