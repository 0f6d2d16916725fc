// Shipping papers come in as a file; the next of its kind is read the same way.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { chapter } from "../../../bindings/phone/test/stage/story.mjs";
import { inspects } from "../stage/inspect.mjs";
import { played } from "../stage/played.mjs";

const HEADS = "Doc;Tank;Who shipped;Loaded;Qty\n";
const line = (number, car) => `${number};${car};Invented Terminal;2026-11-17;29 410 gal\n`;

/** Hands a file in and has it looked over. */
async function handsIn(name, text) {
  const { page, base } = played;
  await page.goto(`${base}/office/papers`);
  await page.setInputFiles("#file", { name, mimeType: "text/csv", buffer: Buffer.from(text) });
  await page.click("text=Look it over");
  await page.waitForSelector("table");
}

/** Says in which column each thing stands. */
async function namesColumns(page) {
  const columns = ["number", "car", "shipper", "day", "billed"];
  for (const [at, id] of columns.entries()) await page.selectOption(`#${id}`, String(at));
  await page.click("text=Look again");
}

chapter(
  "papers come in as a file, are looked over, kept to the byte, and the next file's columns are known",
  async () => {
    const { page, base } = played;
    const lines = [
      line("INV-5001", "ZZQX 70412"),
      line("INV-5002", "ZZQX 70421"),
      line("INV-5003", "the green one"),
    ];
    const november = HEADS + lines.join("");
    await handsIn("november (invented).csv", november);
    assert.match(await page.innerText(".told"), /Heads not seen before/);
    await namesColumns(page);
    await page.waitForSelector("text=2 of 3 lines can be taken in");
    assert.match(await page.innerText("table"), /the green one. is no car number/);
    await inspects(page, "papers-looked-over", "day");
    await page.click("button.go");
    await page.waitForURL(`${base}/office/papers`);
    assert.match(await page.innerText("main"), /ZZQX 70421 · paper INV-5002/);
    const [kept] = await Promise.all([
      page.waitForEvent("download"),
      page.click("text=november (invented).csv"),
    ]);
    assert.equal(readFileSync(await kept.path(), "utf8"), november, "kept to the byte");

    await handsIn("december (invented).csv", HEADS + line("INV-6001", "ZZQX 70413"));
    assert.match(await page.innerText(".told"), /Read as the last file with these heads was\. 1 of 1 line/);
  },
);
