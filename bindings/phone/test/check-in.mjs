// Whoever has a car says every so often that all is well: the phone asks, sounds, and alarms louder once it
// is overdue; the word goes to the office when there is signal. Everybody and everything in it is invented.
import assert from "node:assert/strict";
import { createHash } from "node:crypto";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { inPhone } from "./stage/programs.mjs";
import { setsStage } from "./stage/setting.mjs";
import { chapter } from "./stage/story.mjs";

const { home, office, browser, phoneInWindow } = setsStage({ quotas: [] });
const ada = phoneInWindow("a");

/** The organisation's own procedure: the built-in one, and a word every half hour. */
function asking() {
  const of = (name) => readFileSync(inPhone(`../../core/procedures/pressure_car_lpg_2${name}.toml`), "utf8");
  const text = of("") + of(".gates");
  const digest = createHash("sha256").update(text).digest("hex");
  const own = text
    .replace("in_catalogues = true", `starts_from = "${digest}"`)
    .replace('edition = "2"', 'edition = "Siding 1"')
    .replace(/\[\[together\]\]\n(?:(?!\[\[)[\s\S])*?\n\n(?=\[\[|#)/g, "");
  return own.replace(/\[\[order\]\]/, "[thresholds]\ncheck_in_minutes = 30\n\n[[order]]");
}

let visit;
chapter("a phone has a procedure that asks for a word, and somebody has a car", async () => {
  await office.opens();
  office.namesSiteInFull();
  const file = join(home, "own.toml");
  writeFileSync(file, asking());
  office.run("procedure", "publish", file, "--note", "asks", "--data", office.data);
  await ada.opens(await browser());
  await ada.enrols("Ada");
  await ada.meetsOffice();
  await ada.page.evaluate(() => {
    window.shook = [];
    Object.defineProperty(navigator, "vibrate", { value: (times) => window.shook.push(times.length) });
  });
  await ada.context.setOffline(true);
  await ada.worksMinutesAgo(32);
  visit = await ada.opensVisit({ car: "QZQX 204140", spot: "Track 3" });
  await ada.says(visit, { attendance: { presence: "here" } });
  await ada.goesTo(`step/${visit}`);
  await ada.page.waitForSelector(".foot");
  assert.equal(await ada.page.getByText("All well?").count(), 0, "not due yet");
});

const looks = () => ada.page.evaluate(() => document.dispatchEvent(new Event("visibilitychange")));
const shook = () => ada.page.evaluate(() => window.shook);

chapter("when the word is due the phone sounds and asks for it with one big key", async () => {
  await ada.worksMinutesAgo(0);
  await looks();
  await ada.sees("All well?");
  await ada.sees("This is no rescue device");
  assert.deepEqual(await shook(), [5], "three shakes, and the pauses between");
  if (process.env.SHOTS) await ada.page.screenshot({ path: `${process.env.SHOTS}/check-in-due.png` });
  await ada.confirms();
  await ada.page.waitForFunction(() => !document.body.innerText.includes("All well?"));
  const { history } = await ada.view(visit);
  assert.equal(history.filter((line) => line.slot === "series/checked_in").length, 1);
});

chapter("overdue, the phone alarms louder and says whom to call", async () => {
  // The same car, last heard of 50 minutes ago.
  await ada.worksMinutesAgo(50);
  visit = await ada.opensVisit({ car: "QZQX 204141", spot: "Track 3" });
  await ada.says(visit, { attendance: { presence: "here" } });
  await ada.worksMinutesAgo(0);
  await ada.page.evaluate(() => (window.shook = []));
  await ada.goesTo(`step/${visit}`);
  await ada.sees("Overdue: all well?");
  await looks();
  await ada.page.waitForFunction(() => window.shook.some((length) => length > 5));
  assert.ok((await ada.page.locator('a[href^="tel:"]').count()) > 0, "whom to call");
  if (process.env.SHOTS) await ada.page.screenshot({ path: `${process.env.SHOTS}/check-in-overdue.png` });
});

chapter("the word reaches the office when there is signal, and the office no longer looks", async () => {
  await ada.context.setOffline(false);
  await ada.confirms();
  await ada.page.waitForFunction(() => !document.body.innerText.includes("Overdue"));
  await ada.meetsOffice();
  const { history } = office.view("QZQX204141");
  assert.ok(history.some((line) => line.slot === "series/checked_in"));
});

chapter("whoever left, or released the car, is not asked", async () => {
  await ada.context.setOffline(true);
  await ada.worksMinutesAgo(50);
  visit = await ada.opensVisit({ car: "QZQX 204142", spot: "Track 3" });
  await ada.says(visit, { attendance: { presence: "here" } }, { attendance: { presence: "away" } });
  await ada.worksMinutesAgo(0);
  await ada.goesTo(`step/${visit}`);
  await ada.page.waitForSelector(".foot");
  const view = await ada.view(visit);
  assert.equal(view.guide.check_in, undefined);
  assert.equal(await ada.page.getByText("all well?", { exact: false }).count(), 0);
});
