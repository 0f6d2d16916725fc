// A phone that was online once works for weeks without anybody: cold starts, a killed browser, a newer build that waits to be asked for.
import assert from "node:assert/strict";
import { join } from "node:path";
import { change, copyOfApp, stories, until } from "./stage.mjs";

await stories(async ({ home, office, phone, test }) => {
  const app = copyOfApp(join(home, "app"));
  await office.start(app);
  office.furnish();
  const a = phone("a");
  let visit = "";
  await a.open();
  await test("the office's link leads to the app, which enrols and is kept for offline use", async () => {
    await a.enrol("Ada");
    assert.match(a.page.url(), /\/app\/#/, "the link names the office's address alone");
    visit = await a.car("104417", "Track 2, spot 2");
    await a.valve(visit, "vapour", "Shut");
  });
  await test("started anew with the office gone, the app opens and the job goes on", async () => {
    await a.close();
    await office.stop();
    await a.open();
    const t = Date.now();
    await a.page.goto(a.app());
    await a.page.waitForSelector('.car:has-text("104417")');
    const took = Date.now() - t;
    await a.go(`car/${visit}/vapour`);
    await a.page.waitForSelector('.keys button[aria-pressed="true"]:has-text("Shut")');
    await a.valve(visit, "liquid_a", "Open");
    await a.close();
    await a.open();
    await a.page.goto(a.app(`#car/${visit}/liquid_a`));
    await a.page.waitForSelector('.keys button[aria-pressed="true"]:has-text("Open")');
    return `(cold start ${took} ms)`;
  });
  await test("killed in the middle of writing, it has what it confirmed and what was half typed", async () => {
    await a.go(`form/${visit}/${encodeURIComponent("remark|")}`);
    await a.page.fill("textarea", "hose at liquid A is w");
    await a.page.waitForTimeout(300);
    await a.go(`car/${visit}/liquid_b`);
    await a.page.waitForSelector(".plan");
    let confirmed = 0;
    await a.page.exposeFunction("confirmed", (n) => (confirmed = n));
    void a.page
      .evaluate(async () => {
        for (let n = 1; ; n++) {
          const word = n % 2 ? "Open" : "Shut",
            key = () =>
              [...document.querySelectorAll(".keys button")].find((b) => b.textContent.trim() === word);
          // A key takes no second tap while the first is on its way.
          while (key().getAttribute("aria-pressed") !== "true") {
            key().click();
            await new Promise((r) => setTimeout(r, 10));
          }
          confirmed(n);
        }
      })
      .catch(() => {});
    await until("some were confirmed", () => confirmed >= 25);
    const promised = confirmed;
    await a.kill();
    await a.open();
    await a.page.goto(a.app());
    await a.page.waitForSelector('.car:has-text("104417")');
    const kept = (await a.history(visit)).filter((line) => /^Liquid valve B/.test(line));
    assert.ok(kept.length >= promised, `${kept.length} of ${promised} confirmed`);
    await a.go(`form/${visit}/${encodeURIComponent("remark|")}`);
    assert.equal(await a.page.inputValue("textarea"), "hose at liquid A is w");
    await a.page.fill("textarea", "hose at liquid A is wet");
    await a.page.locator(".foot .go").tap();
    await a.page.waitForFunction(() => !location.hash.startsWith("#form"));
    return `(${promised} confirmed, ${kept.length} kept)`;
  });
  await test("the office comes back and receipts everything", async () => {
    await office.start();
    await a.sync();
    await a.page.waitForFunction(() => document.querySelector(".count")?.textContent === "0");
    assert.deepEqual(
      await a.history(visit),
      office.view(visit).history.map((line) => line.sentence),
    );
  });
  await test("a newer build waits until the person takes it, and what was half typed is there before and after", async () => {
    await a.go(a.figure(visit));
    await a.press("4", ".");
    change(app, "index.html", (text) =>
      text.replace("<title>Farsiding</title>", "<title>Farsiding, newer</title>"),
    );
    change(app, "sw.js", (text) => {
      const next = text.replace(
        /(url:\s*"index\.html",\s*revision:\s*"|revision:\s*"(?=[^"]*",\s*url:\s*"index\.html")|"revision":"(?=[^"]*","url":"index\.html")|"url":"index\.html","revision":")/,
        "$1newer",
      );
      assert.notEqual(next, text);
      return next;
    });
    // An hour goes by and the screen is looked at again.
    await a.page.evaluate(() => {
      const now = Date.now;
      Date.now = () => now() + 3_700_000;
      document.dispatchEvent(new Event("visibilitychange"));
      Date.now = now;
    });
    await until("the newer build is here and waits", () =>
      a.page.evaluate(async () => (await navigator.serviceWorker.getRegistration()).waiting !== null),
    );
    const typed = () => a.page.locator("output").textContent();
    assert.equal(await typed(), "4.");
    assert.equal(await a.page.locator(".update").count(), 0, "not while a figure is being typed");
    await a.page.reload();
    await a.page.waitForFunction(() => document.querySelector("output")?.textContent === "4.");
    assert.equal(await a.page.title(), "Farsiding", "a reload takes nothing newer");
    await a.go("cars//");
    await a.seen("A new version is ready");
    assert.equal(await a.page.title(), "Farsiding");
    const loaded = a.page.waitForEvent("load");
    await a.tap("Take it now");
    await loaded;
    await a.page.waitForSelector('.car:has-text("104417")');
    assert.equal(await a.page.title(), "Farsiding, newer");
    await a.go(a.figure(visit));
    await a.page.waitForFunction(() => document.querySelector("output")?.textContent === "4.");
    await a.press("2");
    await a.page.locator(".foot .go").tap();
    await a.page.waitForFunction(() => !location.hash.startsWith("#figure"));
    assert.match((await a.history(visit)).at(-1), /4\.2/);
  });
  await test("a second window waits, does not take the records from a half-typed one, and takes them when it is at rest", async () => {
    await a.go(`form/${visit}/${encodeURIComponent("remark|")}`);
    await a.page.locator("textarea").focus();
    await a.page.keyboard.type("half");
    const second = await a.context.newPage();
    a.watch(second);
    await second.goto(a.app());
    await second.waitForFunction(() => /Open in another window/.test(document.body.innerText));
    await second.locator(".foot .go").tap();
    await a.page.keyboard.type(" a word");
    await second.waitForTimeout(400);
    assert.match(await second.innerText("body"), /Open in another window/);
    await a.page.evaluate(() => document.activeElement.blur());
    await second.locator(".foot .go").tap();
    await second.waitForSelector('.car:has-text("104417")');
    await a.page.waitForFunction(() => /Open in another window/.test(document.body.innerText));
    await second.evaluate(
      (h) => {
        location.hash = h;
      },
      `form/${visit}/${encodeURIComponent("remark|")}`,
    );
    await second.waitForFunction(() => document.querySelector("textarea")?.value === "half a word");
    await second.close();
    await a.page.waitForFunction(() => document.querySelector("textarea")?.value === "half a word");
  });
});
