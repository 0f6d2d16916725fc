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

/** Loads the page anew until the index has read the whole month and all that was planted in it is shown. */
async function waitsForIndex(page) {
  const end = Date.now() + 120_000;
  const lacking = async () => {
    if (await page.locator(".told[role=status]").count()) return ["the index follows still"];
    const told = await page.innerText("main");
    return PLANTED.filter((planted) => !told.includes(planted));
  };
  for (let lacks = await lacking(); lacks.length > 0; lacks = await lacking()) {
    assert.ok(Date.now() < end, `the index never followed: ${lacks}`);
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
    assert.ok((await page.locator("svg.chart").count()) >= 4);
    for (const [what, path] of Object.entries(PAGES)) {
      await page.goto(base + path);
      await inspects(page, what, name);
    }
    await page.context().close();
  });

/** The form of a tariff, opened as a person opens it unless it stands open. */
async function opensForm(page, which) {
  const form = page.locator(`form[action="/office/reconcile/${which}"]`).first();
  if (!(await form.isVisible()))
    await page.locator("details", { has: form }).locator("summary").first().click();
  await form.waitFor({ state: "visible" });
  return form;
}

/** Sends a form that must be refused: it stands open as typed, says what is wrong, and nothing is saved. */
async function isRefused(page, which, why, typed) {
  const [answer] = await Promise.all([
    page.waitForResponse((response) => response.url().endsWith(`/office/reconcile/${which}`)),
    (await opensForm(page, which)).locator("button[type=submit]").click(),
  ]);
  assert.equal(answer.status(), 422);
  await page.waitForSelector(`form[action="/office/reconcile/${which}"] [role=alert]`);
  const form = await opensForm(page, which);
  assert.match(await form.locator("[role=alert]").innerText(), why);
  for (const [name, value] of Object.entries(typed))
    assert.equal(await form.locator(`[name=${name}]`).inputValue(), value, `${name} is kept`);
}

/** Sends a form that is taken, and returns what the section of its clock says then, in the same month. */
async function isTaken(page, which, section) {
  const form = await opensForm(page, which);
  await Promise.all([page.waitForURL(/month=2026-10/), form.locator("button[type=submit]").click()]);
  return page.locator("section", { has: page.locator(`h2:has-text("${section}")`) }).innerText();
}

chapter(
  "the tariff of the carrier is typed with slips, kept as typed, put right, and seen in the month",
  async () => {
    const page = await opensPage(LAPTOP);
    await signsIn(page, base);
    await page.goto(`${base}/office/reconcile?month=2026-10`);
    const typed = { name: "Spur 9 (invented)", free_hours: "two", per_day: "75", holidays: "2026-11-26" };
    const form = await opensForm(page, "tariff");
    for (const [name, value] of Object.entries(typed)) await form.locator(`[name=${name}]`).fill(value);
    await form.locator("[name=currency]").fill("USD");
    await form.locator("[name=until]").selectOption("released");
    await form.locator("[name=weekends_count]").uncheck();
    const kept = { ...typed, currency: "USD", until: "released" };
    const notWhole = /“two” is no whole number of hours or days\. Nothing was saved\./;
    await isRefused(page, "tariff", notWhole, kept);
    assert.equal(await (await opensForm(page, "tariff")).locator("[name=weekends_count]").isChecked(), false);
    await inspects(page, "month-tariff-wrong", "day");
    await (await opensForm(page, "tariff")).locator("[name=free_hours]").fill("1");
    await (await opensForm(page, "tariff")).locator("[name=holidays]").fill("Thanksgiving");
    await isRefused(page, "tariff", /“Thanksgiving” is not a day/, {
      ...kept,
      free_hours: "1",
      holidays: "Thanksgiving",
    });
    await (await opensForm(page, "tariff")).locator("[name=holidays]").fill("2026-11-26");
    await (await opensForm(page, "tariff")).locator("[name=per_day]").fill("75 or so");
    await isRefused(page, "tariff", /“75 or so” is not an amount/, {
      ...kept,
      free_hours: "1",
      per_day: "75 or so",
    });
    // Nothing of it was saved: another window shows the month as it was.
    const other = await page.context().newPage();
    await other.goto(`${base}/office/reconcile?month=2026-10`);
    assert.doesNotMatch(await other.innerText("main"), /Spur 9 \(invented\)/);
    await other.close();
    await (await opensForm(page, "tariff")).locator("[name=per_day]").fill("75");
    const told = await isTaken(page, "tariff", "Demurrage");
    assert.match(told, /Spur 9 \(invented\)/);
    assert.match(told, /75(\.00)? USD/);
    await page.context().close();
  },
);

chapter(
  "the tariff of a supplier of cars is typed with slips, kept as typed, put right, and seen in the month",
  async () => {
    const page = await opensPage(LAPTOP);
    await signsIn(page, base);
    await page.goto(`${base}/office/reconcile?month=2026-10`);
    const typed = { name: "Cars 3 (invented)", free_days: "-1", per_day: "20", currency: "USD" };
    const form = await opensForm(page, "detention");
    for (const [name, value] of Object.entries(typed)) await form.locator(`[name=${name}]`).fill(value);
    await form.locator("[name=begins]").selectOption("actual_placement");
    await form.locator("[name=ends]").selectOption("carrier_told");
    const kept = { ...typed, begins: "actual_placement", ends: "carrier_told" };
    await isRefused(page, "detention", /“-1” is no whole number of hours or days/, kept);
    await inspects(page, "month-detention-wrong", "day");
    await (await opensForm(page, "detention")).locator("[name=free_days]").fill("900");
    await isRefused(page, "detention", /More than a year of free time/, { ...kept, free_days: "900" });
    await (await opensForm(page, "detention")).locator("[name=free_days]").fill("0");
    const told = await isTaken(page, "detention", "Detention");
    assert.match(told, /Cars 3 \(invented\)/);
    assert.match(told, /20(\.00)? USD/);
    await page.context().close();
  },
);

chapter("what was looked at is told", () => tellsWhatWasSeen("pages of a month"));
