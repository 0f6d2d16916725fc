// How the phone keeps its key and records, on the app as built against a real office: what it says of that, the PIN before everything (made,
// wrong, waiting, forgotten, ended), what a locked phone still shows, photographs sealed and without their place, what lay open before
// taken over. Looks at each screen at 360x640 and 390x844; pictures in OUT. FARSIDING names the server's program.
import assert from "node:assert/strict";
import { createHash } from "node:crypto";
import { mkdirSync, readFileSync } from "node:fs";
import { measure } from "./measure.mjs";
import { openOffice, phoneOf } from "./siding.mjs";
import { folder, launch } from "./stage.mjs";

const out = process.env.OUT ?? folder("dist-look/");
mkdirSync(out, { recursive: true });
const axe = readFileSync(new URL("../node_modules/axe-core/axe.min.js", import.meta.url), "utf8");
const browser = await launch(),
  office = await openOffice();
const phone = await phoneOf(browser),
  { page, at, key, call } = phone;
const told = [];
page.on("pageerror", (error) => told.push(error.message));
let passed = 0,
  bad = 0;
const test = async (name, act) => {
  const extra = await act();
  passed++;
  console.log("ok  ", name, extra ?? "");
};

/** Pictures and measures the screen as it stands, in both sizes. */
async function look(name) {
  for (const [width, height] of [
    [360, 640],
    [390, 844],
  ]) {
    await page.setViewportSize({ width, height });
    await page.evaluate(
      () => new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn))),
    );
    await page.screenshot({ path: `${out}guard-${name}-${width}.png` });
    const m = await measure(page);
    bad += m.found.length;
    for (const found of m.found) console.log("   ", name, width, found);
    if (m.scrolls > 1) console.log(`    ${name} ${width} scrolls ${m.scrolls}px`);
  }
  if (!(await page.evaluate(() => "axe" in window))) await page.evaluate(axe);
  const found = await page.evaluate(async () =>
    (await window.axe.run(document, { resultTypes: ["violations"] })).violations.map(
      (v) => `axe ${v.id}: ${v.nodes.map((n) => n.target.join(" ")).slice(0, 3)}`,
    ),
  );
  bad += found.length;
  for (const one of found) console.log("   ", name, one);
}
const digits = async (pin) => {
  for (const d of pin) await page.locator(`.pad button:text-is("${d}")`).last().tap();
};
const says = (text) => page.waitForFunction((t) => new RegExp(t).test(document.body.innerText), text);
const text = () => page.innerText("body");
/** Every file of the private file system under `start`, by path, with what it holds. */
const files = (start) =>
  page.evaluate(async (start) => {
    const all = {};
    const walk = async (folder, path) => {
      for await (const [name, handle] of folder.entries())
        if (handle.kind === "directory") await walk(handle, `${path}${name}/`);
        else if (path.startsWith(start))
          all[path + name] = [...new Uint8Array(await (await handle.getFile()).arrayBuffer())];
    };
    await walk(await navigator.storage.getDirectory(), "");
    return all;
  }, start);
const sha = (bytes) => createHash("sha256").update(Buffer.from(bytes)).digest("hex");

let fine = false,
  visit = "";
try {
  await page.goto(`${office.app}#${office.link("guard phone").split("#")[1]}`);
  await page.waitForSelector("input.field");
  await page.locator(".foot .go").tap();
  await page.waitForSelector('.lead:has-text("Ada")');
  await key("Ada", ".lead");
  await page.waitForSelector('.lead:has-text("Demo siding")');
  await key("Demo siding", ".lead");
  await page.waitForSelector('.go:has-text("New car")');
  const site = Object.keys(JSON.parse(await call("sites")))[0];
  visit = await call(
    "openVisit",
    JSON.stringify({ car: "QZQX 104417", site, receiver: "fixed_tank", spot: "Track 2, spot 1" }),
    "ada",
  );
  await call(
    "append",
    `visit:${visit}`,
    JSON.stringify([{ says: { hold: { hold: "a".repeat(32), because: "One thread engaged at liquid B" } } }]),
    "ada",
  );
  for (const n of [2, 3, 4, 5, 6]) {
    const other = await call(
      "openVisit",
      JSON.stringify({ car: `QZQX 10450${n}`, site, receiver: "fixed_tank", spot: `Track 2, spot ${n}` }),
      "ada",
    );
    await call(
      "append",
      `visit:${other}`,
      JSON.stringify([
        { says: { hold: { hold: `${n}`.repeat(32), because: "Waiting for the carrier's mechanic" } } },
      ]),
      "ada",
    );
  }

  await test("the phone says what protects its key and its records, and that it opens without a PIN", async () => {
    await at("setup//");
    await key("How this phone is kept", ".lead");
    await says("not readable by pages");
    await says("reads nothing");
    await says("Opens without a PIN");
    await look("off");
  });
  const where = "test/pictures/place-ii.jpg",
    taken = new Uint8Array(readFileSync(new URL("./pictures/place-ii.jpg", import.meta.url)));
  const photos = async () => JSON.parse(await call("visit", visit)).photos.map((p) => p.photo);
  const take = async () => {
    const before = (await photos()).length;
    await at(`photo/${visit}/other%7C`);
    await page.waitForSelector('input[type="file"]', { state: "attached" });
    await page.setInputFiles('input[type="file"]', folder(where));
    await page.waitForFunction(
      (n) => document.querySelectorAll("figure canvas[data-drawn]").length > n,
      before,
    );
    return (await photos()).at(-1);
  };
  await test("a photograph is kept sealed and without its place, is shown, and reaches the office as its entry says", async () => {
    const photo = await take();
    assert.notEqual(photo.sha256, sha(taken), "what is kept is not what the camera handed over");
    assert.equal(photo.length, taken.length);
    const kept = await files("photos");
    assert.deepEqual(
      Object.keys(kept)
        .map((name) => name.replace(/-[0-9a-f]{16}\//, "-ID/").replace(photo.sha256, "SHA"))
        .sort(),
      ["photos-ID/SHA", "photos-ID/SHA.small"],
    );
    for (const [name, bytes] of Object.entries(kept)) {
      assert.equal(bytes[0], 1, name);
      assert.ok(!Buffer.from(bytes).includes("Demo maker"), name);
      assert.notEqual(sha(bytes), photo.sha256);
    }
    await at("only_here//");
    await page.locator(".foot .go").tap();
    await page.waitForFunction(async () => /Met the office/.test(document.body.innerText));
    for (let n = 0; n < 60 && JSON.parse(await call("status")).photos_waiting > 0; n++)
      await page.waitForTimeout(250);
    assert.equal(
      JSON.parse(await call("status")).photos_waiting,
      0,
      "the office holds what the entry names: it checked the digest",
    );
  });
  await test("who wants the place inside says so once, and gets the camera's own bytes", async () => {
    await at("setup//");
    await page.locator('.name:has-text("inside photos") + .keys .key').first().tap();
    assert.equal((await take()).sha256, sha(taken));
    await at("setup//");
    await page.locator('.name:has-text("inside photos") + .keys .key').last().tap();
  });
  await test("a photograph that lay open from before is sealed at the next start, and shown all the time", async () => {
    const bare = new Uint8Array(readFileSync(new URL("./pictures/place-mm.jpg", import.meta.url))),
      name = sha(bare);
    await page.evaluate(
      async ([name, bytes]) => {
        const file = await (
          await (await navigator.storage.getDirectory()).getDirectoryHandle("photos", { create: true })
        ).getFileHandle(name, { create: true });
        const stream = await file.createWritable();
        await stream.write(new Uint8Array(bytes));
        await stream.close();
      },
      [name, [...bare]],
    );
    await page.reload();
    await page.waitForSelector(".screen .foot");
    for (let n = 0; n < 80 && Object.keys(await files("photos/")).length; n++) await page.waitForTimeout(100);
    assert.deepEqual(Object.keys(await files("photos/")), [], "nothing lies open");
    assert.ok(Object.keys(await files("photos-")).some((path) => path.endsWith(name)));
  });
  await test("a PIN for the phone is chosen twice; a weak one, and two that differ, are refused", async () => {
    await at("guard//");
    await key("Choose the phone's PIN", ".go");
    await says("Six digits that nobody guesses");
    await look("make");
    await digits("111111");
    await says("Once more");
    await digits("111111");
    await says("Anybody would try that first");
    await digits("294611");
    await says("Once more");
    await digits("294612");
    await says("not the same");
    await digits("294611");
    await says("Once more");
    await digits("294611");
    await says("Opens with a PIN");
    await look("on");
    await key("5 min", ".keys .key");
  });
  await test("locked, nothing of the records is on the screen or in the page, but whom to call and what to beware of", async () => {
    await at(`car/${visit}/`);
    await page.waitForSelector(".plan");
    await at(`guard//`);
    await page.waitForTimeout(300);
    await call("setDraft", "something", "half typed");
    await key("Lock now", ".go");
    await says("The phone's PIN");
    await says("6 cars to beware of");
    await look("locked");
    await key("cars to beware of", ".lead");
    await says("QZQX 104417 · Track 2, spot 1");
    await says("One thread engaged at liquid B");
    await look("cautions");
    await key("Back", ".foot .go");
    await says("The phone's PIN");
    await assert.rejects(
      Promise.race([
        call("drafts"),
        new Promise((_, no) => setTimeout(() => no(new Error("no answer")), 1_500)),
      ]),
      /no answer/,
    );
    assert.doesNotMatch(await text(), /liquid B valve|Ada \(demo\)/);
    await key("Help", ".foot button");
    await says("Call first");
    await says("Fire and rescue");
    await says("Panel button");
    await look("help");
    await page.locator(".foot .go").tap();
    await says("The phone's PIN");
    await at("history//");
    await says("The phone's PIN");
    await page.reload();
    await says("The phone's PIN");
    const dress = async (more) => {
      await page.evaluate(
        (more) =>
          localStorage.setItem(
            "farsiding.settings",
            JSON.stringify({ ...JSON.parse(localStorage.getItem("farsiding.settings")), ...more }),
          ),
        more,
      );
      await page.reload();
      await page.waitForSelector(".pad");
    };
    await dress({ lang: "es" });
    await look("locked-es");
    await dress({ lang: "en", scale: 1.3, look: "night" });
    await look("locked-large");
    await dress({ scale: 1, look: "auto" });
    await key("Forgotten", ".pad button");
    await says("not even the office");
    await look("forgotten");
    await key("Back", ".foot .go");
    await says("The phone's PIN");
  });
  await test("a wrong PIN says so, the right one opens where one was, with everything", async () => {
    await digits("111222");
    await says("Wrong PIN");
    await look("wrong");
    const began = Date.now();
    await digits("294611");
    await page.waitForFunction(() => !/Locked/.test(document.body.innerText));
    const took = Date.now() - began;
    await at(`car/${visit}/`);
    await page.waitForSelector(".plan");
    assert.equal(JSON.parse(await call("drafts")).something, "half typed");
    await at(`photo/${visit}/other%7C`);
    await page.waitForSelector("figure canvas[data-drawn]");
    await at("only_here//");
    await page.locator(".foot .go").tap();
    await says("Met the office");
    return `(opened in ${took} ms)`;
  });
  await test("after five wrong ones it waits, and says until when", async () => {
    await at("guard//");
    await key("Lock now", ".go");
    await says("The phone's PIN");
    for (let n = 0; n < 5; n++) {
      await digits("111222");
      await page.waitForFunction(
        () =>
          document.querySelectorAll(".dots .in").length === 0 &&
          /Wrong|Too many/.test(document.querySelector(".said")?.textContent ?? ""),
      );
    }
    await says("Too many wrong tries. Again at");
    await look("waits");
    await digits("294611");
    await says("Too many wrong tries. Again at");
    await page.evaluate(async () => {
      const wish = (request) =>
        new Promise((yes) => {
          request.onsuccess = () => yes(request.result);
        });
      const base = await wish(indexedDB.open("farsiding", 1)),
        rows = base.transaction("key", "readwrite").objectStore("key"),
        kept = await wish(rows.get("kept"));
      kept.lock.last = 0;
      await wish(rows.put(kept, "kept"));
      base.close();
    });
    await digits("294611");
    await page.waitForFunction(() => !/Locked/.test(document.body.innerText));
  });
  await test("left alone it locks by itself; in use, or while the camera is up, it does not", async () => {
    await at("cars//");
    await page.waitForSelector('.car:has-text("104417")');
    const jump = (minutes) =>
      page.evaluate((m) => {
        const Real = (window.RealDate ??= Date);
        window.Date = class extends Real {
          constructor(...g) {
            if (g.length) super(...g);
            else super(Real.now() + m * 60_000);
          }
          static now() {
            return Real.now() + m * 60_000;
          }
        };
      }, minutes);
    await jump(4);
    await page.waitForTimeout(6_000);
    assert.match(await text(), /104417/);
    assert.doesNotMatch(await text(), /The phone's PIN/);
    await jump(6);
    await says("The phone's PIN");
    await page.waitForTimeout(6_000);
    await jump(0);
    assert.deepEqual(told, [], "and stays so");
    await digits("294611");
    await page.waitForSelector('.car:has-text("104417")');
  });
  await test("the PIN is ended with the PIN alone, and nothing of it is left", async () => {
    await at("guard//");
    await key("Open without a PIN", ".keys .key");
    await says("The phone's PIN so far");
    await look("end");
    await digits("111222");
    await says("Wrong PIN");
    await digits("294611");
    await says("Opens without a PIN");
    await page.reload();
    await says("Opens without a PIN");
    assert.equal(await page.evaluate(() => localStorage.getItem("farsiding.cautions")), null);
  });
  await test("where the browser makes no such keys, the phone says that everything lies open and offers no lock", async () => {
    const other = await phoneOf(browser, {
      worker: "Reflect.deleteProperty(SubtleCrypto.prototype, 'generateKey');\n",
    });
    await other.page.goto(`${office.app}#guard//`);
    await other.page.waitForFunction(() =>
      /Readable by whoever copies this phone's files/.test(document.body.innerText),
    );
    assert.match(await other.page.innerText("body"), /there is none here/);
    for (const [width, height] of [
      [360, 640],
      [390, 844],
    ]) {
      await other.page.setViewportSize({ width, height });
      await other.page.screenshot({ path: `${out}guard-open-${width}.png` });
      bad += (await measure(other.page)).found.length;
    }
    await other.context.close();
  });
  assert.deepEqual(told, []);
  assert.equal(bad, 0, "what was measured falls short");
  fine = true;
  console.log(`${passed} passed, 0 failed`);
} catch (error) {
  console.log(
    "FAILED:",
    error,
    (await page.innerText("body").catch(() => "?")).replace(/\n+/g, " · ").slice(0, 500),
    told,
  );
} finally {
  await browser.close();
  await office.close();
  process.exit(fine ? 0 : 1);
}
