// The whole story on the real core in two browser windows against the real office server: enrol, go offline,
// work one car on both phones, reload one in the middle, kill the other, meet through the server, settle,
// seal, pass over what was not done, release; the office's record equals both phones'. Prints what it
// measured.
import assert from "node:assert/strict";
import { after } from "node:test";
import { servesApp } from "./stage/app-server.mjs";
import { inPhone } from "./stage/programs.mjs";
import { carScreen, pressureScreen } from "./stage/screens.mjs";
import { setsStage } from "./stage/setting.mjs";
import { chapter } from "./stage/story.mjs";
import { later } from "./stage/waiting.mjs";

const { office, browser, phoneInWindow } = setsStage({ quotas: [] });
const ada = phoneInWindow("a");
const ben = phoneInWindow("b");
let visit = "";
let site;
after(() => site?.close());

chapter("a phone enrols with the office's link, and the person says who and where", async () => {
  await office.opens();
  office.namesSiteAndPeople();
  site = await servesApp(inPhone("dist"), office);
  for (const [phone, who] of [
    [ada, "Ada"],
    [ben, "Ben"],
  ]) {
    phone.servedAt = site.url;
    await phone.opensPlainly(await browser());
    await phone.enrols(who);
    await phone.isReadyWithoutNetwork();
  }
});

chapter("a car opened on one phone is found on the other", async () => {
  await ada.taps("New car");
  await ada.fillsInCar("104417", "Track 2, spot 2");
  visit = await ada.visitOnScreen();
  await ada.meetsOffice();
  await ben.meetsOffice();
  await ben.goesTo("cars//");
  await ben.seesCar("104417");
});

chapter("without a network both work the same car and say different things", async () => {
  for (const phone of [ada, ben]) {
    await phone.goesTo(carScreen(visit, "vapour"));
    await phone.page.waitForSelector(".plan");
    await phone.context.setOffline(true);
  }
  const began = Date.now();
  await ada.taps("Closed", ".keys button");
  await ada.seesMarked("Closed");
  const took = Date.now() - began;
  await ben.taps("Open", ".keys button");
  await ben.seesMarked("Open");
  return `(a tap to its mark on the drawing: ${took} ms)`;
});

chapter("a half-typed reading survives a reload without a network", async () => {
  await ada.goesTo(pressureScreen(visit));
  await ada.types("4", ".", "2");
  await ada.page.reload();
  await ada.page.waitForFunction(() => document.querySelector("output")?.textContent === "4.2", null, {
    timeout: 20_000,
  });
  await ada.confirmsAndLeaves("figure");
});

chapter("a phone whose page is shut in the middle has everything it confirmed", async () => {
  // The page is shut at once, without a word to it.
  await ben.page.close({ runBeforeUnload: false });
  ben.page = ben.watches(await ben.context.newPage());
  const side = await ben.context.newCDPSession(ben.page);
  await side.send("Emulation.setCPUThrottlingRate", { rate: 4 });
  const began = Date.now();
  await ben.page.goto(ben.appAt("#cars"));
  await ben.seesCar("104417", 30_000);
  const took = Date.now() - began;
  await side.send("Emulation.setCPUThrottlingRate", { rate: 1 });
  await ben.goesTo(carScreen(visit, "vapour"));
  await ben.seesMarked("Open");
  return `(cold start without a network, CPU slowed four times: ${took} ms)`;
});

chapter("they meet through the server, and both accounts stand side by side", async () => {
  for (const phone of [ada, ben]) await phone.context.setOffline(false);
  for (const phone of [ada, ben, ada]) await phone.meetsOffice();
  for (const phone of [ada, ben]) {
    await phone.goesTo(`differ/${visit}`);
    const bothSides = () => document.querySelectorAll(".sides section").length === 2;
    await phone.page.waitForFunction(bothSides, null, { timeout: 20_000 });
  }
});

chapter("agreeing needs a reason and ends it on both", async () => {
  await ada.page.locator(".sides section .key").first().tap();
  await ada.page.waitForSelector("textarea");
  assert.equal(await ada.page.getAttribute(".foot .go", "aria-disabled"), "true");
  await ada.page.fill("textarea", "Looked together: shut");
  await ada.confirms();
  await ada.sees("No entries differ");
  await ada.meetsOffice();
  await ben.meetsOffice();
  await ben.goesTo(`differ/${visit}`);
  await ben.sees("No entries differ");
});

chapter("a seal is entered twice", async () => {
  await ben.goesTo(`seal/${visit}/applied`);
  const fields = ben.page.locator("input.field");
  await fields.nth(0).fill("0042913");
  await fields.nth(1).fill("0042918");
  await ben.page.waitForSelector(".verdict.bad");
  await fields.nth(1).fill("0042913");
  await ben.taps("Cable", ".keys button");
  await ben.taps("Pin", ".keys.four button");
  await ben.confirmsAndLeaves("seal");
  await ben.meetsOffice();
  await ada.meetsOffice();
});

/** Passes over the first thing that still speaks against release, with a reason. */

chapter(
  "both gates are signed only when what is open was overridden with a reason; release is signed by holding",
  async () => {
    let overridden = 0;
    for (const gate of ["unload", "release"]) {
      await ada.goesTo(`gate/${visit}/${gate}`);
      await ada.page.waitForSelector(".hold");
      assert.equal(await ada.page.getAttribute(".hold", "aria-disabled"), "true", gate);
      overridden += await ada.overridesEverything(visit, gate);
      await ada.page.waitForSelector('.hold:not([aria-disabled="true"])');
      if (gate === "unload") await ada.signsByTapping("#step");
    }

    const key = await ada.page.locator(".hold").boundingBox();
    await ada.page.mouse.move(key.x + 50, key.y + 30);
    await ada.page.mouse.down();
    await later(600);
    await ada.page.mouse.up();
    assert.match(ada.page.url(), /#gate/, "let go of too early, it does nothing");
    await ada.page.mouse.down();
    await ada.page.waitForFunction(() => location.hash.startsWith("#cars"), null, { timeout: 5000 });
    await ada.page.mouse.up();
    return `(${overridden} overridden)`;
  },
);

chapter("the office's record equals both phones'", async () => {
  await ada.meetsOffice();
  await ben.meetsOffice();
  office.device("sync");
  const told = JSON.parse(office.device("--json", "history", visit));
  const atOffice = (Array.isArray(told) ? told : told.history).map((line) => line.sentence.text);
  const onAdas = await ada.history(visit);
  assert.deepEqual(onAdas, await ben.history(visit));
  assert.deepEqual(onAdas, atOffice);
  return `(${atOffice.length} entries)`;
});
