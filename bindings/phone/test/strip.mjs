// The steps on paper: printed from the phone for places where it may not go, in every language, and entered
// afterwards, a whole line with the time at which each thing was done, over a reload.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { formScreen } from "./stage/screens.mjs";
import { setsStage } from "./stage/setting.mjs";
import { chapter } from "./stage/story.mjs";
import { until } from "./stage/waiting.mjs";

const { office, browser, phoneInWindow } = setsStage();
const ada = phoneInWindow("a");
let visit = "";

const flat = (text) => text.split(/\s+/u).join(" ");
const folder = process.env.OUT ?? mkdtempSync(join(tmpdir(), "paper-"));
/** The page as the browser prints it, and what pdftotext (poppler-utils) reads in it. */
async function printed(name) {
  const file = join(folder, `${name}.pdf`);
  writeFileSync(file, await ada.page.pdf({ preferCSSPageSize: true, printBackground: true }));
  const text = (how) => execFileSync("pdftotext", [how, file, "-"], { encoding: "utf8" });
  return { text: text("-raw"), bounds: text("-bbox") };
}
/** The titles of the steps as the phone says them. */
const titles = () =>
  ada.page.evaluate(() => [...document.querySelectorAll(".paper section h3")].map((h) => h.textContent));

chapter("a phone is enrolled and a car comes in", async () => {
  await office.opens();
  office.namesSiteAndPeople();
  await ada.opens(await browser());
  await ada.enrols("Ada");
  visit = await ada.opensCar("104417", "Track 2, spot 2");
});

chapter("the steps are printed from where all steps are listed", async () => {
  await ada.goesTo(`steps/${visit}`);
  await ada.taps("Print the steps");
  await ada.page.waitForSelector(".paper");
  await ada.page.evaluate(() => (window.print = () => (document.title = "printed")));
  await ada.page.locator(".foot .go").tap();
  assert.equal(await ada.page.title(), "printed");
});

for (const language of ["en-US", "es-MX", "fr-CA"])
  chapter(`every step is on paper in order, with every unit, in ${language}`, async () => {
    await ada.speaks(language);
    await ada.goesTo(`strip/${visit}`);
    await ada.page.waitForSelector(".paper");
    const view = await ada.view(visit);
    const said = await titles();
    assert.equal(said.length, view.steps.steps.length);
    const { text, bounds } = await printed(language);
    const paper = flat(text);
    let at = 0;
    for (const title of said) {
      const found = paper.indexOf(flat(title), at);
      assert.ok(found >= at, `${title} is not on the paper, or not after the one before it`);
      at = found;
    }
    const units = await ada.page.evaluate(() =>
      [...document.querySelectorAll(".paper .write b:not(.colon)")].map((b) => b.textContent),
    );
    assert.ok(units.length > 15, `${units}`);
    for (const unit of new Set(units)) {
      const there = paper.split(flat(unit)).length - 1;
      assert.ok(there >= units.filter((one) => one === unit).length, `${unit}: ${there}`);
    }
    // What stands on every page, and how many there are.
    const pages = text.split("\f").slice(0, -1);
    assert.ok(pages.length > 5, `${pages.length} pages`);
    const foot = await ada.page.evaluate(() => document.querySelector(".paper tfoot").textContent);
    for (const [n, page] of pages.entries()) {
      const here = flat(page);
      for (const one of ["QZQX 104417", `${n + 1} / ${pages.length}`, flat(foot).trim()])
        assert.ok(here.includes(one), `page ${n + 1} lacks ${one}`);
      assert.ok(
        page.replaceAll(/\s/gu, "").includes(view.header.procedure),
        `page ${n + 1} lacks the digest`,
      );
    }
    // Nothing is cut, and nothing is the key of a screen.
    const [, width] = /<page width="([\d.]+)"/u.exec(bounds);
    for (const [, left, right] of bounds.matchAll(/<word xMin="([\d.-]+)" yMin="[^"]*" xMax="([\d.]+)"/gu))
      assert.ok(Number(left) >= 15 && Number(right) <= Number(width) - 15, `${left} to ${right} of ${width}`);
    const key = await ada.page.locator(".foot .help").first().textContent();
    assert.ok(!paper.startsWith(flat(key)), "the keys are not printed");
  });

/** A time so many minutes ago, as the phone's own field writes it in its zone. */
const local = (ago) =>
  ada.page.evaluate((minutes) => {
    const at = Date.now() - minutes * 60_000;
    return new Date(at - new Date(at).getTimezoneOffset() * 60_000).toISOString().slice(0, 16);
  }, ago);
async function wasDone(ago) {
  await ada.goesTo(`steps/${visit}`);
  await ada.goesTo(formScreen(visit, "earlier"));
  await ada.page.fill('input[type="datetime-local"]', await local(ago));
  await ada.confirms();
  await ada.page.waitForSelector(".earlier");
}

const stepOf = async (id) => (await ada.view(visit)).steps.steps.find((one) => one.id === id);
const closed = (step) => ["done", "recorded"].includes(step.status);

/** What the paper says of the first liquid line: how many minutes ago, which step, and what it records. */
const ON_PAPER = [
  [58, "open_closure.liquid_a", ["Removed"]],
  [56, "threads_inspected.liquid_a", []],
  [54, "adapter_in.liquid_a", ["Out"]],
  [50, "hose_on.liquid_a", ["Hose connected"]],
  [47, "esv_proved.liquid_a", []],
  [44, "vapor_test.liquid_a", []],
  [40, "open_valve.liquid_a", ["Open"]],
  [36, "leak_check.liquid_a", []],
];

chapter("a whole line is entered afterwards, each thing with its time, over a reload", async () => {
  await ada.speaks("en-US");
  await ada.goesTo(formScreen(visit, "clock", "actual_placement"));
  await ada.page.fill('input[type="datetime-local"]', await local(90));
  await ada.confirmsAndLeaves("form");
  for (const [ago, step, words] of ON_PAPER) {
    await wasDone(ago);
    if (step.startsWith("hose_on")) {
      // The phone is put away and taken up again: the time that was said stays.
      await ada.page.reload();
      await ada.page.waitForSelector(".earlier");
    }
    await ada.goesTo(`step/${visit}/${encodeURIComponent(step)}`);
    if (words.length === 0) await ada.taps("Done");
    for (const word of words) await ada.page.locator(`.keys .key:has-text("${word}")`).first().tap();
    await until(`${step} recorded`, async () => closed(await stepOf(step)));
  }
  for (const [ago, id] of ON_PAPER) {
    const step = await stepOf(id);
    assert.ok(closed(step), `${id}: ${step.status}`);
    const { claimed, done } = step.said;
    assert.ok(
      Math.abs((claimed - done) / 60_000 - ago) < 2,
      `${id}: ${(claimed - done) / 60_000} for ${ago}`,
    );
  }
  await ada.page.locator(".earlier .key").last().tap();
  await ada.page.reload();
  await ada.goesTo(`steps/${visit}`);
  assert.equal(await ada.page.locator(".earlier").count(), 0, "back to now stays, too");
});

chapter("what is recorded is ticked on the next print", async () => {
  await ada.goesTo(`strip/${visit}`);
  await ada.page.waitForSelector(".paper");
  const { text } = await printed("ticked");
  const paper = flat(text);
  const at = paper.indexOf("Plug out · liquid valve A");
  assert.ok(/Recorded: Ada/u.test(paper.slice(at, at + 80)), paper.slice(at, at + 80));
});
