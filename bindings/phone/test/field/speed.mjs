// How long a person waits, on the real app with a thousand visits on the phone. Every figure is printed. The machine may be busy with
// other things, so an aim is missed when the faster quarter of the tries misses it.
import assert from "node:assert/strict";
import { stories } from "./stage.mjs";

const VISITS = 1_000,
  STANDING = 30;
/** Prints the median and holds the faster quarter to the aim. */
function told(what, times, aim) {
  const sorted = [...times].sort((x, y) => x - y),
    at = (share) => sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))];
  console.log(
    `phone ${what} ${at(0.5).toFixed(0)} ms median, ${at(0.25).toFixed(0)} ms faster quarter of ${sorted.length} (aim < ${aim})`,
  );
  assert.ok(at(0.25) < aim, `${what}: ${sorted.map((t) => t.toFixed(0)).join(" ")}`);
}

await stories(async ({ office, phone, test }) => {
  await office.start();
  office.furnish();
  const a = phone("a");
  let visit = "";
  await a.open();
  await a.enrol("Ada");
  const site = await a.page.evaluate(() => JSON.parse(localStorage.getItem("farsiding.settings")).site);
  const measured = (name) =>
    a.page.evaluate(
      (n) => performance.getEntriesByName(n).map((e) => [e.startTime, e.startTime + e.duration]),
      name,
    );
  const taps = async (times) => {
    await a.go(`car/${visit}/vapour`);
    await a.page.waitForSelector(".plan");
    return a.page.evaluate(async (times) => {
      performance.clearMeasures();
      const durable = [],
        marked = [];
      for (let n = 0; n < times; n++) {
        const word = n % 2 ? "Open" : "Shut",
          key = () =>
            [...document.querySelectorAll(".keys button")].find((b) => b.textContent.trim() === word),
          t = performance.now();
        key().click();
        while (key().getAttribute("aria-pressed") !== "true") await new Promise(requestAnimationFrame);
        marked.push(performance.now() - t);
        const done = performance.getEntriesByName("recorded").at(-1);
        durable.push(done.startTime + done.duration - t);
        await new Promise((r) => setTimeout(r, 150)); // a person's next tap is not sooner
      }
      return { durable, marked };
    }, times);
  };
  await test("a tap is on the disk at once", async () => {
    visit = await a.car("104417", "Track 2, spot 2");
    const { durable, marked } = await taps(40);
    told("tap to durable", durable, 50);
    told("tap to its mark", marked, 200);
  });
  await test("a thousand visits are put on the phone", async () => {
    await a.book();
    const took = await a.page.evaluate(
      async ([site, visits, standing]) => {
        const began = performance.now();
        const reading = (purpose, psi) => ({
          reading: {
            measured: "pressure",
            place: "car",
            purpose,
            amount: { text: `${psi} psi`, unit: "psi", value: psi },
            instrument: "Gauge 7",
          },
        });
        const lines = ["liquid_a", "liquid_b", "vapour"];
        const says = [
          reading("arrival", 118),
          { paper: { un_number: "UN1978", product: "Demo propane" } },
          ...lines.map((fitting) => ({ valve: { fitting, position: "shut" } })),
          ...lines.map((fitting) => ({ closure: { fitting, state: "tool_tight" } })),
          ...lines.map((fitting) => ({ listen: { fitting, heard: "quiet" } })),
          { empty_sign: { sign: "rod_at_bottom", seen: true } },
          reading("empty_proof", 40),
          {
            reading: {
              measured: "temperature",
              place: "car_low",
              purpose: "empty_proof",
              amount: { text: "58", unit: "°F", value: 58 },
            },
          },
          { empty_decision: { accepted: true, grounds: "rod at bottom" } },
          reading("final", 6),
          { released: { as_residue: true } },
        ];
        for (let at = 1; at < visits; at++) {
          const id = await ask(
            "openVisit",
            JSON.stringify({ car: `QZQX ${500_000 + at}`, site, receiver: "fixed_tank", spot: `${at % 7}` }),
            "ada",
          );
          await ask(
            "append",
            `visit:${id}`,
            JSON.stringify(says.slice(0, at < standing ? -1 : undefined).map((says) => ({ says }))),
            "ada",
          );
        }
        return performance.now() - began;
      },
      [site, VISITS, STANDING],
    );
    await a.back();
    const t = Date.now();
    await a.sync(300_000);
    return `(${(took / 1000).toFixed(1)} s for ${VISITS} visits of some 17 entries, ${((Date.now() - t) / 1000).toFixed(1)} s to the office)`;
  });
  await test("among a thousand visits the list is there right after opening and after every entry", async () => {
    await office.stop(); // on its own, as at a siding
    const first = [],
      opened = [];
    for (let n = 0; n < 4; n++) {
      const t = Date.now();
      await a.page.goto("about:blank");
      await a.back();
      await a.page.waitForSelector('.car:has-text("104417")', { timeout: 60_000 });
      opened.push(Date.now() - t);
      const [[from, to]] = await measured("listed");
      first.push(to - from);
    }
    console.log(
      `phone app opened with ${VISITS} visits ${Math.min(...opened)} ms at best of ${opened.length}`,
    );
    told(`first list of ${VISITS} visits after opening`, first, 200);
    const { durable } = await taps(20);
    told(`tap to durable among ${VISITS} visits`, durable, 50);
    await a.go("cars//");
    await a.page.locator(".gone summary").tap();
    await a.page.waitForFunction((n) => document.querySelectorAll(".gone .lead").length === n, 30);
    assert.equal(await a.page.locator(".track .car").count(), STANDING);
    assert.match(await a.text(), new RegExp(`${VISITS - STANDING}`));
    told(
      `list of ${VISITS} visits after an entry`,
      (await measured("listed")).map(([from, to]) => to - from),
      200,
    );
  });
  await test("a cold start on a slow phone is quick", async () => {
    const times = [];
    for (let n = 0; n < 3; n++) {
      await a.close();
      await a.open();
      await a.side.send("Emulation.setCPUThrottlingRate", { rate: 4 });
      const t = Date.now();
      await a.page.goto(a.app());
      await a.page.waitForSelector('.car:has-text("104417")');
      times.push(Date.now() - t);
    }
    times.sort((x, y) => x - y);
    console.log(
      `phone cold start to usable with ${VISITS} visits, no network, CPU slowed four times: ${times[1]} ms median (aim < 2000)`,
    );
    assert.ok(times[0] < 3000, "far from the aim on any machine");
    await a.close(); // a slowed browser keeps a core busy
    const b = phone("b");
    await office.start();
    await b.open();
    await b.enrol("Ben");
    await b.page.waitForSelector(".go");
    await b.sync(300_000); // its first meeting brings everything; that is another story
    const met = [];
    for (let n = 0; n < 3; n++) {
      await b.close();
      await b.open();
      await b.side.send("Emulation.setCPUThrottlingRate", { rate: 4 });
      const t = Date.now();
      await b.page.goto(b.app());
      await b.page.waitForSelector('.go:has-text("New car")');
      met.push(Date.now() - t);
    }
    // It meets the office meanwhile: shown, and not yet within the aim of what starts alone.
    console.log(`phone cold start while it meets the office, CPU slowed four times: ${met.join(", ")} ms`);
  });
});
