// A phone that was online once works for weeks without anybody: cold starts, a killed browser, a newer build
// that waits to be asked for.
import assert from "node:assert/strict";
import { join } from "node:path";
import { changesFile, copyOfApp } from "../stage/app-copy.mjs";
import { carScreen, formScreen, pressureScreen } from "../stage/screens.mjs";
import { setsStage } from "../stage/setting.mjs";
import { chapter } from "../stage/story.mjs";
import { later, until } from "../stage/waiting.mjs";

const { home, office, phoneOnDisk } = setsStage();
const app = copyOfApp(join(home, "app"));
const ada = phoneOnDisk("a");
let visit = "";

chapter("the office's link leads to the app, which enrols and is kept for offline use", async () => {
  await office.opens(app);
  office.namesSiteAndPeople();
  await ada.opens();
  await ada.enrols("Ada");
  assert.match(ada.page.url(), /\/app\/#/, "the link names the office's address alone");
  visit = await ada.opensCar("104417", "Track 2, spot 2");
  await ada.setsValve(visit, "vapour", "Closed");
});

chapter("started anew with the office gone, the app opens and the job goes on", async () => {
  await ada.closes();
  await office.closes();
  await ada.opens();
  const began = Date.now();
  await ada.page.goto(ada.appAt());
  await ada.seesCar("104417");
  const took = Date.now() - began;
  await ada.goesTo(carScreen(visit, "vapour"));
  await ada.seesMarked("Closed");
  await ada.setsValve(visit, "liquid_a", "Open");
  await ada.startsAnew();
  await ada.page.goto(ada.appAt(`#${carScreen(visit, "liquid_a")}`));
  await ada.seesMarked("Open");
  return `(cold start ${took} ms)`;
});

chapter("killed in the middle of writing, it has what it confirmed and what was half typed", async () => {
  await ada.goesTo(formScreen(visit, "remark"));
  await ada.page.fill("textarea", "hose at liquid A is w");
  await later(300);
  await ada.goesTo(carScreen(visit, "liquid_b"));
  await ada.page.waitForSelector(".plan");
  let confirmed = 0;
  await ada.page.exposeFunction("confirmed", (count) => (confirmed = count));
  void ada.page.evaluate(tapsOpenAndShutForEver).catch(() => {});
  await until("some were confirmed", () => confirmed >= 25);
  const promised = confirmed;
  await ada.dies();

  await ada.opens();
  await ada.page.goto(ada.appAt());
  await ada.seesCar("104417");
  const kept = (await ada.history(visit)).filter((line) => /^Valve \(liquid valve B\)/.test(line));
  assert.ok(kept.length >= promised, `${kept.length} of ${promised} confirmed`);
  await ada.goesTo(formScreen(visit, "remark"));
  assert.equal(await ada.page.inputValue("textarea"), "hose at liquid A is w");
  await ada.page.fill("textarea", "hose at liquid A is wet");
  await ada.confirmsAndLeaves("form");
  return `(${promised} confirmed, ${kept.length} kept)`;
});

/**
 * Runs in the page. A key takes no second tap while the first is on its way, so it is tapped until it is
 * marked.
 */
async function tapsOpenAndShutForEver() {
  for (let n = 1; ; n++) {
    const word = n % 2 ? "Open" : "Closed";
    const key = () =>
      [...document.querySelectorAll(".keys button")].find((b) => b.textContent.trim() === word);
    while (key().getAttribute("aria-pressed") !== "true") {
      key().click();
      await new Promise((done) => setTimeout(done, 10));
    }
    globalThis.confirmed(n);
  }
}

chapter("the office comes back and receipts everything", async () => {
  await office.opens();
  await ada.meetsOffice();
  await ada.page.waitForFunction(() => document.querySelector(".count")?.textContent === "0");
  const atOffice = office.view(visit).history.map((line) => line.sentence.text);
  assert.deepEqual(await ada.history(visit), atOffice);
});

const showsTyped = (text) =>
  ada.page.waitForFunction((typed) => document.querySelector("output")?.textContent === typed, text);

chapter(
  "a newer build waits until the person takes it, and what was half typed is there before and after",
  async () => {
    await ada.goesTo(pressureScreen(visit));
    await ada.types("4", ".");
    putsNewerBuildInPlace();
    await ada.page.evaluate(looksAgainAnHourLater);
    await until("the newer build is here and waits", () =>
      ada.page.evaluate(async () => (await navigator.serviceWorker.getRegistration()).waiting !== null),
    );
    assert.equal(await ada.page.locator("output").textContent(), "4.");
    assert.equal(await ada.page.locator(".update").count(), 0, "not while a figure is being typed");
    await ada.page.reload();
    await showsTyped("4.");
    assert.equal(await ada.page.title(), "Farsiding", "a reload takes nothing newer");

    await ada.goesTo("cars//");
    await ada.sees("A new version is ready");
    assert.equal(await ada.page.title(), "Farsiding");
    const loaded = ada.page.waitForEvent("load");
    await ada.taps("Update now");
    await loaded;
    await ada.seesCar("104417");
    assert.equal(await ada.page.title(), "Farsiding, newer");

    await ada.goesTo(pressureScreen(visit));
    await showsTyped("4.");
    await ada.types("2");
    await ada.confirmsAndLeaves("figure");
    assert.match((await ada.history(visit)).at(-1), /4\.2/);
  },
);

/**
 * Changes the page's title in the app that the office hands out, and the page's digest in its service worker.
 */
function putsNewerBuildInPlace() {
  changesFile(app, "index.html", (text) =>
    text.replace("<title>Farsiding</title>", "<title>Farsiding, newer</title>"),
  );
  // However the list of files is written, the digest of the page stands beside its name.
  const ways = [
    String.raw`url:\s*"index\.html",\s*revision:\s*"`,
    String.raw`revision:\s*"(?=[^"]*",\s*url:\s*"index\.html")`,
    String.raw`"revision":"(?=[^"]*","url":"index\.html")`,
    String.raw`"url":"index\.html","revision":"`,
  ];
  changesFile(app, "sw.js", (text) => {
    const next = text.replace(new RegExp(`(${ways.join("|")})`), "$1newer");
    assert.notEqual(next, text);
    return next;
  });
}

/** Runs in the page: an hour goes by and the screen is looked at again. */
function looksAgainAnHourLater() {
  const now = Date.now;
  Date.now = () => now() + 3_700_000;
  document.dispatchEvent(new Event("visibilitychange"));
  Date.now = now;
}

chapter(
  "a second window waits, does not take the records from a half-typed one, and takes them when it is at rest",
  async () => {
    const waits = /Open in another window/;
    const remark = formScreen(visit, "remark");
    await ada.goesTo(remark);
    await ada.page.locator("textarea").focus();
    await ada.page.keyboard.type("half");
    const second = ada.watches(await ada.context.newPage());
    await second.goto(ada.appAt());
    await second.waitForFunction(() => /Open in another window/.test(document.body.innerText));
    await second.locator(".foot .go").tap();
    await ada.page.keyboard.type(" a word");
    await later(400);
    assert.match(await second.innerText("body"), waits);

    await ada.page.evaluate(() => document.activeElement.blur());
    await second.locator(".foot .go").tap();
    await second.waitForSelector('.car:has-text("104417")');
    await ada.reads(waits);
    const showsHalfAWord = () => document.querySelector("textarea")?.value === "half a word";
    await second.evaluate((hash) => {
      location.hash = hash;
    }, remark);
    await second.waitForFunction(showsHalfAWord);
    await second.close();
    await ada.page.waitForFunction(showsHalfAWord);
  },
);
