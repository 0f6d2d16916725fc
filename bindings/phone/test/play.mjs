// The scaffold used as a person would: tapping the drawing, recording, a reload in the middle, letting go too early, signing by
// holding and by two taps, and a cold start without a network. Prints times. `npm run build && node test/play.mjs`
import { chromium } from "playwright-core";
import { preview } from "vite";
import assert from "node:assert/strict";
const server = await preview({ preview: { port: 4392, host: "127.0.0.1" }, logLevel: "silent" });
const url = "http://127.0.0.1:4392/";
const browser = await chromium.launch({ executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium" });
const ctx = await browser.newContext({ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true });
const page = await ctx.newPage();
page.on("pageerror", (e) => { throw e; });
let passed = 0;
const test = async (name, f) => { await f(); passed++; console.log("ok  ", name); };
await page.goto(url);
await page.waitForSelector(".screen");
await test("a tap on the drawing chooses the fitting, a key records, the drawing follows", async () => {
  await page.tap('button.car:has-text("104417")');
  await page.tap('button.hit[aria-label="Liquid A"]');
  assert.equal(await page.textContent("h2"), "Liquid A");
  await page.tap('button.key:has-text("By hand")');
  await page.waitForFunction(() => [...document.querySelectorAll(".plan text")].filter((t) => t.textContent === "Shut · by hand").length === 2);
});
await test("turning a step over to the core brings the next one", async () => {
  await page.tap('button:has-text("Next")');
  await page.waitForFunction(() => /Plug tight/.test(document.querySelector("h1").textContent));
  await page.tap('.key.tall:has-text("Tight")');
  await page.waitForFunction(() => /Listen/.test(document.querySelector("h1").textContent));
});
await test("a half-typed reading survives a reload", async () => {
  await page.goto(url + "#reading/v2/final_pressure");
  for (const k of ["1", "2", ".", "5"]) await page.tap(`.pad button:text-is("${k}")`);
  await page.reload();
  await page.waitForFunction(() => document.querySelector("output")?.textContent === "12.5");
  assert.match(await page.textContent(".go"), /12\.5 psig/);
});
await test("signing needs a reason; letting go early signs nothing; holding signs", async () => {
  await page.goto(url + "#gate/v2");
  await page.waitForSelector(".hold");
  assert.equal(await page.getAttribute(".hold", "aria-disabled"), "true");
  await page.fill("input.field", "Owner told by radio");
  const b = await (await page.$(".hold")).boundingBox();
  await page.mouse.move(b.x + 50, b.y + 30); await page.mouse.down(); await page.waitForTimeout(600); await page.mouse.up();
  assert.match(page.url(), /#gate/);
  await page.mouse.down(); await page.waitForFunction(() => location.hash.startsWith("#cars"), null, { timeout: 4000 }); await page.mouse.up();
});
await test("who cannot hold signs with two taps, not with one", async () => {
  await page.goto(url + "#gate/v2"); await page.waitForSelector(".hold");
  await page.fill("input.field", "Gloves"); await page.tap(".quietly"); await page.tap(".hold");
  assert.match(await page.textContent(".hold"), /again/); assert.match(page.url(), /#gate/);
  await page.tap(".hold"); await page.waitForFunction(() => location.hash.startsWith("#cars"));
});
await test("help is one tap away from every screen", async () => {
  for (const s of ["cars", "new", "car/v2", "step/v2", "more/v2", "reading/v2", "proof/v2", "tally/v2", "seal/v2", "defect/v2", "differ/v2", "gate/v2", "history/v2/liquid_b", "only_here", "find", "setup", "carry", "refused"]) {
    await page.goto(url + "#" + s); await page.waitForSelector(".foot .help");
    await page.tap(".foot .help:has-text('Help')"); await page.waitForSelector("a[href^='tel:']");
  }
});
await test("a cold start without a network shows the cars", async () => {
  await page.goto(url); await page.evaluate(() => navigator.serviceWorker.ready.then(() => true));
  await page.waitForTimeout(800);
  await page.close(); await ctx.setOffline(true); await server.close();
  const cold = await ctx.newPage(); const cdp = await ctx.newCDPSession(cold); await cdp.send("Emulation.setCPUThrottlingRate", { rate: 4 });
  const t = Date.now(); await cold.goto(url); await cold.waitForSelector(".car"); console.log(`     usable after ${Date.now() - t} ms, offline, CPU slowed 4 times (mock core, no WASM)`);
  assert.equal(await cold.evaluate(() => document.fonts.check('700 20px "Atkinson Hyperlegible Next"')), true);
});
await browser.close();
console.log(`${passed} passed, 0 failed`);
