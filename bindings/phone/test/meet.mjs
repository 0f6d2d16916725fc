// The whole story on the real core in two browser contexts against the real office server: enrol, go offline, work one car on both
// phones, reload one in the middle, kill the other, meet through the server, settle, seal, pass over what was not done, release; the
// office's record equals both phones'. FARSIDING names the server's program. Prints what it measured.
import assert from "node:assert/strict";
import { execFileSync, spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { request } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { end, folder, launch, serve } from "./stage.mjs";

const PROGRAM = process.env.FARSIDING ?? new URL("../../../target/debug/farsiding", import.meta.url).pathname;
const home = mkdtempSync(join(tmpdir(), "farsiding-meet-")),
  PORT = 8600 + (process.pid % 300),
  OFFICE = `http://127.0.0.1:${PORT}`;
const run = (...args) => execFileSync(PROGRAM, args, { encoding: "utf8", stdio: ["ignore", "pipe", "pipe"] });
const office = (...args) => run("device", "--dir", join(home, "office"), "--operator", "office", ...args);
const server = spawn(
  PROGRAM,
  ["serve", "--data", join(home, "data"), "--listen", `127.0.0.1:${PORT}`, "--url", OFFICE],
  { stdio: "ignore" },
);
const until = async (what, f, ms = 20_000) => {
  const end = Date.now() + ms;
  for (;;) {
    if (await f().catch(() => false)) return;
    if (Date.now() > end) throw new Error(`never: ${what}`);
    await new Promise((r) => setTimeout(r, 150));
  }
};
await until("the office answers", async () => (await fetch(`${OFFICE}/healthz`)).ok);
const link = (name, role = "operator") =>
  /All in one:\s+(\S+)/.exec(run("enrol", "--data", join(home, "data"), "--name", name, "--role", role))[1];

const site = await serve(folder("dist"), (from, to) => {
  if (!from.url.startsWith("/v1/")) return false;
  const on = request(`${OFFICE}${from.url}`, { method: from.method, headers: from.headers }, (answer) => {
    to.writeHead(answer.statusCode, answer.headers);
    answer.pipe(to);
  });
  on.on("error", () => to.destroy());
  from.pipe(on);
  return true;
});
const browser = await launch();
let passed = 0;
const test = async (name, f) => {
  const extra = await f();
  passed++;
  console.log("ok  ", name, extra ?? "");
};
const phone = async (name) => {
  const context = await browser.newContext({
    viewport: { width: 390, height: 844 },
    hasTouch: true,
    isMobile: true,
  });
  const page = await context.newPage();
  page.setDefaultTimeout(15_000);
  page.on("pageerror", (e) => {
    console.log("PAGE ERROR", name, e.message);
  });
  return { name, context, page };
};
const ready = (page) => page.waitForSelector(".screen .foot .go, .screen .foot .help");
const at = async (p, hash) => {
  await p.page.evaluate((h) => {
    location.hash = h;
  }, hash);
  await p.page.waitForTimeout(120);
};
const key = (p, text, where = "button") => p.page.locator(`${where}:has-text("${text}")`).first().tap();
const sync = async (p) => {
  await at(p, "only_here//");
  await p.page.locator(".foot .go").tap();
  await p.page.waitForFunction(() => /Met the office/.test(document.body.innerText), null, {
    timeout: 20_000,
  });
};
let fine = false,
  visit = "";
try {
  office("init", "--name", "office");
  office("enrol", link("office", "office"));
  office("site", "new", "Demo siding", "Etc/GMT+6", "900 ft", "30");
  office("person", "ada", "Ada (demo)");
  office("person", "ben", "Ben (demo)");
  office("sync");
  const [a, b] = [await phone("a"), await phone("b")];
  await test("a phone enrols with the office's link, and the person says who and where", async () => {
    for (const [p, who] of [
      [a, "Ada"],
      [b, "Ben"],
    ]) {
      await p.page.goto(`${site.url}#${link(`phone ${p.name}`).split("#")[1]}`);
      await p.page.waitForSelector("input.field");
      await p.page.locator(".foot .go").tap();
      await p.page.waitForSelector(`.lead:has-text("${who}")`, { timeout: 20_000 });
      await key(p, who, ".lead");
      await p.page.waitForSelector('.lead:has-text("Demo siding")', { timeout: 8000 });
      await key(p, "Demo siding", ".lead");
      await p.page.waitForSelector('.go:has-text("New car")');
      await p.page.evaluate(() => navigator.serviceWorker.ready.then(() => true));
    }
  });
  await test("a car opened on one phone is found on the other", async () => {
    await key(a, "New car");
    const f = a.page.locator("input.field");
    await f.nth(0).fill("QZQX");
    await f.nth(1).fill("104417");
    await f.nth(2).fill("Track 2, spot 2");
    await f.nth(3).fill("104417");
    await key(a, "Fixed tank");
    await key(a, "Open this car");
    await a.page.waitForSelector(".plan");
    visit = decodeURIComponent(a.page.url().split("#")[1]).split("/")[1];
    await sync(a);
    await sync(b);
    await at(b, "cars//");
    await b.page.waitForSelector('.car:has-text("104417")');
  });
  await test("without a network both work the same car and say different things", async () => {
    for (const p of [a, b]) {
      await at(p, `car/${visit}/vapour`);
      await p.page.waitForSelector(".plan");
      await p.context.setOffline(true);
    }
    const t = Date.now();
    await key(a, "Shut", ".keys button");
    await a.page.waitForSelector('.keys button[aria-pressed="true"]:has-text("Shut")');
    const took = Date.now() - t;
    await key(b, "Open", ".keys button");
    await b.page.waitForSelector('.keys button[aria-pressed="true"]:has-text("Open")');
    return `(a tap to its mark on the drawing: ${took} ms)`;
  });
  await test("a half-typed reading survives a reload without a network", async () => {
    await at(a, `figure/${visit}/${encodeURIComponent("reading/final/pressure/car")}`);
    for (const k of ["4", ".", "2"]) await a.page.locator(`.pad button:text-is("${k}")`).tap();
    await a.page.reload();
    await a.page.waitForFunction(() => document.querySelector("output")?.textContent === "4.2", null, {
      timeout: 20_000,
    });
    await a.page.locator(".foot .go").tap();
    await a.page.waitForFunction(() => !location.hash.startsWith("#figure"));
  });
  await test("a phone whose page is shut in the middle has everything it confirmed", async () => {
    await b.page.close({ runBeforeUnload: false }); // at once, without a word to the page
    b.page = await b.context.newPage();
    b.page.setDefaultTimeout(15_000);
    const cold = await b.context.newCDPSession(b.page);
    await cold.send("Emulation.setCPUThrottlingRate", { rate: 4 });
    const t = Date.now();
    await b.page.goto(`${site.url}#cars`);
    await b.page.waitForSelector('.car:has-text("104417")', { timeout: 30_000 });
    const took = Date.now() - t;
    await cold.send("Emulation.setCPUThrottlingRate", { rate: 1 });
    await at(b, `car/${visit}/vapour`);
    await b.page.waitForSelector('.keys button[aria-pressed="true"]:has-text("Open")');
    return `(cold start without a network, CPU slowed four times: ${took} ms)`;
  });
  await test("they meet through the server, and both accounts stand side by side", async () => {
    for (const p of [a, b]) await p.context.setOffline(false);
    await sync(a);
    await sync(b);
    await sync(a);
    for (const p of [a, b]) {
      await at(p, `differ/${visit}`);
      await p.page.waitForFunction(() => document.querySelectorAll(".sides section").length === 2, null, {
        timeout: 20_000,
      });
    }
  });
  await test("agreeing needs a reason and ends it on both", async () => {
    await a.page.locator(".sides section .key").first().tap();
    await a.page.waitForSelector("textarea");
    assert.equal(await a.page.getAttribute(".foot .go", "aria-disabled"), "true");
    await a.page.fill("textarea", "Looked together: shut");
    await a.page.locator(".foot .go").tap();
    await a.page.waitForFunction(() => /Nothing differs/.test(document.body.innerText));
    await sync(a);
    await sync(b);
    await at(b, `differ/${visit}`);
    await b.page.waitForFunction(() => /Nothing differs/.test(document.body.innerText));
  });
  await test("a seal is entered twice", async () => {
    await at(b, `seal/${visit}/applied`);
    const f = b.page.locator("input.field");
    await f.nth(0).fill("0042913");
    await f.nth(1).fill("0042918");
    await b.page.waitForSelector(".verdict.bad");
    await f.nth(1).fill("0042913");
    await key(b, "Cable", ".keys button");
    await key(b, "Pin", ".keys.four button");
    await b.page.locator(".foot .go").tap();
    await b.page.waitForFunction(() => !location.hash.startsWith("#seal"));
    await sync(b);
    await sync(a);
  });
  await test("what was not done is passed over one by one with a reason; only then the car can be released, by holding", async () => {
    await at(a, `gate/${visit}`);
    await a.page.waitForSelector(".hold");
    assert.equal(await a.page.getAttribute(".hold", "aria-disabled"), "true");
    let n = 0;
    for (; n < 60 && (await a.page.locator(".lead.hot").count()) > 0; n++) {
      const before = await a.page.locator(".lead.hot").count();
      await a.page.locator(".lead.hot").first().tap();
      await a.page.waitForSelector(".quietly");
      await key(a, "Pass over", ".quietly");
      await a.page.waitForSelector("textarea");
      await a.page.fill("textarea", "Only a rehearsal");
      await a.page.locator(".foot .go").tap();
      await a.page.waitForFunction(() => location.hash.startsWith("#blocker"));
      await at(a, `gate/${visit}`);
      await a.page.waitForFunction((k) => document.querySelectorAll(".lead.hot").length < k, before);
    }
    const box = await a.page.locator(".hold").boundingBox();
    await a.page.mouse.move(box.x + 50, box.y + 30);
    await a.page.mouse.down();
    await a.page.waitForTimeout(600);
    await a.page.mouse.up();
    assert.match(a.page.url(), /#gate/);
    await a.page.mouse.down();
    await a.page.waitForFunction(() => location.hash.startsWith("#cars"), null, { timeout: 5000 });
    await a.page.mouse.up();
    return `(${n} passed over)`;
  });
  await test("the office's record equals both phones'", async () => {
    await sync(a);
    await sync(b);
    office("sync");
    const told = [];
    for (const p of [a, b]) {
      await at(p, `history/${visit}`);
      await p.page.waitForSelector("ol li");
      told.push(await p.page.locator("ol li .what b").allTextContents());
    }
    assert.deepEqual(told[0], told[1]);
    const shown = JSON.parse(office("--json", "history", visit));
    const lines = (Array.isArray(shown) ? shown : shown.history).map((h) => h.sentence).reverse();
    assert.deepEqual(told[0], lines);
    return `(${lines.length} entries)`;
  });
  fine = true;
  console.log(`${passed} passed, 0 failed`);
} catch (error) {
  console.log("FAILED:", error);
  for (const context of browser.contexts())
    for (const page of context.pages())
      console.log(
        page.url().split("#")[1],
        "|",
        (await page.innerText("body").catch(() => "?")).replace(/\n+/g, " · ").slice(0, 400),
      );
} finally {
  await browser.close();
  await site.close();
  await end(server);
  rmSync(home, { recursive: true, force: true });
  process.exit(fine ? 0 : 1);
}
