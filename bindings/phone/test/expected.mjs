// Cars that are expected: the office sends shipping papers to a siding, and its phones show them. The number
// is still read from the car, and the paper in hand is still compared; nothing is taken from a file by
// itself. One of the two phones has no signal and is shown nothing. Everybody and everything is invented.
import assert from "node:assert/strict";
import { aPicture } from "./stage/pictures.mjs";
import { setsStage } from "./stage/setting.mjs";
import { chapter } from "./stage/story.mjs";
import { later, until } from "./stage/waiting.mjs";

const { office, browser, phoneInWindow } = setsStage({ quotas: [] });
const ada = phoneInWindow("a");
const ben = phoneInWindow("b");

const NEAR = "QZQX 204118";
const COMES = "QZQX 300500";
const paper = (number, car, more = "0.507,UN1075,Liquefied petroleum gas,yes,") =>
  `${number},${car},Demo gas plant,,30100 gal,${more}`;
const expectedOn = (phone) => phone.page.locator(".expected .lead b").allTextContents();
const mayConfirm = async (phone) =>
  (await phone.page.locator(".foot .go").getAttribute("aria-disabled")) !== "true";
const takesPicture = async (phone) =>
  phone.page.setInputFiles('input[type="file"]', await aPicture(phone.page));
const findings = ({ findings }) => findings.map((finding) => finding.code);

let visit = "";

chapter("two phones are enrolled, and one of them loses its signal", async () => {
  await office.opens();
  office.namesSiteAndPeople();
  const shared = await browser();
  for (const [phone, who] of [
    [ada, "Ada"],
    [ben, "Ben"],
  ]) {
    await phone.opens(shared);
    await phone.enrols(who);
    await phone.meetsOffice();
  }
  await ben.context.setOffline(true);
});

chapter("the office sends papers to the siding; only the phone with a signal shows the cars", async () => {
  const { sent } = JSON.parse(office.sendsPapers(paper("B-1", NEAR), paper("B-2", COMES)));
  assert.deepEqual(sent, [NEAR, COMES]);
  const again = JSON.parse(office.sendsPapers(paper("B-1", NEAR), paper("B-2", COMES)));
  assert.deepEqual([again.sent, again.stood_there], [[], 2], "what stands there is not signed twice");
  await ada.meetsOffice();
  await ada.goesTo("cars//");
  await ada.sees(COMES);
  assert.deepEqual(await expectedOn(ada), [NEAR, COMES]);
  assert.match(await ada.text(), /30100 gal/);
  await ben.goesTo("cars//");
  assert.deepEqual(await expectedOn(ben), [], "nothing is invented");
});

chapter("the number is read from the car, whatever the paper says", async () => {
  await ada.page.locator(`.expected .lead:has-text("${COMES}")`).tap();
  await ada.taps("Fixed tank");
  assert.equal(await ada.page.locator(".same").count(), 0, "before the photo there is no key for it");
  assert.equal(await mayConfirm(ada), false);
  await ada.page.locator("input.field").nth(0).fill("300501");
  await ada.sees(`The paper is for ${COMES}`);
  assert.equal(await mayConfirm(ada), false, "another number is not taken for this car");
  await ada.page.locator("input.field").nth(0).fill("");
  await takesPicture(ada);
  await ada.page.waitForSelector(".same");
  assert.equal(await mayConfirm(ada), false, "a photo alone says nothing");
  await ada.taps(`The car shows ${COMES}`);
  await ada.sees("Read on the car, as on the paper");
  await ada.confirms();
  visit = await ada.visitOnScreen();
  const { header, photos, history } = await ada.view(visit);
  assert.equal(header.car, COMES);
  assert.equal(photos.length, 1);
  assert.equal(header.paper, null, "and the paper is not recorded by that");
  assert.ok(history.some((line) => line.slot === "check/number_as_on_paper"));
  await ada.goesTo("cars//");
  await ada.seesCar("300500");
  assert.deepEqual(await expectedOn(ada), [NEAR], "it came, and is expected no more");
});

chapter(
  "what the paper in hand says otherwise is changed, and both figures stand in the record",
  async () => {
    await ada.goesTo(`step/${visit}/`);
    await ada.page.waitForSelector(".facts");
    assert.match(await ada.page.innerText(".facts"), /30100 gal/);
    assert.match(await ada.text(), /papers-1\.csv, line 3/);
    await ada.taps("Not so, or not all");
    await ada.sees("Filled in from the office's file");
    const billed = ada.page.locator('label:has-text("Billed quantity") input');
    assert.equal(await billed.inputValue(), "30100 gal");
    await billed.fill("30400 gal");
    await until("the figure is read", () => mayConfirm(ada));
    await ada.confirmsAndLeaves("form");
    const { header, history, findings: found } = await ada.view(visit);
    assert.equal(header.paper.value.billed.text, "30400 gal");
    assert.ok(header.paper.value.compared, "it names the office's entry");
    const said = JSON.stringify(history.find((line) => line.slot === "paper").sentence);
    assert.match(said, /log-paper-compared/);
    assert.match(said, /papers-1\.csv/);
    const differs = JSON.stringify(found.find((finding) => finding.code === "paper_not_as_sent"));
    assert.match(differs, /30400 gal/);
    assert.match(differs, /30100 gal/);
  },
);

chapter("a number one character away from an expected one is named and typed again", async () => {
  await ada.goesTo("new//");
  const fields = ada.page.locator("input.field");
  await fields.nth(0).fill("QZQX");
  await fields.nth(1).fill("204117");
  await ada.sees(`Expected is ${NEAR}: one character different`);
  await takesPicture(ada);
  await ada.taps("Fixed tank");
  assert.equal(await mayConfirm(ada), false, "a photo is not enough here");
  await fields.nth(3).fill("204117");
  await ada.confirms();
  const other = await ada.visitOnScreen();
  const view = await ada.view(other);
  assert.equal(view.header.car, "QZQX 204117");
  assert.equal(view.header.number_again.value, "QZQX 204117");
  assert.equal(view.guide.office_paper, undefined, "the neighbour's paper is not offered for it");
  assert.ok(!findings(view).includes("expected_number_near"), "it was read twice");
});

chapter("the phone without a signal works as it always did, and learns of the papers with it", async () => {
  const mine = await ben.opensCar("204119", "Track 9");
  assert.ok(!findings(await ben.view(mine)).includes("expected_number_near"));
  await ben.context.setOffline(false);
  await ben.meetsOffice();
  const view = await ben.view(mine);
  assert.ok(findings(view).includes("expected_number_near"), "now it is pointed out");
  assert.equal(view.header.paper, null, "and nothing was filled in");
  await ben.goesTo("cars//");
  await ben.seesCar("204119");
  assert.deepEqual(await expectedOn(ben), [NEAR]);
});

chapter("a paper that the office takes back is expected no more", async () => {
  const at = ["--site", office.site(), "--data", office.data];
  office.run("papers", "take-back", NEAR, ...at, "--why", "billed to another site");
  assert.match(office.run("papers", "list", ...at), new RegExp(COMES));
  assert.doesNotMatch(office.run("papers", "list", ...at), new RegExp(NEAR));
  for (const phone of [ada, ben]) {
    await phone.meetsOffice();
    await phone.goesTo("cars//");
    await phone.seesCar("204119");
    assert.deepEqual(await expectedOn(phone), []);
  }
});

chapter("above a full track a small phone says how many cars are expected, one tap from them", async () => {
  const at = ["--site", office.site(), "--data", office.data];
  office.sendsPapers(paper("B-7", "QZQX 300601"), paper("B-8", "QZQX 300602"), paper("B-9", "QZQX 300603"));
  assert.match(office.run("papers", "list", ...at), /300603/);
  for (let n = 0; n < 6; n++) await ada.opensVisit({ car: `QZQX 20440${n}`, spot: `Track ${n + 1}` });
  await ada.meetsOffice();
  await ada.page.setViewportSize({ width: 360, height: 640 });
  await ada.goesTo("cars//");
  await ada.seesCar("204405");
  const line = ada.page.locator('.lead:has-text("Expected: 3 cars")');
  const box = await line.boundingBox();
  const foot = await ada.page.locator(".foot").boundingBox();
  if (process.env.SHOTS) await ada.page.screenshot({ path: `${process.env.SHOTS}/expected-full.png` });
  assert.ok(box.y + box.height <= foot.y, `at ${box.y}, above the foot at ${foot.y}`);
  await line.tap();
  await ada.page.locator(".expected h2").waitFor();
  await later(500);
  const first = await ada.page.locator(".expected .lead").first().boundingBox();
  const head = await ada.page.locator(".head").boundingBox();
  assert.ok(first.y >= head.y + head.height && first.y + first.height <= foot.y, `at ${first.y}`);
});
