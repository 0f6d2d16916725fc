// What the phone itself brings to a record: where it is, a lit screen while a car is open, a timer that a
// locked screen does not stop; and how the office hands the app over.
import assert from "node:assert/strict";
import { readFileSync, readdirSync } from "node:fs";
import { request } from "node:http";
import { join } from "node:path";
import { brotliDecompressSync } from "node:zlib";
import { inPhone } from "../stage/programs.mjs";
import { pressureScreen } from "../stage/screens.mjs";
import { setsStage } from "../stage/setting.mjs";
import { chapter, measured } from "../stage/story.mjs";
import { later } from "../stage/waiting.mjs";

const { office, phoneOnDisk } = setsStage();
const ada = phoneOnDisk("a");
let visit = "";

/** What the office answers to a plain request, with its bytes as they were sent. */
function fetched(path, headers = {}) {
  return new Promise((done, failed) => {
    const asked = request(`${office.url}${path}`, { headers }, (answer) => {
      const parts = [];
      answer.on("data", (part) => parts.push(part));
      answer.on("end", () =>
        done({ status: answer.statusCode, headers: answer.headers, bytes: Buffer.concat(parts) }),
      );
    });
    asked.on("error", failed).end();
  });
}

chapter(
  "the office sends the app as it was compressed once, with the policy that keeps the page to itself",
  async () => {
    await office.opens();
    office.namesSiteAndPeople();
    const dist = inPhone("dist");
    const files = readdirSync(dist, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile() && !entry.name.endsWith(".br"))
      .map((entry) => join(entry.parentPath, entry.name));
    let plain = 0;
    let sent = 0;
    for (const file of files) {
      const path = `/app/${file.slice(dist.length).replace(/^\//, "")}`;
      const bytes = readFileSync(file);
      const packed = await fetched(path, { "accept-encoding": "br, gzip" });
      const whole = await fetched(path);
      const encoding = packed.headers["content-encoding"];
      const unpacked = encoding === "br" ? brotliDecompressSync(packed.bytes) : packed.bytes;
      assert.ok(whole.bytes.equals(bytes), path);
      assert.ok(unpacked.equals(bytes), path);
      assert.equal(encoding, /\.(png|woff2)$/.test(file) ? undefined : "br", path);
      for (const { headers } of [packed, whole]) {
        assert.equal(headers["content-type"], whole.headers["content-type"]);
        assert.match(headers["content-security-policy"], /script-src 'self' 'wasm-unsafe-eval';/);
        assert.equal(headers["x-content-type-options"], "nosniff");
      }
      if (file.endsWith(".wasm")) assert.equal(packed.headers["content-type"], "application/wasm");
      plain += bytes.length;
      // One language comes with the app; the others are fetched by whoever speaks them.
      if (!/words\/(?!en-US)/.test(file)) sent += packed.bytes.length;
    }
    measured(`phone first download ${sent} bytes as sent, ${plain} unpacked (aim < 1690000 sent)`);
    assert.ok(sent < 1_690_000);
  },
);

chapter("the screen stays lit while a car is open, and is let go of when it is left", async () => {
  await ada.opens({
    grants: ["durableStorage", "geolocation"],
    geolocation: { latitude: 41.25, longitude: -96.5, accuracy: 12 },
  });
  await ada.page.addInitScript(countsLitScreens);
  await ada.enrols("Ada");
  assert.equal(await ada.page.evaluate(() => globalThis.lit), 0);
  visit = await ada.opensCar("104417", "Track 2, spot 2");
  await ada.page.waitForFunction(() => globalThis.lit === 1);
  await ada.goesTo("cars//");
  await ada.page.waitForFunction(() => globalThis.lit === 0);
});

/**
 * Runs before the page's own scripts: counts the locks that keep the screen lit, and gives one where the
 * machine has none.
 */
function countsLitScreens() {
  const real = WakeLock.prototype.request;
  const aLock = () =>
    Object.assign(new EventTarget(), {
      released: false,
      release() {
        this.released = true;
        this.dispatchEvent(new Event("release"));
        return Promise.resolve();
      },
    });
  globalThis.lit = 0;
  WakeLock.prototype.request = async function (kind) {
    const lock = await real.call(this, kind).catch(aLock);
    globalThis.lit++;
    lock.addEventListener("release", () => globalThis.lit--);
    return lock;
  };
}

chapter(
  "where it is goes into an entry as the phone had it, if the person wants that and only then",
  async () => {
    await ada.setsValve(visit, "vapour", "Closed");
    await ada.goesTo("setup//");
    const choice = ada.page.locator('.name:has-text("where entries are made") + .keys');
    await choice.locator('button:has-text("Yes")').tap();
    await later(500);
    await ada.setsValve(visit, "liquid_a", "Closed");
    await ada.goesTo(`history/${visit}`);
    await ada.page.locator("ol li button").first().tap();
    await ada.sees("41.25000, -96.50000 ± 12 m");
    await ada.meetsOffice();
    const placeOf = (words) =>
      office.view(visit).history.find((line) => line.sentence.text.startsWith(words)).said.place;
    assert.equal(placeOf("Valve (vapor valve): closed"), undefined);
    const place = { latitude: 41.25, longitude: -96.5, accuracy_m: 12 };
    assert.deepEqual(placeOf("Valve (liquid valve A): closed"), place);
  },
);

/** Seconds on the timer of the empty proof. */
async function secondsShown() {
  const [minutes, seconds] = (await ada.page.locator(".timer b").textContent()).split(":").map(Number);
  return minutes * 60 + seconds;
}

chapter("the timer of the empty proof goes on while the screen is locked", async () => {
  await ada.goesTo(pressureScreen(visit, "hold_test"));
  await ada.types("4", "0");
  await ada.confirmsAndLeaves("figure");
  await ada.goesTo(`proof/${visit}/`);
  await ada.page.waitForSelector(".timer b");
  const began = Date.now();
  const before = await secondsShown();
  await ada.side.send("Page.setWebLifecycleState", { state: "frozen" });
  await later(5000);
  await ada.side.send("Page.setWebLifecycleState", { state: "active" });
  await later(1300);
  const gone = (Date.now() - began) / 1000;
  const counted = (await secondsShown()) - before;
  assert.ok(Math.abs(counted - gone) < 2.2, `${counted} s shown of ${gone.toFixed(1)}`);

  await ada.startsAnew();
  await ada.page.goto(ada.appAt(`#proof/${visit}/`));
  await ada.page.waitForSelector(".timer b");
  const all = (Date.now() - began) / 1000;
  assert.ok(Math.abs((await secondsShown()) - before - all) < 2.2, "and when the phone was off");
  return `(${counted} s shown of ${gone.toFixed(1)} frozen)`;
});
