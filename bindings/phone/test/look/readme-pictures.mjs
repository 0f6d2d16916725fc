// The README's pictures, and sheets of all pictures to be looked at side by side.
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { inPhone } from "../stage/programs.mjs";

/** The screens that stand in the README, and in which passes they are pictured. */
export const PICTURES = {
  cars: ["day", "night"],
  car: ["day", "night"],
  gate: ["day", "night"],
  help_car: ["day", "night"],
  step: ["day"],
  figure: ["day"],
  differ: ["day"],
  proof: ["day"],
  step_at_once: ["day"],
  paper: ["day"],
};
const MOST_BYTES = 120_000;
/** A picture that differs by less than this share from the kept one differs in a clock alone. */
const A_CLOCK = 0.015;

/** Writes the README's pictures where they changed. Returns which of them are too large, in words. */
export async function keepsPictures(page, shots) {
  const tooLarge = [];
  for (const [name, passes] of Object.entries(PICTURES))
    for (const pass of passes) {
      const fresh = shots[`${name}-${pass}`];
      if (!fresh) continue;
      const told = `picture ${name}-${pass}: ${fresh.length} bytes`;
      if (fresh.length > MOST_BYTES) tooLarge.push(told);
      const file = inPhone(`pictures/${name.replace("_car", "")}-${pass}.png`);
      const differs = existsSync(file) ? await differsBy(page, fresh, readFileSync(file)) : 1;
      if (differs <= A_CLOCK) continue;
      writeFileSync(file, fresh);
      console.log(told);
    }
  return tooLarge;
}

/** The share of points in which two pictures differ visibly. */
function differsBy(page, one, other) {
  return page.evaluate(
    comparesPictures,
    [one, other].map((bytes) => bytes.toString("base64")),
  );
}

/** Runs in the page. */
async function comparesPictures(both) {
  const pointsOf = async (text) => {
    const bytes = Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
    const bitmap = await createImageBitmap(new Blob([bytes]));
    const pen = new OffscreenCanvas(bitmap.width, bitmap.height).getContext("2d");
    pen.drawImage(bitmap, 0, 0);
    return pen.getImageData(0, 0, bitmap.width, bitmap.height);
  };
  const [a, b] = await Promise.all(both.map(pointsOf));
  if (a.width !== b.width || a.height !== b.height) return 1;
  let different = 0;
  for (let at = 0; at < a.data.length; at += 4) {
    const by = [0, 1, 2].map((part) => Math.abs(a.data[at + part] - b.data[at + part]));
    if (by[0] + by[1] + by[2] > 60) different++;
  }
  return different / (a.data.length / 4);
}

/** Writes sheets of five screens each, one pass after the other, into the folder `out`. */
export async function makesSheets(browser, shots, passes, out) {
  const page = await browser.newPage({ viewport: { width: 1976, height: 844 } });
  const shown = (name) => `<img width=390 src="data:image/png;base64,${shots[name].toString("base64")}">`;
  for (const pass of passes) {
    const names = Object.keys(shots).filter((name) => name.endsWith(`-${pass}`));
    for (let first = 0; first < names.length; first += 5) {
      const images = names.slice(first, first + 5).map(shown);
      const style = "margin:0;display:flex;gap:6px;background:#777";
      await page.setContent(`<body style="${style}">${images.join("")}</body>`);
      const number = String(1 + first / 5).padStart(2, "0");
      await page.screenshot({ path: `${out}sheet-${pass}-${number}.png` });
    }
  }
}
