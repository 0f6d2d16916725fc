// What the disk, the browser and the clock may do to a phone: room runs out, nothing is promised to last, no file can be kept, the year
// is wrong. Nothing confirmed is lost, nothing is recorded where it would not last, and the person is told what to do.
import assert from "node:assert/strict";
import { join } from "node:path";
import { before, copyOfApp, mainScript, stories } from "./stage.mjs";
import { pictures } from "./pictures.mjs";

const MB = 1_000_000;
await stories(async ({ home, office, phone, test }) => {
  await office.start();
  office.furnish();
  const a = phone("a");
  let visit = "";
  await test("little room is said before it hurts, and photographs stop before records do", async () => {
    await a.open();
    await a.enrol("Ada");
    visit = await a.car("104417", "Track 2, spot 2");
    const [picture] = await pictures(a.page, 1);
    await a.go("cars//");
    assert.doesNotMatch(await a.text(), /Little room left/);
    await a.quota((await a.used()) + 120 * MB);
    await a.page.reload();
    await a.valve(visit, "vapour", "Shut");
    await a.go("cars//");
    await a.seen("Little room left");
    await a.go("only_here//");
    await a.seen("more than 67 MB free");
    await a.quota((await a.used()) + 20 * MB);
    await a.valve(visit, "vapour", "Open");
    await a.go(`photo/${visit}/${encodeURIComponent("other|")}`);
    await a.page.setInputFiles('input[type="file"]', picture);
    await a.seen("No room left on this phone. This was NOT recorded.");
    await a.tap("Read");
    assert.match(await a.text(), /No photo yet/);
  });
  await test("on a full disk an entry is refused with a plain word, what was typed stays, and it goes on once there is room", async () => {
    // Noise, since a document's changes are deflated.
    const noise = () =>
      a.page.evaluate(() =>
        Array.from(crypto.getRandomValues(new Uint8Array(14_000)), (b) =>
          b.toString(16).padStart(2, "0"),
        ).join(""),
      );
    await a.quota((await a.used()) + 1 * MB);
    let typed = "",
      confirmed = 0;
    for (; confirmed < 120; confirmed++) {
      await a.go(`form/${visit}/${encodeURIComponent("remark|")}`);
      typed = `remark ${confirmed} ${await noise()}`;
      await a.page.fill("textarea", typed);
      // What is half typed is kept too, and may be the first that does not fit.
      await a.page.waitForTimeout(150);
      if (await a.page.locator(".trouble").count()) await a.tap("Read");
      await a.page.locator(".foot .go").tap();
      await a.page.waitForFunction(
        () => !location.hash.startsWith("#form") || document.querySelector(".trouble"),
      );
      if (await a.page.locator(".trouble").count()) break;
    }
    assert.ok(confirmed > 0 && confirmed < 120, `${confirmed} recorded`);
    await a.seen("No room left on this phone. This was NOT recorded.");
    assert.equal(await a.page.inputValue("textarea"), typed);
    await a.tap("Read");
    const remarks = async () =>
      (await a.history(visit)).filter((line) => line.startsWith("Remark: remark ")).length;
    assert.equal(await remarks(), confirmed, "everything confirmed and nothing else");
    await a.quota(null);
    await a.go(`form/${visit}/${encodeURIComponent("remark|")}`);
    assert.equal(await a.page.inputValue("textarea"), typed);
    await a.page.locator(".foot .go").tap();
    await a.page.waitForFunction(() => !location.hash.startsWith("#form"));
    await a.close();
    await a.open();
    await a.page.goto(a.app());
    await a.page.waitForSelector('.car:has-text("104417")');
    assert.equal(await remarks(), confirmed + 1);
    return `(${confirmed} recorded before it was full)`;
  });
  await test("a photograph that does not fit is refused whole: no entry speaks of it and no piece of it stays", async () => {
    const [picture] = await pictures(a.page, 1);
    await a.go(`photo/${visit}/${encodeURIComponent("other|")}`);
    await a.page.waitForSelector('input[type="file"]', { state: "attached" });
    await a.quota((await a.used()) + 100_000);
    await a.page.setInputFiles('input[type="file"]', picture);
    await a.seen("No room left on this phone. This was NOT recorded.");
    await a.tap("Read");
    const files = async () => Object.keys(await a.photoFiles());
    assert.deepEqual(await files(), []);
    await a.quota(null);
    await a.page.setInputFiles('input[type="file"]', picture);
    await a.seen("1 photos");
    assert.equal((await files()).length, 2, "the original and the small one");
    await a.close();
  });

  const refusing = phone("refusing");
  await test("where the browser does not promise to keep records, none is made, and the person is told what to do", async () => {
    await refusing.open({ grants: [] });
    await refusing.enrol("Ada");
    await refusing.go("cars//");
    await refusing.seen("Put the app on the home screen first");
    await refusing.go("new//");
    const f = refusing.page.locator("input.field");
    await f.nth(0).fill("QZQX");
    await f.nth(1).fill("104418");
    await f.nth(3).fill("104418");
    await refusing.tap("Fixed tank");
    await refusing.tap("Open this car");
    await refusing.seen("This was NOT recorded. Put the app on the home screen");
    await refusing.tap("Read");
    await refusing.book();
    const { entries, without_receipt } = JSON.parse(await refusing.page.evaluate(() => ask("status")));
    const cars = JSON.parse(await refusing.page.evaluate(() => ask("visits"))).map((row) => row.car);
    assert.deepEqual(
      cars,
      ["QZQX 104417"],
      "what came from the office is here to be looked at, and nothing else",
    );
    assert.ok(entries > 0 && without_receipt === 0);
  });
  await test("run from the home screen, it records", async () => {
    await refusing.page.addInitScript(() => {
      const real = matchMedia.bind(window);
      window.matchMedia = (query) => real(query === "(display-mode: standalone)" ? "all" : query);
    });
    await refusing.back();
    await refusing.car("104418", "Track 2, spot 3");
    await refusing.go("cars//");
    await refusing.page.waitForSelector('.car:has-text("104418")');
    assert.doesNotMatch(await refusing.text(), /home screen first/);
    await refusing.close();
  });
  await test("a private window is no place to record, though it takes files", async () => {
    const b = phone("private");
    await b.open();
    const context = await b.context
      .browser()
      .newContext({ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true });
    const page = (b.page = await context.newPage());
    await page.goto(b.app());
    await b.seen("Put the app on the home screen first");
    assert.equal(
      await page.evaluate(() => navigator.storage.persist()),
      false,
      "it would take files and forget them",
    );
    await context.close();
    await b.close();
  });
  await test("without a place for files it says so at once, and help still works", async () => {
    const app = copyOfApp(join(home, "old"));
    before(
      app,
      "core/book-worker.js",
      'Object.defineProperty(StorageManager.prototype, "getDirectory", { value: undefined })',
    );
    await office.stop();
    await office.start(app);
    const old = phone("old");
    await old.open();
    await old.page.goto(old.app());
    await old.seen("Cannot record here");
    await old.seen("not in a private window");
    await old.page.locator(".foot .help").tap();
    await old.page.waitForFunction(() => location.hash.startsWith("#help"));
    await old.close();
  });

  await test("a clock that is years off records the time as the phone had it, and everybody sees by how much it is off", async () => {
    const app = copyOfApp(join(home, "years")),
      off = Math.round(11 * 365.25 * 86_400_000);
    const wrong = `{ const D = Date; globalThis.Date = class extends D { constructor(...a) { if (a.length) super(...a); else super(D.now() + ${off}); } static now() { return D.now() + ${off}; } }; }`;
    before(app, "core/book-worker.js", wrong);
    before(app, mainScript(app), wrong);
    await office.stop();
    await office.start(app);
    const b = phone("years");
    await b.open();
    await b.enrol("Ben");
    const years = await b.car("104419", "Track 2, spot 4");
    await b.valve(years, "vapour", "Shut");
    await b.go(`photo/${years}/${encodeURIComponent("other|")}`);
    await b.page.setInputFiles('input[type="file"]', (await pictures(b.page, 1))[0]);
    await b.seen("1 photos");
    await b.sync();
    await b.seen("clock 11 years fast");
    await b.page.waitForFunction(() =>
      [...document.querySelectorAll(".count")].every((n) => n.textContent === "0"),
    );
    await b.go(`history/${years}`);
    await b.page.locator("ol li button").first().tap();
    const year = new Date().getUTCFullYear();
    await b.seen(`${year + 11}-`); // as the phone had it
    await b.seen("clock 11 years fast");
    const line = office.view(years).history.find((one) => /Vapour valve shut/i.test(one.sentence));
    assert.ok(Math.abs(line.said.claimed - Date.now() - off) < 120_000, "as the phone had it");
    assert.ok(Math.abs(line.said.ahead_millis - off) < 60_000, `${line.said.ahead_millis}`);
    assert.equal(
      line.said.shown.slice(0, 10),
      new Date(Date.now() - 6 * 3_600_000).toISOString().slice(0, 10),
      "shown as it was",
    );
    assert.ok(line.said.receipted);
    await b.close();
  });
});
