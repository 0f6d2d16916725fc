// The office's pages as a person at the office meets them, in a real browser over the demonstration's records. Everything in
// those records is invented. Prints what it found; ends with 1 at the first thing that is not as it must be.
import assert from "node:assert/strict";
import { execFileSync, spawn } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import axe from "axe-core";
import { chromium } from "playwright-core";

const programs = process.env.FARSIDING_PROGRAMS, shots = process.env.SHOTS;
const farsiding = join(programs, "farsiding");
mkdirSync(shots, { recursive: true });
const folder = process.env.DEMO_DATA ?? mkdtempSync(join(tmpdir(), "office-pages-"));
const password = "invented words for a test";
let server, passed = 0;
const ok = (what) => { passed += 1; console.log(`ok ${what}`); };

function run(program, args, options = {}) {
  return execFileSync(program, args, { encoding: "utf8", maxBuffer: 1 << 26, stdio: ["pipe", "pipe", "pipe"], ...options });
}

// --- records: the demonstration, and one more car about whose last pressure two people differ
const data = join(folder, "demo");
const told = process.env.DEMO_DATA ? readFileSync(join(folder, "told"), "utf8")
  : run(join(programs, "farsiding-demo"), ["--once", "--data", data, "--port", "0"]);
if (!process.env.DEMO_DATA) writeFileSync(join(folder, "told"), told);
const base = /http:\/\/127\.0\.0\.1:\d+/.exec(told)[0];
writeFileSync(join(data, "office-clock.next"), "2026-11-18T16:00:00Z");
renameSync(join(data, "office-clock.next"), join(data, "office-clock"));
const office = join(data, "office");

function serve() {
  return new Promise((done, failed) => {
    const child = spawn(farsiding, ["serve", "--data", office, "--listen", base.replace("http://", "")], { env: { ...process.env, FARSIDING_CLOCK: `@${join(data, "office-clock")}` }, stdio: ["ignore", "pipe", "pipe"] });
    let log = "";
    child.stderr.on("data", (piece) => { log += piece; });
    child.log = () => log;
    child.stdout.on("data", (piece) => { if (String(piece).includes("listening on")) done(child); });
    child.on("exit", (code) => failed(new Error(`the server ended with ${code}: ${log}`)));
  });
}
const phone = (name, time, ...args) => JSON.parse(run(farsiding, ["device", "--dir", join(data, name), "--json", ...args], { env: { ...process.env, FARSIDING_CLOCK: time } }));

async function main() {
  server = await serve();
  run(farsiding, ["account", "add", "--data", office, "--name", "Clerk (invented)"], { input: `${password}\n` });
  const day = (time) => `2026-11-18T${time}:00-06:00`;
  const opened = phone("phone-1", day("08:00"), "open", "--car", "ZZQX 70412", "--site", "lantern spur (invented)", "--spot", "track 1");
  const visit = opened.visit;
  phone("phone-1", day("08:01"), "add", visit, "clock", "actual_placement", "07:10");
  phone("phone-1", day("08:05"), "add", visit, "seal", "found", "housing_pin", "number=P881550", "kind=plastic");
  phone("phone-1", day("08:06"), "sync"); phone("phone-2", day("08:10"), "sync");
  phone("phone-1", day("09:30"), "add", visit, "reading", "pressure", "car", "final", "31 psi", "PG-11");
  const kept = phone("phone-2", day("09:31"), "add", visit, "reading", "pressure", "car", "final", "27.5 psi", "LG-12").entries[0];
  phone("phone-1", day("09:40"), "sync"); phone("phone-2", day("09:41"), "sync");

  const browser = await chromium.launch({ executablePath: process.env.CHROMIUM, args: ["--no-sandbox"] });
  try {
    await story(browser, visit, kept, day);
    await plain(browser, visit);
    await looks(browser, visit);
  } finally {
    await browser.close();
  }
}

const watched = (page) => {
  page.on("pageerror", (error) => { throw error; });
  page.on("console", (message) => { if (message.type() === "error" && !/40[0-9]|422/.test(message.text())) throw new Error(`the page says: ${message.text()}`); });
  return page;
};

async function signIn(page) {
  await page.goto(`${base}/office/`);
  await page.fill("#name", "clerk (invented)");
  await page.fill("#password", password);
  await page.click("button.go");
  await page.waitForURL(`${base}/office/`);
}

// --- what a person at the office does
async function story(browser, visit, kept, day) {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, acceptDownloads: true });
  const page = watched(await context.newPage());
  await signIn(page);
  await page.waitForSelector("text=ZZQX 70412");
  assert.match(await page.innerText(".car"), /two accounts: Final pressure at the car/);
  assert.match(await page.innerText(".car"), /\d+ h\s+since placement/);
  ok("Today shows the car, what keeps it and how long since placement");

  // The demonstration's disputed car, by its seal as it is read over a telephone: three clicks to the packet.
  await page.click("nav >> text=Inquiry");
  await page.fill("#q", "k 400-107");
  await page.keyboard.press("Enter");
  await page.waitForSelector(".found li");
  assert.equal(await page.locator(".found li").count(), 1);
  const [file] = await Promise.all([page.waitForEvent("download"), page.click(".found >> text=Packet")]);
  const packet = join(folder, "packet.pdf");
  await file.saveAs(packet);
  const key = run(farsiding, ["enrol", "--data", office, "--name", "unused", "--json"]);
  const said = run(farsiding, ["verify", packet, "--key", JSON.parse(key).organisation_key]);
  assert.match(file.suggestedFilename(), /^packet-ZZQX48213-[0-9a-f]+\.pdf$/);
  ok(`the disputed car's packet is three clicks from the seal's number and verifies: ${said.trim().split("\n")[0]}`);
  await page.click(".found a.num");
  await page.waitForSelector("text=how that ended");
  assert.ok(await page.locator("text=LG-12 is the low-range gauge").count() > 0);
  await page.locator(".photos").scrollIntoViewIfNeeded();
  await page.waitForFunction(() => [...document.querySelectorAll(".photos img")].some((i) => i.complete && i.naturalWidth > 0), null, { timeout: 10000 });
  ok("the visit tells how the dispute ended and shows its photographs");

  // Two pages open: what is settled in one, and what a phone brings, shows in the other by itself.
  const other = watched(await context.newPage());
  await other.goto(`${base}/office/`);
  await page.goto(`${base}/office/visits/${visit}`);
  await page.screenshot({ path: join(shots, "settle.png"), fullPage: true });
  await page.check(`input[value="${kept}"]`);
  await page.fill("textarea[name=why]", "Read together once more; PG-11 stands low on its scale.");
  await page.click(".settle button.go");
  await page.waitForSelector("text=how that ended");
  assert.equal(await page.locator("text=Accounts differ").count(), 0);
  await other.waitForFunction(() => !document.body.innerText.includes("two accounts:"), null, { timeout: 20000 });
  ok("what is settled in one page shows in another without reloading it");
  phone("phone-1", day("10:00"), "sync");
  const view = phone("phone-1", day("10:01"), "show", visit).visit;
  assert.equal(view.disagreements.length, 0);
  assert.equal(view.ended_disagreements[0].ended_by.said.name, "Clerk (invented)");
  phone("phone-1", day("10:02"), "add", visit, "hold", "frost ring low on the shell");
  phone("phone-1", day("10:03"), "sync");
  await other.waitForSelector("text=on hold: frost ring low on the shell", { timeout: 20000 });
  ok("the phone has the settlement; its hold shows on the open overview");

  // A near miss is offered; a date and a place find as well.
  await page.goto(`${base}/office/inquiry?q=ZZQX+70421`);
  await page.waitForSelector("text=One slip of the hand away");
  assert.ok(await page.locator("text=ZZQX 70412").count() > 0);
  for (const question of ["2026-11-10", "lantern spur 10 Nov 2026", "zzqx30551"]) {
    await page.goto(`${base}/office/inquiry?q=${encodeURIComponent(question)}`);
    assert.ok(await page.locator(".found >> text=ZZQX 30551").count() > 0, question);
  }
  ok("a swapped digit, a date and a place lead to their cars");

  // An inspector sees one record and nothing else.
  await page.goto(`${base}/office/visits/${visit}`);
  await page.fill("#label", "An inspector (invented)");
  await page.click("text=Make a link");
  const link = await page.innerText("code");
  const inspector = watched(await (await browser.newContext()).newPage());
  await inspector.goto(link);
  await inspector.click("text=Open the record");
  await inspector.waitForSelector("text=ZZQX 70412");
  assert.equal((await inspector.goto(`${base}/office/`)).status(), 403);
  assert.equal(await inspector.locator(".settle button").count(), 0);
  ok("an inspector's link opens one record");

  // A phone enrols by the picture's text; revoking asks twice.
  await page.goto(`${base}/office/devices`);
  await page.fill("#name", "phone-9");
  await page.click("text=Make a one-time code");
  const code = await page.innerText(".code");
  assert.ok(await page.locator("svg.qr path").count() > 0);
  await page.screenshot({ path: join(shots, "enrol.png") });
  phone("phone-9", day("10:10"), "init", "--operator", "ash");
  const enrolment = JSON.parse(run(farsiding, ["enrol", "--data", office, "--name", "unused", "--json"])).enrolment.replace(/enrol=[^&]+/, `enrol=${code}`);
  phone("phone-9", day("10:11"), "enrol", enrolment);
  await page.goto(`${base}/office/devices`);
  await page.click("[aria-label='Revoke phone-9']");
  await page.check("#sure");
  await page.click("button >> text=Revoke phone-9");
  await page.waitForURL(`${base}/office/devices`);
  assert.ok(await page.locator("text=revoked").count() > 0);
  ok("a device is enrolled by the code on the page and revoked");
  await page.click("button.quiet");
  await page.waitForURL(/sign-in/);
  assert.match((await page.goto(`${base}/office/devices`)).url(), /sign-in/);
  ok("signing out ends it");
  await context.close();
}

// --- without a script everything but the refresh works
async function plain(browser, visit) {
  const context = await browser.newContext({ javaScriptEnabled: false });
  const page = await context.newPage();
  await signIn(page);
  await page.click("text=Look again");
  await page.click("text=ZZQX 70412");
  await page.waitForSelector("text=The story");
  assert.ok(page.url().includes(visit));
  ok("without a script signing in, looking again and a visit work");
  await context.close();
}

/** Measures every text on its ground, and every target; runs in the page. */
function measure() {
  const parse = (text) => { const m = /rgba?\(([^)]+)\)/.exec(text); if (!m) return null; const [r, g, b, a = 1] = m[1].split(/[ ,/]+/).map(Number); return { r, g, b, a }; };
  const light = ({ r, g, b }) => { const f = (v) => { v /= 255; return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4; }; return 0.2126 * f(r) + 0.7152 * f(g) + 0.0722 * f(b); };
  const ground = (element) => { for (let e = element; e; e = e.parentElement) { const c = parse(getComputedStyle(e).backgroundColor); if (c && c.a === 1) return c; } return { r: 255, g: 255, b: 255 }; };
  const faint = [], small = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  let texts = 0, lowest = 21;
  while (walker.nextNode()) {
    const element = walker.currentNode.parentElement;
    if (!walker.currentNode.textContent.trim() || !element.checkVisibility({ visibilityProperty: true }) || element.closest(".skip, .sr, script")) continue;
    const svg = element.closest("svg"), style = getComputedStyle(element);
    const colour = parse(svg ? style.fill : style.color), behind = ground(svg ?? element);
    const [a, b] = [light(colour), light(behind)].sort((x, y) => y - x);
    const ratio = (a + 0.05) / (b + 0.05);
    texts += 1; lowest = Math.min(lowest, ratio);
    if (ratio < 7) faint.push(`${ratio.toFixed(2)} ${walker.currentNode.textContent.trim().slice(0, 40)}`);
  }
  for (const target of document.querySelectorAll("button, .key, .go, nav a, a.num, input:not([type=hidden]), select, summary")) {
    const box = (target.matches("[type=radio], [type=checkbox]") ? target.closest("label") ?? target : target).getBoundingClientRect();
    if (target.checkVisibility() && box.width > 0 && (box.height < 40 || box.width < 24)) small.push(`${Math.round(box.width)}x${Math.round(box.height)} ${target.outerHTML.slice(0, 80)}`);
  }
  return { texts, lowest, faint, small, wide: document.scrollingElement.scrollWidth - innerWidth };
}

// --- every page by day, by night, on a tablet and on paper
async function looks(browser, visit) {
  const pages = [["sign-in", "/office/sign-in"], ["today", "/office/"], ["inquiry", "/office/inquiry?q=ZZQX"], ["near", "/office/inquiry?q=ZZQX+70421"], ["visit", `/office/visits/${visit}`], ["devices", "/office/devices"], ["reconcile", "/office/reconcile"], ["seals", "/office/seals"], ["defects", "/office/defects"], ["instruments", "/office/instruments"], ["papers", "/office/papers"], ["not-here", "/office/nothing"]];
  let texts = 0, lowest = 21, looked = 0;
  for (const [name, width, colorScheme, media] of [["day", 1280, "light", "screen"], ["night", 1280, "dark", "screen"], ["tablet", 800, "light", "screen"], ["paper", 1000, "light", "print"]]) {
    const context = await browser.newContext({ viewport: { width, height: 1000 }, colorScheme });
    const page = watched(await context.newPage());
    await signIn(page);
    const demo = await page.goto(`${base}/office/inquiry?q=K400107`).then(() => page.getAttribute(".found a.num", "href"));
    await page.emulateMedia({ media, colorScheme });
    for (const [what, path] of [...pages, ["whole-visit", demo]]) {
      await page.goto(base + path);
      await page.evaluate(axe.source);
      const found = await page.evaluate(() => axe.run(document, { resultTypes: ["violations"] }));
      const wrong = found.violations.map((v) => `${v.id}: ${v.help} — ${v.nodes.map((n) => n.target.join(" ")).slice(0, 3).join(" | ")}`);
      assert.deepEqual(wrong, [], `${what} by ${name}`);
      const measured = await page.evaluate(measure);
      assert.deepEqual(measured.faint, [], `${what} by ${name}: text below 7:1`);
      if (media === "screen") assert.deepEqual(measured.small, [], `${what} by ${name}: targets`);
      assert.ok(measured.wide <= 0, `${what} by ${name} is ${measured.wide} px too wide`);
      texts += measured.texts; lowest = Math.min(lowest, measured.lowest); looked += 1;
      await page.screenshot({ path: join(shots, `${what}-${name}.png`), fullPage: what !== "whole-visit" });
      if (media === "print" && what === "whole-visit") await page.pdf({ path: join(shots, "whole-visit.pdf"), format: "Letter" });
    }
    await context.close();
  }
  ok(`axe finds nothing on ${looked} pages by day, night, on a tablet and on paper; ${texts} texts, lowest contrast ${lowest.toFixed(2)}:1 (aim >= 7)`);
}

try {
  await main();
  console.log(`office pages: ${passed} of ${passed} parts as they must be`);
} catch (error) {
  console.error(error);
  console.error(server?.log?.().split("\n").filter((line) => /ERROR|WARN/.test(line)).slice(-10).join("\n"));
  process.exitCode = 1;
} finally {
  server?.removeAllListeners?.("exit");
  server?.kill?.();
  if (!process.env.DEMO_DATA) rmSync(folder, { recursive: true, force: true });
}
