// What is recorded beside the steps, by its keys: a leak that holds the job until it is checked tight, an
// incident with its calls, a car that is moved and goes away loaded, and a line entered after climbing down,
// with the time at which it was done.
import assert from "node:assert/strict";
import { formScreen } from "../stage/screens.mjs";
import { setsStage } from "../stage/setting.mjs";
import { chapter } from "../stage/story.mjs";

const { office, browser, phoneInWindow } = setsStage();
const ada = phoneInWindow("a");
let visit = "";

const key = (word) => ada.page.locator(`.keys .key:text-is("${word}")`).first();
const records = async () => ada.confirmsAndLeaves("form");
const openItems = async () => (await ada.view(visit)).blockers.map((blocker) => blocker.code);
/** A time so many minutes ago, as the phone's own field writes it in its zone. */
const local = (ago) =>
  ada.page.evaluate((minutes) => {
    const at = Date.now() - minutes * 60_000;
    return new Date(at - new Date(at).getTimezoneOffset() * 60_000).toISOString().slice(0, 16);
  }, ago);
const typesTime = async (ago) => ada.page.fill('input[type="datetime-local"]', await local(ago));
const log = async () => {
  await ada.goesTo(`history/${visit}`);
  return ada.page.locator("ol li").allTextContents();
};

chapter("a phone is enrolled and a car comes in", async () => {
  await office.opens();
  office.namesSiteAndPeople();
  await ada.opens(await browser());
  await ada.enrols("Ada");
  visit = await ada.opensCar("104417", "Track 2, spot 2");
});

chapter("a leak is recorded from the car by two taps, and holds it until it is checked tight", async () => {
  await ada.goesTo(`more/${visit}`);
  await ada.taps("Record something else");
  await ada.taps("Leak found");
  await key("Packing or stem").tap();
  await records();
  assert.ok((await openItems()).some((code) => code.startsWith("leak_open.")));
  await ada.goesTo(`holds/${visit}`);
  await ada.sees("On hold");
  await ada.taps("Check again");
  await key("Still leaking").tap();
  await records();
  assert.ok((await openItems()).some((code) => code.startsWith("leak_open.")));
  await ada.goesTo(`holds/${visit}`);
  await ada.taps("Check again");
  await key("Tight").tap();
  await records();
  assert.ok(!(await openItems()).some((code) => code.startsWith("leak_open.")));
  await ada.goesTo(`holds/${visit}`);
  await ada.sees("No hold");
});

/** What is on the screen is all there is: nobody scrolls for it. */
const nothingBelow = async () =>
  assert.ok(
    await ada.page.evaluate(() => {
      const { scrollHeight, clientHeight } = document.querySelector(".screen .body");
      return scrollHeight <= clientHeight + 1;
    }),
    `scrolls: ${await ada.text()}`,
  );

chapter("on a small phone two taps record an incident; what else is known has a screen each", async () => {
  await ada.page.setViewportSize({ width: 360, height: 640 });
  await ada.goesTo(formScreen(visit, "incident"));
  await key("Relief valve").waitFor();
  await nothingBelow();
  await key("Relief valve").tap();
  await records();
  const [first] = (await ada.view(visit)).incidents;
  assert.ok(first.open && first.telephone, "the clock of the reports runs");
  assert.ok(Math.abs(Date.now() - first.noticed_at) < 120_000, "noticed now, where nobody says when");
  await ada.goesTo(`holds/${visit}`);
  await ada.taps("Close", ".stop button");
  await ada.page.waitForSelector("textarea");
  await ada.page.fill("textarea", "Relief valve seated again");
  await records();
});

chapter("an incident is recorded by keys, its call and its end, and closed with what was done", async () => {
  const more = async () => {
    await ada.taps("More", ".foot .key");
    await nothingBelow();
  };
  await ada.goesTo(formScreen(visit, "incident"));
  await key("Hose or arm").tap();
  await more();
  await ada.page.waitForSelector('input[type="datetime-local"]');
  await more();
  await key("Admitted to a hospital").tap();
  await more();
  await key("No").tap();
  await more();
  await ada.page.locator(".keys .key").last().tap();
  await more();
  await key("Yes").tap();
  await more();
  await ada.page.fill("textarea", "Hose split at the crimp");
  await more();
  await key("Liquid valve A").tap();
  // The way back leads to the screen before, and not out of what is half said.
  await ada.page.locator(".head .back").tap();
  assert.equal(await ada.page.inputValue("textarea"), "Hose split at the crimp");
  const shots = process.env.SHOTS;
  if (shots) await ada.page.screenshot({ path: `${shots}/incident.png` });
  await records();
  const told = await ada.view(visit);
  const incident = told.incidents.at(-1);
  assert.equal(incident.what, "Hose split at the crimp");
  assert.equal(incident.fitting, "liquid_a");
  const said = told.history.findLast((line) => line.said.entry === incident.said.entry).sentence;
  assert.match(JSON.stringify(said), /hospital/);
  assert.ok(incident.open && incident.telephone && !incident.telephone.must, "at a fixed tank it is checked");
  assert.equal(incident.telephone.due - incident.noticed_at, 12 * 60 * 60_000);
  await ada.goesTo(`holds/${visit}`);
  await ada.taps("Call", ".stop.open button");
  await key("National Response Center").tap();
  await records();
  assert.equal((await ada.view(visit)).incidents.at(-1).telephone, null);
  await ada.page.setViewportSize({ width: 390, height: 844 });
  await ada.goesTo(`holds/${visit}`);
  await ada.taps("Close", ".stop.open button");
  await ada.page.waitForSelector("textarea");
  await ada.page.fill("textarea", "Hose out of use, area clear");
  await records();
  assert.ok(!(await openItems()).some((code) => code.startsWith("incident_open.")));
});

chapter("what is entered afterwards carries the time at which it was done", async () => {
  await ada.goesTo(formScreen(visit, "clock", "actual_placement"));
  await typesTime(120);
  await records();
  await ada.goesTo(formScreen(visit, "earlier"));
  await typesTime(35);
  await ada.confirms();
  await ada.page.waitForSelector(".earlier");
  await ada.setsValve(visit, "liquid_a", "Closed");
  const valve = (view) => view.history.findLast((line) => line.slot === "fitting/liquid_a/valve");
  const { said } = valve(await ada.view(visit));
  assert.equal(Math.floor((said.claimed - said.done) / 60_000), 35, "a field of time has no seconds");
  assert.ok((await log()).some((line) => /closed\. Done \d\d:\d\d, entered \d\d:\d\d\./.test(line)));
  await ada.page.locator(".earlier .key").last().tap();
  await ada.setsValve(visit, "vapour", "Closed");
  const plain = (await ada.view(visit)).history.findLast((line) => line.slot === "fitting/vapour/valve");
  assert.equal(plain.said.done, undefined);
});

chapter("a time before the car was placed is refused, and what was typed stays", async () => {
  await ada.goesTo(formScreen(visit, "earlier"));
  await typesTime(50 * 60);
  await ada.confirms();
  await ada.page.waitForSelector(".earlier");
  await ada.goesTo(formScreen(visit, "remark"));
  await ada.page.fill("textarea", "Sign was up before");
  await ada.confirms();
  await ada.sees("before this visit began");
  await ada.page.locator(".trouble .key").tap();
  await ada.page.locator(".earlier .key").last().tap();
  await records();
});

chapter("a car that is moved stands at its new spot, and goes away loaded without the proof", async () => {
  await ada.goesTo(formScreen(visit, "car_moved"));
  await ada.page.locator("input.field").first().fill("Track 3, spot 1");
  await records();
  assert.equal((await ada.view(visit)).header.spot, "Track 3, spot 1");
  assert.ok((await openItems()).includes("empty_not_accepted"));
  await ada.goesTo(formScreen(visit, "outcome"));
  await key("Loaded").tap();
  await key("Refused").tap();
  await ada.page.fill("textarea", "The paper is for another product");
  await records();
  const open = await openItems();
  assert.ok(!open.includes("empty_not_accepted") && open.includes("check_missing.loaded_paper"));
});
