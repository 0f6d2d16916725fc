// The pages over a month of 120 cars with everything planted in it that reconcile looks for.
import assert from "node:assert/strict";
import { join } from "node:path";
import { run } from "../../bindings/phone/test/stage/programs.mjs";
import { chapter } from "../../bindings/phone/test/stage/story.mjs";
import { freePort, later } from "../../bindings/phone/test/stage/waiting.mjs";
import { LAPTOP, TABLET_BY_NIGHT, opensPage, signsIn } from "./stage/browser.mjs";
import { inspects, tellsWhatWasSeen } from "./stage/inspect.mjs";
import { DEMO, folderFor } from "./stage/programs.mjs";
import { CLERK, addsAccount, serves } from "./stage/server.mjs";

const CLOCK = "2026-11-01T12:00:00Z";
const PLANTED = [
  "A gauge reads one way: GR-T2",
  "A car came overfilled",
  "Two numbers for one car",
  "One seal on two cars",
  "An entry is missing",
];
const PAGES = {
  "month-reconcile": "/office/reconcile?month=2026-10",
  "month-seals": "/office/seals",
  "month-defects": "/office/defects",
  "month-today": "/office/",
  "month-inquiry": "/office/inquiry?q=ZZQX",
};
const folder = folderFor("month");
const office = join(folder, "office");
let base = "";

chapter("a month of 120 cars is played", async () => {
  run(DEMO, ["--month", folder, "--seed", "7", "--faults", "all"]);
  addsAccount(office, CLERK, CLOCK);
  base = `http://127.0.0.1:${await freePort()}`;
  // The month has records of days after the one its pages are looked at.
  await serves(office, base, CLOCK, "--clock-was-wrong", "an invented month is looked at before its end");
});

/** Loads the page anew until the office's index has read the whole month. */
async function waitsForIndex(page) {
  const end = Date.now() + 120_000;
  const isThere = async () =>
    (await page.locator("text=A gauge reads one way").count()) > 0 &&
    (await page.locator(".told[role=status]").count()) === 0;
  while (!(await isThere())) {
    assert.ok(Date.now() < end, "the index never followed");
    await later(500);
    await page.reload();
  }
}

for (const [name, how] of [
  ["day", LAPTOP],
  ["tablet-night", TABLET_BY_NIGHT],
])
  chapter(`a month of 120 cars shows all that was planted in it, and its charts (${name})`, async () => {
    const page = await opensPage(how);
    await signsIn(page, base);
    await page.goto(`${base}/office/reconcile?month=2026-10`);
    await waitsForIndex(page);
    const told = await page.innerText("main");
    for (const planted of PLANTED) assert.ok(told.includes(planted), planted);
    assert.ok((await page.locator("svg.chart").count()) >= 4);
    for (const [what, path] of Object.entries(PAGES)) {
      await page.goto(base + path);
      await inspects(page, what, name);
    }
    await page.context().close();
  });

chapter("what was looked at is told", () => tellsWhatWasSeen("pages of a month"));
