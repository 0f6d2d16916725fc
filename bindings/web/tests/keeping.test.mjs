// The worker and its storage in a real browser: what was confirmed is kept, one tab owns it, and a broken
// worker is replaced. Needs dist/ (bindings/build-web) and Chromium. The record itself is told in
// story.test.mjs.

import assert from "node:assert/strict";
import { after, before, beforeEach, afterEach, describe, test } from "node:test";
import { Browser, buildSite, serveSite } from "./stage.mjs";

let site;
before(async () => {
  await buildSite();
  site = await serveSite();
});
after(() => site.close());

describe("keeping records in a browser", () => {
  let browser;
  beforeEach(async () => {
    browser = new Browser();
    await browser.open();
  });
  afterEach(() => browser.remove());

  /** A tab with the book open and ready. */
  const ready = async (worker = "/book-worker.js") => {
    const page = await browser.tab(site.url);
    await page.evaluate(async (worker) => {
      globalThis.book = open(worker);
      await until(book, "ready");
    }, worker);
    return page;
  };
  const texts = (page) => page.evaluate(() => book.texts());

  test("a remark is there after the page was loaded again", async () => {
    const page = await ready();
    const [written] = await page.evaluate(() => book.write("outage 12 in"));
    await page.reload();
    await page.waitForFunction(() => typeof until === "function");
    const [history, rows] = await page.evaluate(async () => {
      globalThis.book = open("/book-worker.js");
      const view = JSON.parse(await book.connection.api.visit(await book.visit()));
      return [view.history, JSON.parse(await book.connection.api.visits())];
    });
    assert.deepEqual(
      history.map(({ sentence }) => [sentence.message, (sentence.args.text ?? sentence.args.car).typed]),
      [
        ["log-opened", "ZZQX 4417"],
        ["log-remark", "outage 12 in"],
      ],
    );
    assert.equal(history[1].said.entry, written);
    assert.deepEqual(
      rows.map((row) => [row.car, row.unreceipted]),
      [["ZZQX 4417", 2]],
    );
    assert.deepEqual(page.complaints, []);
  });

  test("something half typed is there after the page was loaded again, until it is removed", async () => {
    const page = await ready();
    await page.evaluate(() => book.connection.api.setDraft("final pressure", "1"));
    await page.reload();
    await page.waitForFunction(() => typeof until === "function");
    const drafts = await page.evaluate(async () => {
      const { api } = (globalThis.book = open("/book-worker.js")).connection;
      const before = await api.drafts();
      await api.setDraft("final pressure", "");
      return [before, await api.drafts()].map(JSON.parse);
    });
    assert.deepEqual(drafts, [{ "final pressure": "1" }, {}]);
  });

  test("every confirmed remark is there after the browser was killed while writing", async () => {
    for (const round of [1, 2, 3]) {
      const page = await ready();
      const before = (await texts(page)).length;
      let confirmed = 0;
      await page.exposeFunction("confirmed", (count) => (confirmed = count));
      await page.evaluate(async (round) => {
        const writing = async () => {
          for (let count = 1; ; count++) {
            await book.write(`round ${round} remark ${count}`);
            confirmed(count);
          }
        };
        void writing();
      }, round);
      while (confirmed < 25) await new Promise((later) => setTimeout(later, 5));
      const promised = confirmed;
      await browser.kill();
      await browser.open();
      const again = await ready();
      const kept = await texts(again);
      for (let count = 1; count <= promised; count++)
        assert.ok(kept.includes(`round ${round} remark ${count}`));
      assert.ok(kept.length >= before + promised);
      await again.close();
    }
  });

  test("a second tab waits, and has everything when the first is closed", async () => {
    const first = await ready();
    await first.evaluate(() => book.write("from the first tab"));
    const second = await browser.tab(site.url);
    await second.evaluate(async () => {
      globalThis.book = open("/book-worker.js");
      await until(book, "waiting");
    });
    await first.close();
    assert.deepEqual(await texts(second), ["from the first tab"]);
    assert.deepEqual(await second.evaluate(() => book.seen), ["starting", "waiting", "ready"]);
  });

  test("a tab lets go when another asks, but not while something is half typed", async () => {
    const first = await ready();
    const second = await browser.tab(site.url);
    await second.evaluate(async () => {
      globalThis.book = open("/book-worker.js");
      await until(book, "waiting");
    });
    await first.evaluate(() => (book.mayLetGo = false));
    await second.evaluate(() => book.connection.takeOver());
    await first.evaluate(() => book.write("still mine"));
    assert.deepEqual(await second.evaluate(() => book.seen), ["starting", "waiting"]);

    await first.evaluate(() => (book.mayLetGo = true));
    await second.evaluate(async () => {
      book.connection.takeOver();
      await until(book, "ready");
    });
    await first.evaluate(() => until(book, "waiting"));
    assert.deepEqual(await texts(second), ["still mine"]);

    await second.close();
    await first.evaluate(() => until(book, "ready"));
    assert.deepEqual(await texts(first), ["still mine"]);
  });

  test("calls under way are answered before a tab lets go", async () => {
    const first = await ready();
    const second = await browser.tab(site.url);
    await second.evaluate(async () => {
      globalThis.book = open("/book-worker.js");
      await until(book, "waiting");
    });
    await first.evaluate(() => book.visit());
    // Asked for in one go, so that the request to let go meets them on the way.
    const answers = first.evaluate(async () => {
      const writes = [];
      for (let count = 1; count <= 200; count++) writes.push(book.write(`remark ${count}`));
      return (await Promise.allSettled(writes)).map((write) => write.status);
    });
    await second.evaluate(() => book.connection.takeOver());
    assert.deepEqual(new Set(await answers), new Set(["fulfilled"]));
    await second.evaluate(() => until(book, "ready"));
    assert.equal((await texts(second)).length, 200);
  });

  test("a worker that trapped is replaced, its open calls fail, and the remarks are there", async () => {
    const page = await ready("/rough-worker.js");
    await page.evaluate(() => book.write("before the trap"));
    const failures = await page.evaluate(async () => {
      const calls = [book.connection.api.hang(), book.connection.api.trap()];
      return (await Promise.allSettled(calls)).map(({ reason }) => [reason.type, reason.variant]);
    });
    assert.deepEqual(failures, [
      ["Worker", "Broken"],
      ["Worker", "Broken"],
    ]);
    assert.deepEqual(await texts(page), ["before the trap"]);
    assert.deepEqual(await page.evaluate(() => book.seen), ["starting", "ready", "starting", "ready"]);
    assert.match((await page.evaluate(() => book.restarts))[0], /RuntimeError: unreachable/);
  });

  test("a worker that cannot start is not started for ever", async () => {
    const page = await browser.tab(site.url);
    const failure = await page.evaluate(async () => {
      globalThis.book = open("/rough-worker.js?hopeless");
      const call = book.connection.api.visits().catch((failure) => failure.variant);
      await until(book, "broken");
      return call;
    });
    assert.equal(failure, "Broken");
    assert.equal((await page.evaluate(() => book.restarts)).length, 3);
  });

  test("a worker script that is missing is a broken start, not a silent one", async () => {
    const page = await browser.tab(site.url);
    const standing = await page.evaluate(() => until(open("/no-such-worker.js"), "broken"));
    assert.equal(standing.failure.variant, "Broken");
  });

  test("a refusal of the API keeps its name and its reason", async () => {
    const page = await ready();
    const failures = await page.evaluate(async () => {
      const { api } = book.connection;
      const visit = await book.visit();
      const calls = [
        api.carryIn(new TextEncoder().encode("not a carry file")),
        api.append(`visit:${visit}`, '[{"says":{"step":{"step":"chocks","outcome":"skipped"}}}]', "op-1"),
        api.append(`visit:${visit}`, '[{"says":{"remark":{"text":"by nobody"}}}]', " "),
        api.append("a subject that is none", "[]", "op-1"),
        api.visit("00".repeat(16)),
        api.release(visit, true, "op-1"),
        api.syncStart(),
        api.syncRequest(),
        api.readAmount("8 bar", "furlong", undefined),
        api.noSuchCall(),
        api.setDraft("key", () => "no function can be sent"),
        api.photoTaken("ab".repeat(32), 5, "a number where a bigint belongs"),
      ];
      return (await Promise.allSettled(calls)).map(({ reason }) => [
        reason.name,
        reason.type,
        reason.variant,
        typeof reason.why,
      ]);
    });
    const error = (variant) => ["Failure", "FarsidingError", variant, "string"];
    const worker = ["Failure", "Worker", "WrongCall", "string"];
    assert.deepEqual(failures, [
      error("Refused"),
      error("Refused"),
      error("WrongCall"),
      error("WrongCall"),
      error("WrongCall"),
      error("Refused"),
      error("NotEnrolled"),
      error("WrongCall"),
      error("WrongCall"),
      worker,
      worker,
      worker,
    ]);
    assert.deepEqual(await texts(page), []);
    assert.deepEqual(page.complaints, []);
  });

  for (const [where, worker, why] of [
    ["a private window that keeps no files", "/rough-worker.js?private", /SecurityError/],
    ["a browser without synchronous files", "/rough-worker.js?old", /synchronous/],
  ]) {
    test(`${where} is refused, and no call hangs`, async () => {
      const page = await browser.tab(site.url);
      const { failure, call } = await page.evaluate(async (worker) => {
        globalThis.book = open(worker);
        const call = book.connection.api.visits().catch((failure) => failure.variant);
        const { failure } = await until(book, "refused");
        return { failure, call: await call };
      }, worker);
      assert.equal(failure.variant, "NoStorage");
      assert.match(failure.why, why);
      assert.equal(call, "NoStorage");
    });
  }

  test("a page that did not come over https is refused", async () => {
    const page = await browser.tab(`http://plain.test:${site.port}/`);
    const { failure } = await page.evaluate(() => until(open("/book-worker.js"), "refused"));
    assert.match(failure.why, /https/);
  });

  test("a full disk is said, nothing confirmed is lost, and writing goes on when there is room", async () => {
    const page = await ready();
    const browserSide = await browser.context.newCDPSession(page);
    const quota = (bytes) =>
      browserSide.send("Storage.overrideQuotaForOrigin", { origin: site.url.slice(0, -1), quotaSize: bytes });
    await page.evaluate(() => book.write("before it was full"));
    const { used } = await page.evaluate(() => roomNow());
    await quota(used + 200_000);
    const { confirmed, failure } = await page.evaluate(async () => {
      // Noise, since a document's changes are deflated.
      const noise = () =>
        Array.from(crypto.getRandomValues(new Uint8Array(10_000)), (byte) =>
          byte.toString(16).padStart(2, "0"),
        );
      let confirmed = 1;
      for (let remark = 0; remark < 200; remark++) {
        try {
          await book.write(`${remark} ${noise().join("")}`);
          confirmed++;
        } catch (failure) {
          return { confirmed, failure: { ...failure } };
        }
      }
      return { confirmed };
    });
    assert.equal(failure?.variant, "NotStored");
    assert.equal((await texts(page)).length, confirmed);

    await quota(used + 100_000_000);
    await page.evaluate(() => book.write("after it was full"));
    await page.reload();
    await page.waitForFunction(() => typeof until === "function");
    await page.evaluate(() => (globalThis.book = open("/book-worker.js")));
    const kept = await texts(page);
    assert.equal(kept.length, confirmed + 1);
    assert.equal(kept.at(-1), "after it was full");
  });

  test("the room left is told", async () => {
    const page = await ready();
    const room = await page.evaluate(() => roomNow());
    assert.ok(room.used > 0 && room.quota > room.used);
  });

  test("the browser's promise to keep the records is asked for, and its answer told as it is", async () => {
    const page = await ready();
    assert.deepEqual(await page.evaluate(async () => [await askToKeep(), (await roomNow()).kept]), [
      false,
      false,
    ]);
    const browserSide = await browser.remote.newBrowserCDPSession();
    await browserSide.send("Browser.grantPermissions", {
      permissions: ["durableStorage"],
      origin: site.url.slice(0, -1),
    });
    assert.deepEqual(await page.evaluate(async () => [await askToKeep(), (await roomNow()).kept]), [
      true,
      true,
    ]);
  });
});
