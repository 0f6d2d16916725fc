// The phone's keys and its records at rest, in a real browser: nothing of them lies readable in the profile's
// files, what lay open before is taken over, a browser killed in the middle loses nothing, and a PIN keeps a
// copy shut.

import assert from "node:assert/strict";
import { cpSync, readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { gunzipSync } from "node:zlib";
import { after, afterEach, before, beforeEach, describe, test } from "node:test";
import { Browser, buildSite, serveSite } from "./stage.mjs";

let site;
before(async () => {
  await buildSite();
  site = await serveSite();
});
after(() => site.close());

/** Where any file under `folder` holds these bytes. */
function holding(folder, bytes) {
  const found = [];
  for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
    if (!entry.isFile()) continue;
    const file = join(entry.parentPath, entry.name);
    if (readFileSync(file).includes(bytes)) found.push(file.slice(folder.length));
  }
  return found;
}

/** Enough text that its pages cannot be missed, and short enough not to be deflated away. */
const SECRET_WORDS = "qzqx-emergency-5550142";

describe("keys and records at rest", () => {
  let browser;
  beforeEach(async () => {
    browser = new Browser();
    await browser.open();
  });
  afterEach(() => browser.remove());

  const tab = () => browser.tab(site.url);
  /** A tab with the book under this phone's own keys open, or what it said instead. */
  const own = async (pin, worker = "/book-worker.js") => {
    const page = await tab();
    const standing = await page.evaluate(
      async ([worker, pin]) => {
        globalThis.book = open(worker, "books", null, pin);
        return settled(book);
      },
      [worker, pin],
    );
    return {
      page,
      standing,
      ...(standing.is === "ready"
        ? { protection: await page.evaluate(() => book.connection.api.protection()) }
        : {}),
    };
  };
  const write = (page, ...texts) => page.evaluate((texts) => book.write(...texts), texts);
  const texts = (page) => page.evaluate(() => book.texts());
  const rows = (page) => page.evaluate(() => stored());

  test("the records and the device's key are on the disk, and neither can be read there", async () => {
    const { page, protection } = await own();
    assert.deepEqual(protection, { key: "wrapped", records: "sealed", lock: false, why: "", aside: 0 });
    await page.evaluate((words) => book.connection.api.setDraft("what is half typed", words), SECRET_WORDS);
    await write(page, "a remark");
    const kept = await rows(page);
    assert.deepEqual(Object.keys(kept).sort(), ["kept", "wrap"]);
    assert.equal(kept.wrap, "CryptoKey secret not extractable encrypt decrypt");
    await browser.kill();
    assert.deepEqual(holding(browser.profile, Buffer.from(SECRET_WORDS)), []);
    assert.deepEqual(
      holding(browser.profile, Buffer.from("SQLite format 3")).filter((name) => name.includes("File System")),
      [],
    );
    await browser.open();
    const again = await own();
    assert.deepEqual(await texts(again.page), ["a remark"]);
    assert.match(await again.page.evaluate(() => book.connection.api.drafts()), new RegExp(SECRET_WORDS));
  });

  test("what an earlier version kept in the open is taken over, and then gone", async () => {
    const first = await tab();
    const device = await first.evaluate(async (words) => {
      const before = new Uint8Array(32).fill(9);
      await keepOpen(before, new Uint8Array(32).fill(8));
      globalThis.book = open("/book-worker.js", "books", 9);
      await book.write("written in the open", words);
      return book.connection.api.device();
    }, SECRET_WORDS);
    await browser.kill();
    assert.ok(holding(browser.profile, Buffer.from("SQLite format 3")).length > 0);
    await browser.open();
    const { page, protection } = await own();
    assert.equal(protection.records, "sealed");
    assert.equal(await page.evaluate(() => book.connection.api.device()), device, "the same device");
    assert.deepEqual(await texts(page), ["written in the open", SECRET_WORDS]);
    assert.deepEqual(Object.keys(await rows(page)).sort(), ["kept", "wrap"]);
    assert.deepEqual(
      (await page.evaluate(() => folders())).filter((name) => name === "books"),
      [],
    );
    await write(page, "after");
    await page.reload();
    await page.close();
    const again = await own();
    assert.deepEqual(await texts(again.page), ["written in the open", SECRET_WORDS, "after"]);
  });

  for (const version of ["v1", "v2"])
    test(`the book that ${version} kept on a phone is taken over whole`, async () => {
      const golden = (name) =>
        readFileSync(new URL(`../../../tests/golden/${version}/${name}`, import.meta.url));
      const { phone } = JSON.parse(golden("expected.json"));
      const page = await tab();
      const bytes = gunzipSync(golden("phone/field.gz")).toString("base64");
      const key = [...Buffer.from(golden("phone/key.hex").toString().trim(), "hex")];
      const now = await page.evaluate(
        async ([bytes, key]) => {
          await keepOpen(new Uint8Array(key), new Uint8Array(32).fill(8));
          await layPool(
            "books",
            "test.book",
            Uint8Array.from(atob(bytes), (c) => c.charCodeAt(0)),
          );
          globalThis.book = open("/book-worker.js", "books", null);
          await settled(book);
          const { api } = book.connection;
          return {
            status: JSON.parse(await api.status()),
            protection: await api.protection(),
            folders: await folders(),
          };
        },
        [bytes, key],
      );
      const { device, entries, organisation_key, without_receipt, photos_waiting } = now.status;
      assert.deepEqual(
        { device, entries, organisation_key, without_receipt, photos_waiting },
        Object.fromEntries(
          ["device", "entries", "organisation_key", "without_receipt", "photos_waiting"].map((name) => [
            name,
            phone[name],
          ]),
        ),
      );
      assert.equal(now.protection.records, "sealed");
      assert.ok(!now.folders.includes("books"), "what lay open is gone");
    });

  test("ended at any moment while taking over, nothing is lost", async () => {
    for (let step = 1; ; step += step < 12 ? 1 : 9) {
      const name = `of${step}`;
      const page = await tab();
      const went = await page.evaluate(
        async ([name, step]) => {
          await forgetKeys();
          await keepOpen(new Uint8Array(32).fill(9), new Uint8Array(32).fill(8));
          const old = open("/book-worker.js", name, 9);
          await old.write("one", "two", "three");
          old.connection.close();
          const cut = open(`/rough-worker.js?cut=${step}`, name, null);
          const standing = await settled(cut);
          cut.connection.close();
          globalThis.book = open("/book-worker.js", name, null);
          const after = await settled(book);
          return {
            cut: cut.restarts.length === 0 && standing.is,
            after: after.is,
            texts: after.is === "ready" ? await book.texts() : after,
            protection: after.is === "ready" && (await book.connection.api.protection()),
          };
        },
        [name, step],
      );
      assert.deepEqual(went.texts, ["one", "two", "three"], `ended at step ${step}: ${JSON.stringify(went)}`);
      assert.equal(went.protection.records, "sealed");
      await page.close();
      if (went.cut === "ready") {
        assert.ok(step > 10, `only ${step} steps`);
        break;
      }
    }
  });

  test("ended in the middle of any write to the sealed files, what was confirmed is there", async () => {
    let cuts = 0;
    for (let step = 1; step < 400; step += step < 16 ? 1 : 11) {
      const page = await tab();
      const went = await page.evaluate(async (step) => {
        const whole = open("/book-worker.js", "torn", null);
        await settled(whole);
        const before = await whole.texts();
        whole.connection.close();
        const rough = open(`/rough-worker.js?tear=${step}`, "torn", null);
        const confirmed = [];
        try {
          for (let n = 0; n < 6; n++) {
            const text = `step ${step} remark ${n} ${"x".repeat(3_000)}`;
            await rough.write(text);
            confirmed.push(text);
          }
        } catch {
          /* the power went */
        }
        const broke = rough.restarts.length > 0 || confirmed.length < 6;
        rough.connection.close();
        globalThis.book = open("/book-worker.js", "torn", null);
        const after = await settled(book);
        return { before, confirmed, broke, after: after.is === "ready" ? await book.texts() : after };
      }, step);
      for (const text of [...went.before, ...went.confirmed])
        assert.ok(went.after.includes?.(text), `step ${step}: ${JSON.stringify(went.after).slice(0, 300)}`);
      cuts += went.broke;
      await page.close();
      if (!went.broke) break;
    }
    assert.ok(cuts > 15, `${cuts} cuts`);
  });

  test("a phone under a PIN opens with it alone, waits after wrong ones, never shuts for good", async () => {
    const { page } = await own();
    await write(page, "behind the PIN");
    assert.match(
      await page.evaluate(() => book.connection.api.setPhonePin(undefined, "123456").catch((f) => f.variant)),
      /WeakPin/,
    );
    await page.evaluate(() => book.connection.api.setPhonePin(undefined, "294611"));
    await page.close();
    assert.deepEqual(pick(await own()), ["refused", "PinNeeded"]);
    for (let n = 0; n < 5; n++) assert.deepEqual(pick(await own("111222")), ["refused", "WrongPin"]);
    assert.deepEqual(pick(await own("294611")), ["refused", "PinWaits"]);
    const open1 = await tab();
    await open1.evaluate(() => waited());
    await open1.close();
    const opened = await own("294611");
    assert.equal(opened.protection?.lock, true);
    assert.deepEqual(await texts(opened.page), ["behind the PIN"]);
    assert.match(
      await opened.page.evaluate(() =>
        book.connection.api.setPhonePin("000000", undefined).catch((f) => f.variant),
      ),
      /WrongPin/,
    );
    await opened.page.evaluate(() => book.connection.api.setPhonePin("294611", undefined));
    await opened.page.close();
    const free = await own();
    assert.deepEqual([free.standing.is, free.protection.lock], ["ready", false]);
  });

  test("a copy of a phone under a PIN, all of its files, opens nothing without it", async () => {
    const { page } = await own();
    await write(page, SECRET_WORDS);
    await page.evaluate(() => book.connection.api.setPhonePin(undefined, "294611"));
    await browser.kill();
    const copy = new Browser();
    cpSync(browser.profile, copy.profile, { recursive: true, filter: (name) => !/Singleton/.test(name) });
    const was = browser;
    browser = copy;
    try {
      await copy.open();
      assert.deepEqual(pick(await own()), ["refused", "PinNeeded"]);
      assert.deepEqual(pick(await own("294612")), ["refused", "WrongPin"]);
      await copy.kill();
      assert.deepEqual(holding(copy.profile, Buffer.from(SECRET_WORDS)), []);
    } finally {
      await copy.remove();
      browser = was;
    }
  });

  test("where the browser makes no such keys, everything goes on as before and says so", async () => {
    const { page, standing, protection } = await own(undefined, "/rough-worker.js?plain");
    assert.equal(standing.is, "ready");
    assert.deepEqual([protection.key, protection.records, protection.lock], ["open", "open", false]);
    await write(page, "in the open");
    await page.close();
    const later = await own();
    assert.deepEqual([later.protection.key, later.protection.records], ["wrapped", "sealed"]);
    assert.deepEqual(await texts(later.page), ["in the open"]);
  });

  test("records whose key the browser lost are left where they are, and said", async () => {
    const { page } = await own();
    await write(page, "unsent");
    await page.evaluate(() => {
      book.connection.close();
      return forgetKeys();
    });
    await page.close();
    const later = await own();
    assert.equal(later.protection.aside, 1);
    assert.deepEqual(await texts(later.page), []);
  });
});

const pick = ({ standing }) => [standing.is, standing.failure?.variant];
