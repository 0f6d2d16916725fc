// What the record says in a browser: the same story as in the other languages, with the browser's clock,
// zones, randomness and compression under it, and how long a person waits for it.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { after, before, beforeEach, afterEach, describe, test } from "node:test";
import { Browser, buildSite, serveSite } from "./stage.mjs";

const read = (name) => JSON.parse(readFileSync(new URL(`../../${name}`, import.meta.url), "utf8"));
const story = read("story.json");

/**
 * What a view says, without what differs each time; numbers to nine digits, as processors differ in the last.
 */
function told(view) {
  if (Array.isArray(view)) return view.map(told);
  if (typeof view === "number") return Number(view.toPrecision(9));
  if (typeof view !== "object" || view === null) return view;
  const kept = Object.entries(view).filter(([key]) => !story.not_told.keys.includes(key));
  return Object.fromEntries(kept.map(([key, inner]) => [key, told(inner)]));
}

let site;
before(async () => {
  await buildSite();
  site = await serveSite();
});
after(() => site.close());

describe("the record in a browser", () => {
  let browser;
  beforeEach(() => (browser = new Browser()));
  afterEach(() => browser.remove());

  /** A tab with one book open, in a browser of the given zone. */
  const ready = async (zone) => {
    await browser.open(zone);
    const page = await browser.tab(site.url);
    await page.evaluate(async () => {
      globalThis.book = open("/book-worker.js");
      await until(book, "ready");
    });
    return page;
  };

  test("two devices disagree, settle it, and show the same as in every other language", async () => {
    await browser.open();
    const page = await browser.tab(site.url);
    const played = await page.evaluate(async (story) => {
      const [a, b] = [open("/book-worker.js", "a", 1), open("/book-worker.js", "b", 2)].map(
        (o) => o.connection.api,
      );
      const text = JSON.stringify;
      const visit = await a.openVisit(text(story.opening), "op-1");
      await a.append(`site:${story.site}`, text(story.site_facts), "op-1");
      await a.append(`visit:${visit}`, text(story.first), "op-1");
      const { received } = JSON.parse(await b.carryIn(await a.carryOut([visit])));
      await a.append(`visit:${visit}`, text([story.final_on_a]), "op-1");
      // The second reading is the later one by the clock too.
      await new Promise((later) => setTimeout(later, 10));
      const [theirs] = await b.append(`visit:${visit}`, text([story.final_on_b]), "op-2");
      await a.carryIn(await b.carryOut([visit]));
      await b.carryIn(await a.carryOut([visit]));
      const views = async () => [JSON.parse(await a.visit(visit)), JSON.parse(await b.visit(visit))];
      const before = await views();
      const refused = await a.settle(visit, theirs, " ", "op-1").catch((failure) => failure.variant);
      await a.settle(visit, theirs, story.why, "op-1");
      await b.carryIn(await a.carryOut([visit]));
      return { received, before, refused, after: await views() };
    }, story);
    const { seen } = story;
    assert.equal(played.received, seen.carried);
    for (const view of played.before) {
      const [disagreement, ...more] = view.disagreements;
      assert.deepEqual([disagreement.slot, more], [seen.slot, []]);
      assert.deepEqual(
        disagreement.claims.map((claim) => claim.sentence.args.instrument.typed),
        seen.claims,
      );
    }
    assert.equal(played.refused, "Refused");
    const [onA, onB] = played.after;
    // The brief of an open visit reaches to the moment it is looked at.
    delete onA.brief;
    delete onB.brief;
    assert.deepEqual(onA, onB);
    const final = onA.readings.find((reading) => reading.slot === seen.slot);
    assert.equal(final.current.value.amount.text, seen.final_after);
    assert.deepEqual(told(onA), told(read("story-view.json")));
    assert.deepEqual(page.complaints, []);
  });

  test("a preview says what a reading would mean and keeps nothing", async () => {
    const page = await ready();
    const [preview, status] = await page.evaluate(async (story) => {
      const { api } = book.connection;
      const visit = await book.visit();
      const preview = await api.preview(visit, JSON.stringify([story.final_on_a]), "op-1");
      return [preview, await api.status()].map(JSON.parse);
    }, story);
    assert.ok(preview.readings.some((reading) => reading.slot === story.seen.slot));
    assert.deepEqual([status.entries, status.without_receipt, status.damaged], [1, 1, []]);
  });

  // No summer time in either, and half an hour in one.
  for (const [zone, offset, minutes] of [
    ["Asia/Kolkata", "+05:30", 330],
    ["America/Phoenix", "-07:00", -420],
  ]) {
    test(`an entry keeps the device's own clock and offset, ${offset}`, async () => {
      const page = await ready(zone);
      const [said, now] = await page.evaluate(async () => {
        await book.write("what time is it");
        const view = JSON.parse(await book.connection.api.visit(await book.visit()));
        return [view.history.at(-1).said, Date.now()];
      });
      assert.ok(Math.abs(said.claimed - now) < 5_000);
      const there = new Date(said.claimed + minutes * 60_000).toISOString();
      assert.equal(said.device_time, `${there.slice(0, 10)} ${there.slice(11, 16)} ${offset}`);
      // Shown in the site's zone; there is no site here, so in UTC.
      assert.equal(said.shown, `${new Date(said.claimed).toISOString().replace("T", " ").slice(0, 16)} UTC`);
    });
  }

  test("keys and ids are made from the browser's randomness", async () => {
    const page = await ready();
    const made = await page.evaluate(async () => {
      const { api } = book.connection;
      const keys = [await api.newKey(), await api.newKey()].map((key) => Array.from(key).join());
      return [...keys, await api.newSite(), await api.newSite()];
    });
    assert.equal(new Set(made).size, 4);
    assert.equal(made[0].split(",").length, 32);
    assert.match(made[2], /^[0-9a-f]{32}$/);
  });

  test("bytes, options and whole numbers cross both ways", async () => {
    const page = await ready();
    const [photo, waiting, amount, two, none] = await page.evaluate(async () => {
      const { api } = book.connection;
      const photo = await api.photoTaken("ab".repeat(32), 5_000_000_000n, "image/jpeg");
      return [
        photo,
        await api.photosWaiting(),
        await api.readAmount("8 bar", "psig", undefined),
        await api.readAmount("32,650", "gal", undefined),
        await api.readAmount("full", "psig", undefined),
      ];
    });
    assert.deepEqual(JSON.parse(waiting), [JSON.parse(photo)]);
    assert.equal(JSON.parse(photo).length, 5_000_000_000);
    assert.deepEqual(
      [amount.text, amount.readings.map((one) => [one.value, one.unit])],
      ["8 bar", [[8, "bar"]]],
    );
    assert.deepEqual(
      two.readings.map((one) => one.value),
      [32.65, 32650],
    );
    assert.deepEqual([none.readings, none.refused], [[], "not_a_number"]);
  });

  test("formulas answer as on the command line", async () => {
    const page = await ready();
    // API MPMS 11.2.4 / GPA TP-27, Table 24E, as on a public results sheet.
    const answer = await page.evaluate(() =>
      book.connection.api.calculate("ctl", '{"temp_f":80,"rd60":0.51}'),
    );
    assert.equal(JSON.parse(answer).value, 0.96709);
    assert.match(await page.evaluate(() => book.connection.api.formulas()), /residue/);
  });
});
