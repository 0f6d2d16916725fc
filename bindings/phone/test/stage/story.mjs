// A story is a file of chapters under `node:test` which build on one another. This module tells the chapters
// in order, stops at the first one that fails, and prints what stood on every screen at that moment. Nothing
// here needs a browser.
import { test } from "node:test";

/**
 * Whatever can be looked at when a chapter fails, and whatever may have complained: `{ screens(), complaints
 * }`.
 */
const witnesses = [];
let broken = false;

/**
 * Adds a witness: `screens()` returns lines to print at a failure, `complaints` is a list of what its pages
 * complained of.
 */
export function isWitnessed(witness) {
  witnesses.push({ screens: () => [], complaints: [], ...witness });
}

/**
 * One chapter. A text that `tell` returns is printed beside the chapter's name. A chapter after which
 * `othersGoOn` does not stop the story when it fails: the chapters that follow it need nothing from it.
 */
export function chapter(name, tell, { othersGoOn = false } = {}) {
  test(name, async (t) => {
    if (broken) return t.skip("an earlier chapter failed");
    try {
      const told = await tell(t);
      if (typeof told === "string") t.diagnostic(told);
      noPageComplained();
    } catch (error) {
      broken ||= !othersGoOn;
      await printsTheScreens(name);
      throw error;
    }
  });
}

/** Prints something measured. `tests/run` shows the lines that begin with a small letter and name an aim. */
export const measured = (line) => console.log(line);

function noPageComplained() {
  const complaints = witnesses.flatMap((witness) => witness.complaints.splice(0));
  if (complaints.length) throw new Error(`pages complained: ${complaints.join("; ")}`);
}

async function printsTheScreens(name) {
  for (const witness of witnesses)
    for (const line of await witness.screens()) console.log(`✖ in "${name}": ${line}`);
}

/** What stands on a page, as one line: its address and the beginning of its text. */
export async function screenOf(page, most = 600) {
  const text = await page.innerText("body").catch(() => "?");
  return `${page.url()} | ${text.replace(/\n+/g, " · ").slice(0, most)}`;
}
