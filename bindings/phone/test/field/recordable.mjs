// What is recorded beside the steps for the next person, of what received the cargo and of who inspected,
// each by its keys and fields from "Record something else", and seen in the log. What was left stands at the
// top of the next visit of that car alone, until somebody says that it was seen to.
import assert from "node:assert/strict";
import { mkdirSync } from "node:fs";
import { figureScreen, formScreen } from "../stage/screens.mjs";
import { setsStage } from "../stage/setting.mjs";
import { chapter } from "../stage/story.mjs";

const { office, browser, phoneInWindow } = setsStage();
const ada = phoneInWindow("a");
let visit = "";

const key = (word) => ada.page.locator(`.keys .key:text-is("${word}")`).first();
const field = (name) =>
  ada.page.locator(`label:has-text("${name}") input, label:has-text("${name}") textarea`);
const records = async () => ada.confirmsAndLeaves("form");
const log = async () => (await ada.history(visit)).join("\n");
const codes = async () => (await ada.view(visit)).findings.map((finding) => finding.code);
/** Pictures of the screens at both sizes, where a folder for them is named. */
async function looks(name) {
  const folder = process.env.FARSIDING_LOOK;
  if (!folder) return;
  mkdirSync(folder, { recursive: true });
  for (const [width, height] of [
    [390, 844],
    [360, 640],
  ]) {
    await ada.page.setViewportSize({ width, height });
    await ada.page.screenshot({ path: `${folder}/${name}-${width}.png` });
  }
}
/** Opens a form from the list of everything else, as a person does. */
async function opens(word, fitting = "") {
  await ada.goesTo(`else/${visit}/${fitting}`);
  await ada.sees("Record something else");
  await looks("else");
  await ada.taps(word);
  await ada.page.waitForSelector(".foot .go");
  await ada.page.waitForFunction(() => location.hash.startsWith("#form"));
  await looks(word.toLowerCase().replaceAll(/[^a-z]+/g, "_"));
}

chapter("a phone is enrolled, the site has a tank and a hose, and a car comes in", async () => {
  await office.opens();
  office.namesSiteAndPeople();
  office.device("site", "set", "Demo siding", "tank", "T-1", "60000 gal");
  office.device("site", "set", "Demo siding", "hose", "H-101", "LP-gas");
  office.device("sync");
  await ada.opens(await browser());
  await ada.enrols("Ada");
  visit = await ada.opensCar("104417", "Track 2, spot 2");
});

chapter("a note, the feel of a valve, a plug and a pin are recorded for the next person", async () => {
  await opens("Note for next time", "liquid_b");
  assert.ok(await ada.page.locator(".foot .go").isDisabled(), "a note says something");
  await ada.page.fill("textarea", "Bring the long wrench");
  await records();
  await opens("How the valve turned", "vapour");
  await key("Hard").tap();
  await records();
  await opens("Plug and square", "liquid_a");
  await key("Square rounded").tap();
  await records();
  await opens("Pin, lug, hinge");
  await key("Pin").tap();
  await key("Bent").tap();
  await records();
  const said = await log();
  for (const line of [
    "Next time: Bring the long wrench (liquid valve B).",
    "Valve at vapor valve turned: hard.",
    "Plug at liquid valve A: square rounded.",
    "Housing cover, pin: bent.",
  ])
    assert.ok(said.includes(line), `${line}: ${said}`);
});

chapter(
  "hose, tank, truck, plan and inspection are recorded, and a level that no tank has is not",
  async () => {
    await opens("Hose number", "vapour");
    await key("H-101").tap();
    await records();
    await opens("Pressure left in the hose", "vapour");
    await field("After drawing down").fill("62");
    await records();
    assert.ok((await codes()).includes("hose_pressure"));
    await opens("Receiving tank");
    await key("Before").tap();
    await key("T-1").tap();
    await field("Level").fill("-5");
    await field("Pressure ·").fill("96");
    await ada.confirms();
    await ada.sees("A level lies between 0 and 100");
    await ada.page.locator(".trouble .key").tap();
    await field("Level").fill("41");
    await records();
    await opens("Truck load");
    await field("Which truck?").fill("T-7");
    assert.ok(await ada.page.locator(".foot .go").isDisabled(), "a load has an amount");
    await field("Loaded").fill("9200");
    await field("Ticket").fill("5501");
    await field("Driver").fill("Birch");
    await field("Seal").fill("L-20");
    await records();
    await opens("Recovery plan");
    await field("Down to").fill("30");
    await field("Compressor sweeps").fill("30");
    await records();
    await opens("Inspection");
    await field("Who inspected").fill("Invented agency");
    await field("Looked at").fill("placards");
    await key("Yes").tap();
    await field("Finding").fill("one is torn");
    await records();
    const said = await log();
    for (const line of [
      "hose H-101",
      "Hose at vapor valve after drawing down: 62 psig.",
      "Tank T-1, before, level 41 %, pressure 96 psig.",
      "Truck T-7 loaded with 9200 gal, ticket 5501, driver Birch, seal L-20.",
      "Recovery planned down to 30 psig, compressor 30 ft³/min.",
      "Inspected by Invented agency: placards. Something to put right. one is torn.",
    ])
      assert.ok(said.includes(line), `${line}: ${said}`);
    assert.ok(!said.includes("level -5"), "what was refused is in no log");
    assert.ok((await codes()).includes("inspection_finding"));
  },
);

chapter("paper, shell, gauging device and seal take what the phone had no key for", async () => {
  await ada.goesTo(formScreen(visit, "paper"));
  await looks("paper");
  await key("UN1075").tap();
  await key("HD-5 propane").tap();
  await key("Scale").tap();
  await ada.page.locator('.keys .key:text-is("Yes")').last().tap();
  await records();
  await opens("Fittings under the housing");
  await key("Slip tube").tap();
  await key("Toward the B end").tap();
  await records();
  await ada.goesTo(figureScreen(visit, "car/capacity"));
  await looks("capacity");
  await ada.page.locator(".choose").tap();
  await ada.sees("Shell: Not insulated");
  await ada.types("3", "3", "7", "0", "0");
  await ada.confirmsAndLeaves("figure");
  await ada.goesTo(`seal/${visit}/removed`);
  await looks("seal");
  const { paper } = (await ada.view(visit)).header;
  assert.equal(paper.value.billed_by, "scale");
  assert.equal(paper.value.winter_fill, true);
  assert.equal(paper.value.grade, "hd5_propane");
  const { car } = await ada.view(visit);
  assert.deepEqual([car.gauging.value, car.vapour_end.value], ["slip_tube", "b"]);
  assert.equal(car.insulation.value, "none");
  const said = await log();
  assert.ok(said.includes("Gauging device: slip tube. Vapor valve: toward the B end."), said);
});

chapter("the next visit of that car begins with what was left, and of no other car", async () => {
  await ada.opensCar("104418", "Track 2, spot 3");
  assert.ok(!(await ada.text()).includes("From the last visit"), "another car");
  visit = await ada.opensVisit({
    car: "QZQX 104417",
    procedure: (await ada.view(visit)).header.procedure,
    spot: "Track 2, spot 4",
  });
  await ada.page.reload();
  await ada.goesTo(`car/${visit}/`);
  await ada.page.waitForSelector(".plan");
  await ada.sees("From the last visit");
  await looks("next_plan");
  await ada.goesTo(`step/${visit}/`);
  await ada.sees("Bring the long wrench");
  await looks("next_step");
  await ada.taps("Bring the long wrench");
  await ada.sees("Square rounded".toLowerCase());
  await looks("carried");
  await ada.taps("Seen to");
  await ada.page.waitForSelector("textarea");
  await ada.page.fill("textarea", "It is on the rack");
  await records();
  await ada.goesTo(`carried/${visit}/`);
  assert.ok(!(await ada.text()).includes("Bring the long wrench"));
  for (const [again, word] of [
    [0, "Sound"],
    [0, "As usual"],
  ]) {
    await ada.page.locator(".stop .key").nth(again).tap();
    await ada.page.waitForFunction(() => location.hash.startsWith("#form"));
    const found = ada.page.locator(`.keys .key:text-is("${word}"), .keys .key:text-is("Sound")`).first();
    await found.tap();
    await records();
    await ada.goesTo(`carried/${visit}/`);
  }
  await ada.page.locator(".stop .key").first().tap();
  await key("Pin").tap();
  await key("Sound").tap();
  await records();
  await ada.goesTo(`carried/${visit}/`);
  await ada.sees("Nothing left from earlier visits");
  const said = await log();
  assert.ok(said.includes("Note for next time seen to: It is on the rack."), said);
});
