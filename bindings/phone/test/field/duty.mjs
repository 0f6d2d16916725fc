// What the phone itself brings to a record: where it is, a lit screen while a car is open, a timer that a locked screen does not stop; and
// how the office hands the app over.
import assert from "node:assert/strict";
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { brotliDecompressSync } from "node:zlib";
import { request } from "node:http";
import { folder } from "../stage.mjs";
import { later, stories } from "./stage.mjs";

await stories(async ({ office, phone, test }) => {
  await office.start();
  office.furnish();
  const fetched = (path, headers = {}) =>
    new Promise((done, failed) =>
      request(`${office.url}${path}`, { headers }, (answer) => {
        const parts = [];
        answer
          .on("data", (part) => parts.push(part))
          .on("end", () =>
            done({ status: answer.statusCode, headers: answer.headers, bytes: Buffer.concat(parts) }),
          );
      })
        .on("error", failed)
        .end(),
    );
  await test("the office sends the app as it was compressed once, with the policy that keeps the page to itself", async () => {
    let plain = 0,
      sent = 0;
    for (const entry of readdirSync(folder("dist"), { recursive: true, withFileTypes: true }).filter(
      (e) => e.isFile() && !e.name.endsWith(".br"),
    )) {
      const file = join(entry.parentPath, entry.name),
        path = `/app/${file.slice(folder("dist").length).replace(/^\//, "")}`,
        bytes = readFileSync(file);
      const [packed, whole] = [await fetched(path, { "accept-encoding": "br, gzip" }), await fetched(path)];
      assert.ok(whole.bytes.equals(bytes), path);
      assert.ok(
        (packed.headers["content-encoding"] === "br"
          ? brotliDecompressSync(packed.bytes)
          : packed.bytes
        ).equals(bytes),
        path,
      );
      assert.equal(packed.headers["content-encoding"], /\.(png|woff2)$/.test(file) ? undefined : "br", path);
      for (const answer of [packed, whole]) {
        assert.equal(answer.headers["content-type"], whole.headers["content-type"]);
        assert.match(answer.headers["content-security-policy"], /script-src 'self' 'wasm-unsafe-eval';/);
        assert.equal(answer.headers["x-content-type-options"], "nosniff");
      }
      if (file.endsWith(".wasm")) assert.equal(packed.headers["content-type"], "application/wasm");
      plain += bytes.length;
      sent += packed.bytes.length;
    }
    console.log(`phone first download ${sent} bytes as sent, ${plain} unpacked (aim < 1600000 sent)`);
    assert.ok(sent < 1_600_000);
  });
  const a = phone("a");
  let visit = "";
  await test("the screen stays lit while a car is open, and is let go of when it is left", async () => {
    await a.open({
      grants: ["durableStorage", "geolocation"],
      geolocation: { latitude: 41.25, longitude: -96.5, accuracy: 12 },
    });
    await a.page.addInitScript(() => {
      const real = WakeLock.prototype.request;
      globalThis.lit = 0;
      WakeLock.prototype.request = async function (kind) {
        const lock = await real.call(this, kind).catch(() =>
          Object.assign(new EventTarget(), {
            released: false,
            release() {
              this.released = true;
              this.dispatchEvent(new Event("release"));
              return Promise.resolve();
            },
          }),
        );
        globalThis.lit++;
        lock.addEventListener("release", () => globalThis.lit--);
        return lock;
      };
    });
    await a.enrol("Ada");
    assert.equal(await a.page.evaluate(() => lit), 0);
    visit = await a.car("104417", "Track 2, spot 2");
    await a.page.waitForFunction(() => lit === 1);
    await a.go("cars//");
    await a.page.waitForFunction(() => lit === 0);
  });
  await test("where it is goes into an entry as the phone had it, if the person wants that and only then", async () => {
    await a.valve(visit, "vapour", "Shut");
    await a.go("setup//");
    await a.page
      .locator('.name:has-text("where entries were made") + .keys')
      .locator('button:has-text("Yes")')
      .tap();
    await later(500);
    await a.valve(visit, "liquid_a", "Shut");
    await a.go(`history/${visit}`);
    await a.page.locator("ol li button").first().tap();
    await a.seen("41.25000, -96.50000 ± 12 m");
    await a.sync();
    const [without, within] = ["Vapour valve shut", "Liquid valve A shut"].map(
      (text) => office.view(visit).history.find((line) => line.sentence.startsWith(text)).said.place,
    );
    assert.equal(without, undefined);
    assert.deepEqual(within, { latitude: 41.25, longitude: -96.5, accuracy_m: 12 });
  });
  await test("the timer of the empty proof goes on while the screen is locked", async () => {
    await a.go(a.figure(visit, "hold_test"));
    await a.press("4", "0");
    await a.page.locator(".foot .go").tap();
    await a.page.waitForFunction(() => !location.hash.startsWith("#figure"));
    await a.go(`proof/${visit}/`);
    await a.page.waitForSelector(".timer b");
    const shown = async () => {
      const [m, s] = (await a.page.locator(".timer b").textContent()).split(":").map(Number);
      return m * 60 + s;
    };
    const t = Date.now(),
      before = await shown();
    await a.side.send("Page.setWebLifecycleState", { state: "frozen" });
    await later(5000);
    await a.side.send("Page.setWebLifecycleState", { state: "active" });
    await a.page.waitForTimeout(1300);
    const gone = (Date.now() - t) / 1000,
      counted = (await shown()) - before;
    assert.ok(Math.abs(counted - gone) < 2.2, `${counted} s shown of ${gone.toFixed(1)}`);
    await a.close();
    await a.open();
    await a.page.goto(a.app(`#proof/${visit}/`));
    await a.page.waitForSelector(".timer b");
    const all = (Date.now() - t) / 1000;
    assert.ok(Math.abs((await shown()) - before - all) < 2.2, "and when the phone was off");
    return `(${counted} s shown of ${gone.toFixed(1)} frozen)`;
  });
});
