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
  await page.click("button >> text=Preview");
  await page.waitForSelector("table");
}

/** Says in which column each thing stands. */
async function namesColumns(page) {
  const columns = ["number", "car", "shipper", "day", "billed"];
  for (const [at, id] of columns.entries()) await page.selectOption(`#${id}`, String(at));
  await page.click("button >> text=Refresh");
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
    assert.match(await page.innerText(".told"), /These headings are new/);
    await namesColumns(page);
    await page.waitForSelector("text=2 of 3 lines can be imported");
    assert.match(await page.innerText("table"), /the green one. is no car number/);
    await inspects(page, "papers-looked-over", "day");
    await page.click("button.go");
    await page.waitForURL(/\/send$/);
    await page.goto(`${base}/office/papers`);
    assert.match(await page.innerText("main"), /ZZQX 70421 · paper INV-5002/);
    const [kept] = await Promise.all([
      page.waitForEvent("download"),
      page.click("text=november (invented).csv"),
    ]);
    assert.equal(readFileSync(await kept.path(), "utf8"), november, "kept to the byte");

    await handsIn("december (invented).csv", HEADS + line("INV-6001", "ZZQX 70413"));
    assert.match(
      await page.innerText(".told"),
      /Columns as in the last file with these headings\. 1 of 1 line/,
    );
  },
);

chapter(
  "a wrong grade, way of measuring or season is refused with its line and column, and a right one is sent",
  async () => {
    const { page, base } = played;
    const heads = "Doc;Tank;Measured by;Qty;Grade;Season\n";
    await handsIn(
      "winter (invented).csv",
      [
        `${heads}INV-7001;ZZQX 70414;scale;124 000 lb;HD-5;winter`,
        "INV-7002;ZZQX 70415;volume;29 410 gal;the good one;spring\n",
      ].join("\n"),
    );
    for (const [id, at] of Object.entries({
      number: 0,
      car: 1,
      billed_by: 2,
      billed: 3,
      grade: 4,
      winter_fill: 5,
    }))
      await page.selectOption(`#${id}`, String(at));
    await page.click("button >> text=Refresh");
    await page.waitForSelector("text=1 of 2 lines can be imported");
    const wrong = await page.innerText("table tbody tr:nth-child(2)");
    assert.match(wrong, /^3\s/);
    assert.match(wrong, /column 3, Measured by: “volume” is no way of measuring/);
    assert.match(wrong, /column 5, Grade: “the good one” is no grade/);
    assert.match(wrong, /column 6, Season: “spring” is neither winter nor summer/);
    await page.click("button.go");
    await page.waitForURL(/\/send$/);
    const line = await page.innerText("table tbody");
    assert.match(line, /HD-5 propane/);
    assert.match(line, /billed by scale/);
    assert.match(line, /filled to winter limits/);
    assert.doesNotMatch(line, /70415/);
    await page.goto(`${base}/office/papers`);
  },
);
