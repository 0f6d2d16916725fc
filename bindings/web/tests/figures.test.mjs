// How long a person waits, measured in a real browser on whatever machine runs this. Every figure is printed;
// those with an aim of the product fail the test when they miss it.

import assert from "node:assert/strict";
import { test } from "node:test";
import { Browser, buildSite, serveSite } from "./stage.mjs";

/** Aims, in milliseconds. */
const APPEND = 50;
const LIST = 200;
/** How many visits the list is measured with, and how many of them are still open. */
const VISITS = 1_000;
const OPEN = 30;

test("starting, recording and listing are quick", { timeout: 300_000 }, async (t) => {
  await buildSite();
  const site = await serveSite();
  const browser = new Browser();
  try {
    await browser.open();
    const page = await browser.tab(site.url);
    const ready = () =>
      page.evaluate(async () => {
        globalThis.book = open("/book-worker.js");
        const { timings } = await until(book, "ready");
        globalThis.took = async (work) => {
          const begun = performance.now();
          await work();
          return performance.now() - begun;
        };
        globalThis.median = async (times, work) => {
          const all = [];
          for (let time = 0; time < times; time++) all.push(await took(() => work(time)));
          return all.sort((a, b) => a - b)[times >> 1];
        };
        return timings;
      });
    const told = (figures) => {
      for (const [what, ms] of Object.entries(figures)) t.diagnostic(`${what}: ${ms.toFixed(1)} ms`);
      return figures;
    };

    const empty = await ready();
    told({ "fetching, compiling and starting the module": empty.load, "opening an empty book": empty.open });
    const { "one entry, asked for to durable, median of 100": append } = told(
      await page.evaluate(async () => {
        const { api } = book.connection;
        await book.visit();
        return {
          "a call that does nothing, median of 1,000": await median(1_000, () => api.coreVersion()),
          "one entry, asked for to durable, median of 100": await median(100, (time) =>
            book.write(`entry ${time}`),
          ),
          "100 entries in one commit": await took(() =>
            book.write(...Array.from({ length: 100 }, (_, at) => `many ${at}`)),
          ),
          "the view of a visit with 201 entries, median of 20": await median(20, () => book.texts()),
        };
      }),
    );
    const list = told(
      await page.evaluate(
        async ([visits, stillOpen]) => {
          const { api } = book.connection;
          const reading = (purpose, psi) => ({
            reading: {
              measured: "pressure",
              place: "car",
              purpose,
              amount: { text: `${psi} psi`, unit: "psi", value: psi },
              instrument: "G-3",
            },
          });
          const lines = ["liquid_a", "liquid_b", "vapour"];
          const says = [
            reading("arrival", 118),
            ...lines.map((fitting) => ({ valve: { fitting, position: "shut" } })),
            ...lines.map((fitting) => ({ closure: { fitting, state: "tool_tight" } })),
            ...lines.map((fitting) => ({ listen: { fitting, heard: "quiet" } })),
            reading("final", 6),
            { released: { as_residue: true } },
          ];
          const record = async (at) => {
            const opening = {
              car: `ZZQX ${5_000 + at}`,
              site: "04".repeat(16),
              receiver: "fixed_tank",
              spot: `${at % 7}`,
            };
            const visit = await api.openVisit(JSON.stringify(opening), "op-1");
            const drafts = says.slice(0, at < stillOpen ? -1 : undefined).map((says) => ({ says }));
            await api.append(`visit:${visit}`, JSON.stringify(drafts), "op-1");
          };
          const figures = {};
          // One visit is there already.
          figures["recording 1,000 visits of 12 entries"] = await took(async () => {
            for (let at = 1; at < visits; at++) await record(at);
          });
          figures["the list, asked for first"] = await took(() => api.visits());
          figures["the list, median of 20"] = await median(20, () => api.visits());
          const rows = JSON.parse(await api.visits());
          if (rows.length !== visits || rows.filter((row) => row.released).length !== visits - stillOpen)
            throw new Error(`${rows.length} rows`);
          const afterAnEntry = [];
          for (let time = 0; time < 20; time++) {
            await book.write(`again ${time}`);
            afterAnEntry.push(await took(() => api.visits()));
          }
          figures["the list after an entry, median of 20"] = afterAnEntry.sort((a, b) => a - b)[10];
          figures["one entry beside 1,000 visits, median of 20"] = await median(20, (time) =>
            book.write(`more ${time}`),
          );
          figures["finding a car by its number"] = await took(() => api.find("zzqx5500"));
          return figures;
        },
        [VISITS, OPEN],
      ),
    );
    await page.reload();
    await page.waitForFunction(() => typeof until === "function");
    const full = await ready();
    told({
      "opening the book of 1,000 visits": full.open,
      "its first list": await page.evaluate(() => took(() => book.connection.api.visits())),
    });

    assert.ok(append < APPEND);
    assert.ok(list["the list, median of 20"] < LIST);
    assert.ok(list["the list after an entry, median of 20"] < LIST);
    assert.deepEqual(page.complaints, []);
  } finally {
    await browser.remove();
    await site.close();
  }
});
