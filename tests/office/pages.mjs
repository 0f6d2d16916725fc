// The office's pages as a person at the office meets them, in a real browser over the demonstration's records. Everything in
// those records is invented. Prints what it found; ends with 1 at the first thing that is not as it must be.
import assert from "node:assert/strict";
import { createHmac } from "node:crypto";
import { execFileSync, spawn, spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import axe from "axe-core";
import { chromium } from "playwright-core";

const programs = process.env.FARSIDING_PROGRAMS,
  shots = process.env.SHOTS,
  python = process.env.VERIFY_PYTHON;
const farsiding = join(programs, "farsiding");
mkdirSync(shots, { recursive: true });
const folder = process.env.DEMO_DATA ?? mkdtempSync(join(tmpdir(), "office-pages-"));
const password = "invented words for a test";
let server,
  passed = 0;
const ok = (what) => {
  passed += 1;
  console.log(`ok ${what}`);
};

function run(program, args, options = {}) {
  return execFileSync(program, args, {
    encoding: "utf8",
    maxBuffer: 1 << 26,
    stdio: ["pipe", "pipe", "pipe"],
    ...options,
  });
}

// --- records: the demonstration, and one more car about whose last pressure two people differ
const data = join(folder, "demo");
const told = process.env.DEMO_DATA
  ? readFileSync(join(folder, "told"), "utf8")
  : run(join(programs, "farsiding-demo"), ["--once", "--data", data, "--port", "0"]);
if (!process.env.DEMO_DATA) writeFileSync(join(folder, "told"), told);
const base = /http:\/\/127\.0\.0\.1:\d+/.exec(told)[0];
/** The office's clock goes with the phones': it is never earlier than what they say they did. */
function itIs(time) {
  writeFileSync(join(data, "office-clock.next"), new Date(time).toISOString().replace(/\.\d+Z/, "Z"));
  renameSync(join(data, "office-clock.next"), join(data, "office-clock"));
}
itIs("2026-11-18T13:00:00Z");
const office = join(data, "office");

function serve(of = office, at = base, clock = `@${join(data, "office-clock")}`) {
  return new Promise((done, failed) => {
    // An invented month has records of days after the one its pages are looked at.
    const before = clock.startsWith("@")
      ? []
      : ["--clock-was-wrong", "an invented month is looked at before its end"];
    const child = spawn(
      farsiding,
      ["serve", "--data", of, "--listen", at.replace("http://", ""), ...before],
      { env: { ...process.env, FARSIDING_CLOCK: clock }, stdio: ["ignore", "pipe", "pipe"] },
    );
    let log = "";
    child.stderr.on("data", (piece) => {
      log += piece;
    });
    child.log = () => log;
    child.stdout.on("data", (piece) => {
      if (String(piece).includes("listening on")) done(child);
    });
    child.on("exit", (code) => failed(new Error(`the server ended with ${code}: ${log}`)));
  });
}
const phone = (name, time, ...args) => {
  itIs(time);
  return JSON.parse(
    run(farsiding, ["device", "--dir", join(data, name), "--json", ...args], {
      env: { ...process.env, FARSIDING_CLOCK: time },
    }),
  );
};

async function main() {
  server = await serve();
  run(farsiding, ["account", "add", "--data", office, "--name", "Clerk (invented)"], {
    input: `${password}\n`,
    env: { ...process.env, FARSIDING_CLOCK: "2026-11-18T13:00:00Z" },
  });
  const day = (time) => `2026-11-18T${time}:00-06:00`;
  // At the other siding a car is being received.
  const there = (time) => `2026-11-18T${time}:00-07:00`;
  const second = phone(
    "phone-3",
    there("06:20"),
    "open",
    "--car",
    "ZZQX 20415",
    "--site",
    "thimble siding (invented)",
    "--spot",
    "stub",
    "--receiver",
    "truck",
  ).visit;
  for (const [at, words] of [
    [
      "06:24",
      "paper number=INV-4020 car=ZZQX_20415 shipper=Invented_Terminal un_number=UN1978 product=Propane billed=29_410_gal relative_density=0.508 odorised=yes",
    ],
    ["06:26", "clock actual_placement 05:10"],
    ["06:30", "protection hand_brake set"],
    ["06:31", "protection chocks set"],
    ["06:32", "protection blue_sign set"],
    ["06:41", "seal found housing_pin number=P881702 kind=plastic"],
  ])
    phone(
      "phone-3",
      there(at),
      "add",
      second,
      ...words
        .split(" ")
        .map((word) =>
          word.replaceAll(
            "_",
            word.includes("=") && !/^(un_number|relative_density)=/.test(word) ? " " : "_",
          ),
        ),
    );
  phone("phone-3", there("06:50"), "sync");
  const opened = phone(
    "phone-1",
    day("08:00"),
    "open",
    "--car",
    "ZZQX 70412",
    "--site",
    "lantern spur (invented)",
    "--spot",
    "track 1",
  );
  const visit = opened.visit;
  phone("phone-1", day("08:01"), "add", visit, "clock", "actual_placement", "07:10");
  phone(
    "phone-1",
    day("08:05"),
    "add",
    visit,
    "seal",
    "found",
    "housing_pin",
    "number=P881550",
    "kind=plastic",
  );
  phone("phone-1", day("08:06"), "sync");
  phone("phone-2", day("08:10"), "sync");
  phone("phone-1", day("09:30"), "add", visit, "reading", "pressure", "car", "final", "31 psi", "PG-11");
  const kept = phone(
    "phone-2",
    day("09:31"),
    "add",
    visit,
    "reading",
    "pressure",
    "car",
    "final",
    "27.5 psi",
    "LG-12",
  ).entries[0];
  phone("phone-1", day("09:40"), "sync");
  phone("phone-2", day("09:41"), "sync");
  const browser = await chromium.launch({ executablePath: process.env.CHROMIUM, args: ["--no-sandbox"] });
  try {
    const link = await story(browser, visit, kept, day);
    await plain(browser, visit);
    await secondFactor(browser);
    await looks(browser, visit, link);
    await month(browser);
    ok(
      `axe finds nothing on ${seen.looked} pages by day and night, on laptop, tablet and paper; ${seen.texts} texts, lowest contrast ${seen.lowest.toFixed(2)}:1 (aim >= 7)`,
    );
  } finally {
    await browser.close();
  }
}

const watched = (page) => {
  page.on("pageerror", (error) => {
    throw error;
  });
  page.on("console", (message) => {
    if (message.type() === "error" && !/40[0-9]|422/.test(message.text()))
      throw new Error(`the page says: ${message.text()}`);
  });
  return page;
};

async function signIn(page, at = base) {
  await page.goto(`${at}/office/`);
  await page.fill("#name", "clerk (invented)");
  await page.fill("#password", password);
  await page.click("button.go");
  await page.waitForURL(`${at}/office/`);
}

/** What both verifiers say of a packet: the code words of what is broken and of what is marked, which must agree. */
function verified(packet) {
  const told = [
    [farsiding, ["verify"]],
    [python, ["tests/verify/verify_packet.py"]],
  ].map(([program, first]) => {
    const ran = spawnSync(program, [...first, packet, "--key", organisation(), "--json"], {
      encoding: "utf8",
      maxBuffer: 1 << 26,
    });
    const answer = JSON.parse(ran.stdout),
      of = (outcome) =>
        [...new Set(answer.lines.filter((line) => line.outcome === outcome).map((line) => line.code))].sort();
    assert.equal(ran.status === 0, answer.ok);
    // The second verifier draws nothing, and says so.
    return { broken: of("broken"), marked: of("marked").filter((code) => code !== "pages_not_drawn") };
  });
  assert.deepEqual(told[1], told[0], "the two verifiers differ");
  return told[0];
}

let key;
const organisation = () =>
  (key ??= JSON.parse(
    run(farsiding, ["enrol", "--data", office, "--name", "unused", "--json"]),
  ).organisation_key);

/** The downloaded packet holds; damaged in every way, each damage is named by both verifiers. The office's own key is at
    hand here, so what only the office could forge is forged on the real record too. What needs a phone's own secret is
    forged on a synthetic packet by ../verify. */
function damaged(packet) {
  assert.deepEqual(verified(packet).broken, []);
  ok("the downloaded packet holds, say farsiding and the second verifier");
  const cases = join(folder, "cases");
  run(python, ["tests/verify/damage.py", packet, cases, join(office, "organisation.key")]);
  const list = JSON.parse(readFileSync(join(cases, "cases.json"), "utf8"));
  const wanted = {
    altered_entry: "altered_entry",
    removed_entry: "removed_entry",
    reordered_entries: "reordered_entries",
    altered_photo: "altered_photo",
    swapped_photo: "swapped_photo",
    forged_device: "forged_device",
    backdated_receipt: "backdated_receipt",
    truncated_file: "truncated_file",
    wrong_key: "wrong_key",
    edited_pages: "edited_pages",
    log_fork_against_a_note: "log_fork",
    log_fork_inside: "log_fork",
  };
  for (const [name, code] of Object.entries(wanted))
    assert.ok(
      list.some((one) => one.file === `${name}.pdf` && one.expect === code && !one.only),
      name,
    );
  ok(`damaged and forged: ${run(python, ["tests/verify/agree.py", farsiding, cases]).trim()}`);
}

// --- what a person at the office does
async function story(browser, visit, kept, day) {
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 }, acceptDownloads: true });
  const page = watched(await context.newPage());
  await signIn(page);
  await page.waitForSelector("text=ZZQX 70412");
  assert.match(await page.innerText(".car"), /two accounts: Final pressure at the car/);
  assert.match(await page.innerText(".car"), /\d+ h\s+since placement/);
  ok("Today shows the car, what keeps it and how long since placement");

  // The demonstration's disputed car, by its seal as it is read over a telephone: three clicks to the packet.
  await page.goto(`${base}/office/sign-in`);
  const asked = Date.now();
  await page.click(".mark");
  await page.click("nav >> text=Inquiry");
  await page.type("#q", "k 400-107", { delay: 120 });
  await page.keyboard.press("Enter");
  await page.waitForSelector(".found li");
  assert.equal(await page.locator(".found li").count(), 1);
  const [file] = await Promise.all([page.waitForEvent("download"), page.click(".found >> text=Packet")]);
  const packet = join(folder, "packet.pdf");
  await file.saveAs(packet);
  const seconds = (Date.now() - asked) / 1000;
  assert.ok(seconds < 60, `${seconds} s`);
  assert.match(file.suggestedFilename(), /^packet-ZZQX48213-[0-9a-f]+\.pdf$/);
  ok(
    `the disputed car's packet is three clicks from the seal's number, in ${seconds.toFixed(1)} s (aim < 60 s)`,
  );
  damaged(packet);
  await page.click(".found a.num");
  await page.waitForSelector("text=how that ended");
  assert.ok((await page.locator("text=LG-12 is the low-range gauge").count()) > 0);
  await page.locator(".photos").scrollIntoViewIfNeeded();
  await page.waitForFunction(
    () => [...document.querySelectorAll(".photos img")].some((i) => i.complete && i.naturalWidth > 0),
    null,
    { timeout: 10000 },
  );
  ok("the visit tells how the dispute ended and shows its photographs");

  // Two pages open: what is settled in one, and what a phone brings, shows in the other by itself.
  const other = watched(await context.newPage());
  await other.goto(`${base}/office/`);
  await page.goto(`${base}/office/visits/${visit}`);
  assert.match(
    await page.innerText("[aria-label=Readings]"),
    /31 ± 3\.0 psi[\s\S]*27\.5 ± 0\.3 psi|27\.5 ± 0\.3 psi[\s\S]*31 ± 3\.0 psi/,
  );
  await inspect(page, "settle", "day", "screen");
  await picture(page, "differ");
  await page.check(`input[value="${kept}"]`);
  await page.fill("textarea[name=why]", "Read together once more; PG-11 stands low on its scale.");
  await page.click(".settle button.go");
  await page.waitForSelector("text=how that ended");
  assert.equal(await page.locator("text=Accounts differ").count(), 0);
  await other.waitForFunction(() => !document.body.innerText.includes("two accounts:"), null, {
    timeout: 20000,
  });
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
  assert.ok((await page.locator("text=ZZQX 70412").count()) > 0);
  for (const question of ["2026-11-10", "lantern spur 10 Nov 2026", "zzqx30551"]) {
    await page.goto(`${base}/office/inquiry?q=${encodeURIComponent(question)}`);
    assert.ok((await page.locator(".found >> text=ZZQX 30551").count()) > 0, question);
  }
  ok("a swapped digit, a date and a place lead to their cars");

  // An inspector sees one record and nothing else.
  await page.goto(`${base}/office/visits/${visit}`);
  await page.fill("#label", "An inspector (invented)");
  await page.click("text=Make a link");
  const link = await page.innerText("code");
  await inspect(page, "link-made", "day", "screen");
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
  assert.ok((await page.locator("svg.qr path").count()) > 0);
  await inspect(page, "enrol", "day", "screen");
  phone("phone-9", day("10:10"), "init", "--operator", "ash");
  const enrolment = JSON.parse(
    run(farsiding, ["enrol", "--data", office, "--name", "unused", "--json"]),
  ).enrolment.replace(/enrol=[^&]+/, `enrol=${code}`);
  phone("phone-9", day("10:11"), "enrol", enrolment);
  await page.goto(`${base}/office/devices`);
  await page.click("[aria-label='Change or revoke phone-9']");
  await page.click("a >> text=Revoke phone-9");
  await page.check("#sure");
  await page.click("button >> text=Revoke phone-9");
  await page.waitForURL(`${base}/office/devices`);
  assert.ok((await page.locator("text=revoked").count()) > 0);
  ok("a device is enrolled by the code on the page and revoked");
  await papers(page);
  await revokedLater(page);
  await page.click("button.quiet");
  await page.waitForURL(/sign-in/);
  assert.match((await page.goto(`${base}/office/devices`)).url(), /sign-in/);
  await page.fill("#name", "clerk (invented)");
  await page.fill("#password", "not these words");
  await page.click("button.go");
  await page.waitForSelector("[role=alert]");
  await inspect(page, "sign-in-refused", "day", "screen");
  ok("signing out ends it; a wrong password is refused and says so");
  await context.close();
  return link;
}

// --- shipping papers come in as a file; the next of its kind is read the same way
async function papers(page) {
  const heads = "Doc;Tank;Who shipped;Loaded;Qty\n";
  const line = (number, car) => `${number};${car};Invented Terminal;2026-11-17;29 410 gal\n`;
  const hand = async (name, text) => {
    await page.goto(`${base}/office/papers`);
    await page.setInputFiles("#file", { name, mimeType: "text/csv", buffer: Buffer.from(text) });
    await page.click("text=Look it over");
    await page.waitForSelector("table");
  };
  const first =
    heads +
    line("INV-5001", "ZZQX 70412") +
    line("INV-5002", "ZZQX 70421") +
    line("INV-5003", "the green one");
  await hand("november (invented).csv", first);
  assert.match(await page.innerText(".told"), /Heads not seen before/);
  for (const [id, at] of [
    ["number", 0],
    ["car", 1],
    ["shipper", 2],
    ["day", 3],
    ["billed", 4],
  ])
    await page.selectOption(`#${id}`, String(at));
  await page.click("text=Look again");
  await page.waitForSelector("text=2 of 3 lines can be taken in");
  assert.match(await page.innerText("table"), /the green one. is no car number/);
  await inspect(page, "papers-looked-over", "day", "screen");
  await page.click("button.go");
  await page.waitForURL(`${base}/office/papers`);
  assert.match(await page.innerText("main"), /ZZQX 70421 · paper INV-5002/);
  const [kept] = await Promise.all([
    page.waitForEvent("download"),
    page.click("text=november (invented).csv"),
  ]);
  assert.equal(readFileSync(await kept.path(), "utf8"), first, "kept to the byte");
  await hand("december (invented).csv", heads + line("INV-6001", "ZZQX 70413"));
  assert.match(await page.innerText(".told"), /Read as the last file with these heads was\. 1 of 1 line/);
  ok("papers come in as a file, are looked over, kept to the byte, and the next file's columns are known");
}

// --- a phone that is revoked and then brings what it still had: in the record, and marked in the packet
async function revokedLater(page) {
  const day = (time) => `2026-11-18T${time}:00-06:00`;
  phone("phone-2", day("10:20"), "add", "ZZQX 48213", "remark", "written down after the phone was lost");
  await page.goto(`${base}/office/devices`);
  await page.click("[aria-label='Change or revoke phone-2']");
  await page.click("a >> text=Revoke phone-2");
  await inspect(page, "revoke", "day", "screen");
  await page.check("#sure");
  await page.click("button >> text=Revoke phone-2");
  await page.waitForURL(`${base}/office/devices`);
  spawnSync(farsiding, ["device", "--dir", join(data, "phone-2"), "sync"], {
    env: { ...process.env, FARSIDING_CLOCK: day("10:25") },
  });
  itIs(day("10:25"));
  await page.goto(`${base}/office/inquiry?q=K400107`);
  const until = Date.now() + 20000;
  for (let said = { marked: [] }; !said.marked.includes("revoked_device");) {
    assert.ok(Date.now() < until, "the packet never marked it");
    const [file] = await Promise.all([page.waitForEvent("download"), page.click(".found >> text=Packet")]);
    await file.saveAs(join(folder, "later.pdf"));
    said = verified(join(folder, "later.pdf"));
    assert.deepEqual(said.broken, []);
  }
  ok("what a revoked phone brought is in the next packet, marked as such by both verifiers");
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
  const parse = (text) => {
    const m = /rgba?\(([^)]+)\)/.exec(text);
    if (!m) return null;
    const [r, g, b, a = 1] = m[1].split(/[ ,/]+/).map(Number);
    return { r, g, b, a };
  };
  const light = ({ r, g, b }) => {
    const f = (v) => {
      v /= 255;
      return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
    };
    return 0.2126 * f(r) + 0.7152 * f(g) + 0.0722 * f(b);
  };
  const ground = (element) => {
    for (let e = element; e; e = e.parentElement) {
      const c = parse(getComputedStyle(e).backgroundColor);
      if (c && c.a === 1) return c;
    }
    return { r: 255, g: 255, b: 255 };
  };
  const faint = [],
    small = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  let texts = 0,
    lowest = 21;
  while (walker.nextNode()) {
    const element = walker.currentNode.parentElement;
    if (
      !walker.currentNode.textContent.trim() ||
      !element.checkVisibility({ visibilityProperty: true }) ||
      element.closest(".skip, .sr, script")
    )
      continue;
    const svg = element.closest("svg"),
      style = getComputedStyle(element);
    const colour = parse(svg ? style.fill : style.color),
      behind = ground(svg ?? element);
    const [a, b] = [light(colour), light(behind)].sort((x, y) => y - x);
    const ratio = (a + 0.05) / (b + 0.05);
    texts += 1;
    lowest = Math.min(lowest, ratio);
    if (ratio < 7) faint.push(`${ratio.toFixed(2)} ${walker.currentNode.textContent.trim().slice(0, 40)}`);
  }
  for (const target of document.querySelectorAll(
    "button, .key, .go, nav a, a.num, input:not([type=hidden]), select, summary",
  )) {
    const box = (
      target.matches("[type=radio], [type=checkbox]") ? (target.closest("label") ?? target) : target
    ).getBoundingClientRect();
    if (target.checkVisibility() && box.width > 0 && (box.height < 40 || box.width < 24))
      small.push(`${Math.round(box.width)}x${Math.round(box.height)} ${target.outerHTML.slice(0, 80)}`);
  }
  return { texts, lowest, faint, small, wide: document.scrollingElement.scrollWidth - innerWidth };
}

const seen = { texts: 0, lowest: 21, looked: 0 };

/** One page by axe, by its contrast and targets and its width, and as a picture. */
async function inspect(page, what, name, media, fullPage = true) {
  await page.evaluate(axe.source);
  const found = await page.evaluate(() => axe.run(document, { resultTypes: ["violations"] }));
  const wrong = found.violations.map(
    (v) =>
      `${v.id}: ${v.help} — ${v.nodes
        .map((n) => n.target.join(" "))
        .slice(0, 3)
        .join(" | ")}`,
  );
  assert.deepEqual(wrong, [], `${what} by ${name}`);
  const measured = await page.evaluate(measure);
  assert.deepEqual(measured.faint, [], `${what} by ${name}: text below 7:1`);
  if (media === "screen") assert.deepEqual(measured.small, [], `${what} by ${name}: targets`);
  assert.ok(measured.wide <= 0, `${what} by ${name} is ${measured.wide} px too wide`);
  seen.texts += measured.texts;
  seen.lowest = Math.min(seen.lowest, measured.lowest);
  seen.looked += 1;
  await page.screenshot({ path: join(shots, `${what}-${name}.png`), fullPage });
}

/** What a telephone shows (RFC 6238) at the office's hand-set clock, `later` half minutes on. */
function shown(letters, later = 0) {
  const fiveBits = (letter) =>
    "ABCDEFGHIJKLMNOPQRSTUVWXYZ234567".indexOf(letter).toString(2).padStart(5, "0");
  const bits = [...letters.replaceAll(" ", "")].map(fiveBits).join("");
  const secret = Buffer.from(bits.match(/.{8}/g).map((byte) => parseInt(byte, 2)));
  const now = Date.parse(readFileSync(join(data, "office-clock"), "utf8").trim());
  const step = Buffer.alloc(8);
  step.writeBigUInt64BE(BigInt(Math.floor(now / 30_000) + later));
  const mac = createHmac("sha1", secret).update(step).digest();
  return String((mac.readUInt32BE(mac[19] & 15) & 0x7fffffff) % 1_000_000).padStart(6, "0");
}

// --- a second factor as a person sets it up and signs in with it
async function secondFactor(browser) {
  const add = ["account", "add", "--data", office, "--name", "Second (invented)", "--role", "clerk"];
  const env = { ...process.env, FARSIDING_CLOCK: "2026-11-18T13:00:00Z" };
  run(farsiding, add, { input: `${password}\n`, env });
  const begin = async (page) => {
    await page.goto(`${base}/office/sign-in`);
    await page.fill("#name", "second (invented)");
    await page.fill("#password", password);
    await page.click("button.go");
  };
  const screens = [
    ["day", 1280, 800, "light"],
    ["tablet-night", 820, 1180, "dark"],
  ];
  for (const [name, width, height, colorScheme] of screens) {
    const context = await browser.newContext({ viewport: { width, height }, colorScheme });
    const page = watched(await context.newPage());
    await begin(page);
    await page.waitForURL(`${base}/office/`);
    await page.goto(`${base}/office/own`);
    await page.fill("#set-up-password", password);
    await page.click("text=Set it up");
    await page.fill("#code", "000000");
    await page.click("text=It works");
    await page.waitForSelector("[role=alert]");
    await inspect(page, "second-factor-set-up", name, "screen");
    const letters = await page.textContent("p.letters code");
    await page.fill("#code", shown(letters));
    await page.click("text=It works");
    await page.waitForSelector("ol.letters");
    assert.equal(await page.locator("ol.letters li").count(), 8);
    await inspect(page, "recovery-codes", name, "screen");
    const [recovery] = await page.locator("ol.letters code").allTextContents();
    await page.click("button.quiet");
    await begin(page);
    await page.fill("#code", shown(letters)); // it was taken when it was set up
    await page.click("button.go");
    await page.waitForSelector("[role=alert]");
    await inspect(page, "code-refused", name, "screen");
    await page.fill("#code", shown(letters, 1));
    await page.click("button.go");
    await page.waitForURL(`${base}/office/`);
    await page.goto(`${base}/office/own`);
    await page.click("text=Turn it off");
    await inspect(page, "own-with-factor", name, "screen");
    await page.fill("#off-password", password);
    await page.fill("#off-code", recovery);
    await page.click("button >> text=Turn it off");
    await page.waitForSelector("text=The second factor is off");
    await page.goto(`${base}/office/accounts`);
    await inspect(page, "not-your-right", name, "screen");
    await context.close();
  }
  ok("a second factor is set up, asked for, takes no code twice, and is turned off with a recovery code");
}

// --- every page by day and by night, on a laptop, on a tablet and on paper
async function looks(browser, visit, link) {
  const pages = [
    ["today", "/office/"],
    ["inquiry", "/office/inquiry?q=ZZQX"],
    ["near", "/office/inquiry?q=ZZQX+70421"],
    ["nothing", "/office/inquiry?q=QQQX+1"],
    ["visit", `/office/visits/${visit}`],
    ["devices", "/office/devices"],
    ["late", "/office/late"],
    ["reconcile", "/office/reconcile"],
    ["empty-month", "/office/reconcile?month=2025-01"],
    ["seals", "/office/seals"],
    ["defects", "/office/defects"],
    ["instruments", "/office/instruments"],
    ["papers", "/office/papers"],
    ["own", "/office/own"],
    ["accounts", "/office/accounts"],
    ["audit", "/office/audit"],
    ["state", "/office/state"],
    ["not-here", "/office/nothing"],
  ];
  const strangers = [
    ["sign-in", "/office/sign-in"],
    ["link", new URL(link).pathname],
    ["link-is-over", "/office/link/AAAA"],
  ];
  for (const [name, width, height, colorScheme, media] of [
    ["day", 1280, 800, "light", "screen"],
    ["night", 1280, 800, "dark", "screen"],
    ["tablet", 820, 1180, "light", "screen"],
    ["tablet-night", 820, 1180, "dark", "screen"],
    ["paper", 1000, 1000, "light", "print"],
  ]) {
    const context = await browser.newContext({ viewport: { width, height }, colorScheme });
    const page = watched(await context.newPage());
    await page.emulateMedia({ media, colorScheme });
    for (const [what, path] of strangers) {
      await page.goto(base + path);
      await inspect(page, what, name, media);
    }
    await signIn(page);
    const demo = await page
      .goto(`${base}/office/inquiry?q=K400107`)
      .then(() => page.getAttribute(".found a.num", "href"));
    for (const [what, path] of [...pages, ["whole-visit", demo]]) {
      await page.goto(base + path);
      await page.evaluate(() => {
        for (const image of document.querySelectorAll("img[loading=lazy]")) image.loading = "eager";
        return Promise.all([...document.images].map((image) => image.decode().catch(() => {})));
      });
      await inspect(page, what, name, media);
      if (name === "day" && what === "today") await picture(page, "today");
      if (name === "day" && what === "whole-visit") {
        await page.locator("h2", { hasText: "The car" }).evaluate((heading) => heading.scrollIntoView());
        await picture(page, "visit");
        await page.evaluate(() => scrollTo(0, 0));
      }
      if (media === "print" && what.endsWith("visit"))
        await page.pdf({ path: join(shots, `${what}.pdf`), format: "Letter" });
    }
    // As an inspector has it: one record, nothing to press but its packet.
    await context.clearCookies();
    await page.goto(link);
    await page.click("text=Open the record");
    await page.waitForSelector("text=The story");
    await inspect(page, "inspector", name, media);
    await page.goto(`${base}/office/`);
    await inspect(page, "not-yours", name, media);
    await context.close();
  }
}

// --- a month of 120 cars with everything planted in it that reconcile looks for
async function month(browser) {
  const at = base,
    clock = "2026-11-01T12:00:00Z",
    of = join(folder, "month", "office");
  run(join(programs, "farsiding-demo"), ["--month", join(folder, "month"), "--seed", "7", "--faults", "all"]);
  run(farsiding, ["account", "add", "--data", of, "--name", "Clerk (invented)"], {
    input: `${password}\n`,
    env: { ...process.env, FARSIDING_CLOCK: clock },
  });
  server.removeAllListeners("exit");
  await new Promise((done) => {
    server.once("exit", done);
    server.kill();
  });
  server = await serve(of, at, clock);
  for (const [name, width, height, colorScheme] of [
    ["day", 1280, 800, "light"],
    ["tablet-night", 820, 1180, "dark"],
  ]) {
    const context = await browser.newContext({ viewport: { width, height }, colorScheme });
    const page = watched(await context.newPage());
    await signIn(page);
    await page.goto(`${base}/office/reconcile?month=2026-10`);
    for (
      const until = Date.now() + 120000;
      (await page.locator("text=A gauge reads one way").count()) === 0 ||
      (await page.locator(".told[role=status]").count()) > 0;
      await page.reload()
    ) {
      assert.ok(Date.now() < until, "the index never followed");
      await new Promise((done) => setTimeout(done, 500));
    }
    for (const planted of [
      "A gauge reads one way: GR-T2",
      "A car came overfilled",
      "Two numbers for one car",
      "One seal on two cars",
      "An entry is missing",
    ])
      assert.ok((await page.innerText("main")).includes(planted), planted);
    assert.ok((await page.locator("svg.chart").count()) >= 4);
    for (const [what, path] of [
      ["month-reconcile", "/office/reconcile?month=2026-10"],
      ["month-seals", "/office/seals"],
      ["month-defects", "/office/defects"],
      ["month-today", "/office/"],
      ["month-inquiry", "/office/inquiry?q=ZZQX"],
    ]) {
      await page.goto(base + path);
      await inspect(page, what, name, "screen");
    }
    await context.close();
  }
  ok("a month of 120 cars shows all that was planted in it, and its charts");
}

/** With PICTURES=1, one of those that stand in the README: what the window shows. */
async function picture(page, name) {
  if (process.env.PICTURES !== "1") return;
  const shot = join(shots, `picture-${name}.png`),
    to = `sync-server/pictures/office-${name}.webp`;
  mkdirSync("sync-server/pictures", { recursive: true });
  await page.screenshot({ path: shot });
  run(python, [
    "-c",
    "import sys; from PIL import Image; Image.open(sys.argv[1]).convert('RGB').save(sys.argv[2], quality=82, method=6)",
    shot,
    to,
  ]);
  assert.ok(statSync(to).size <= 120_000, `${to} is ${statSync(to).size} bytes`);
}

try {
  await main();
  console.log(`office pages: ${passed} of ${passed} parts as they must be`);
} catch (error) {
  console.error(error);
  console.error(
    server
      ?.log?.()
      .split("\n")
      .filter((line) => /ERROR|WARN/.test(line))
      .slice(-10)
      .join("\n"),
  );
  process.exitCode = 1;
} finally {
  server?.removeAllListeners?.("exit");
  if (server?.kill && server.exitCode === null && server.signalCode === null) {
    const gone = new Promise((done) => server.once("exit", done));
    server.kill();
    await gone;
  }
  if (!process.env.DEMO_DATA) rmSync(folder, { recursive: true, force: true });
}
