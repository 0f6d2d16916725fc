// How long a person waits, on the real app with a thousand visits on the phone. Every figure is printed. The
// machine may be busy with other things, so an aim is missed when the faster quarter of the tries misses it.
import assert from "node:assert/strict";
import { setsStage } from "../stage/setting.mjs";
import { chapter, measured } from "../stage/story.mjs";

const VISITS = 1_000;
const STANDING = 30;
const { office, phoneOnDisk } = setsStage();
const ada = phoneOnDisk("a");
const ben = phoneOnDisk("b");
let visit = "";

/** Prints the median and holds the faster quarter to the aim. */
function isWithinAim(what, times, aim) {
  const sorted = [...times].sort((x, y) => x - y);
  const at = (share) => sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))];
  const median = `${at(0.5).toFixed(0)} ms median`;
  const quarter = `${at(0.25).toFixed(0)} ms faster quarter of ${sorted.length}`;
  measured(`phone ${what} ${median}, ${quarter} (aim < ${aim})`);
  assert.ok(at(0.25) < aim, `${what}: ${sorted.map((time) => time.toFixed(0)).join(" ")}`);
}

/** How long each of the app's own measurements of a name took. */
const tookByApp = (name) =>
  ada.page.evaluate((name) => performance.getEntriesByName(name).map((entry) => entry.duration), name);

/**
 * Taps Shut and Open in turn; returns how long each tap took until it was on the disk and until its mark was
 * drawn.
 */
async function tapsManyTimes(times) {
  await ada.goesTo(`car/${visit}/vapour`);
  await ada.page.waitForSelector(".plan");
  return ada.page.evaluate(async (times) => {
    performance.clearMeasures();
    const durable = [];
    const marked = [];
    for (let n = 0; n < times; n++) {
      const word = n % 2 ? "Open" : "Closed";
      const key = () =>
        [...document.querySelectorAll(".keys button")].find((b) => b.textContent.trim() === word);
      const began = performance.now();
      key().click();
      while (key().getAttribute("aria-pressed") !== "true") await new Promise(requestAnimationFrame);
      marked.push(performance.now() - began);
      const recorded = performance.getEntriesByName("recorded").at(-1);
      durable.push(recorded.startTime + recorded.duration - began);
      // A person's next tap is not sooner.
      await new Promise((done) => setTimeout(done, 150));
    }
    return { durable, marked };
  }, times);
}

chapter("a tap is on the disk at once", async () => {
  await office.opens();
  office.namesSiteAndPeople();
  await ada.opens();
  await ada.enrols("Ada");
  visit = await ada.opensCar("104417", "Track 2, spot 2");
  const { durable, marked } = await tapsManyTimes(40);
  isWithinAim("tap to durable", durable, 50);
  isWithinAim("tap to its mark", marked, 200);
});

/** What is said of every one of the thousand visits; those that still stand are not released. */
function everythingSaid() {
  const lines = ["liquid_a", "liquid_b", "vapour"];
  const reading = (purpose, psi) => ({
    reading: {
      measured: "pressure",
      place: "car",
      purpose,
      amount: { text: `${psi} psi`, unit: "psi", value: psi },
      instrument: "Gauge 7",
    },
  });
  return [
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
}

/** Runs in the page, where `ask` is: opens the visits and says everything; returns how long that took. */
async function fillsPhone([site, visits, standing, says]) {
  const began = performance.now();
  for (let at = 1; at < visits; at++) {
    const opening = {
      car: `QZQX ${500_000 + at}`,
      site,
      receiver: "fixed_tank",
      spot: `${at % 7}`,
    };
    const id = await globalThis.ask("openVisit", JSON.stringify(opening), "ada");
    const said = at < standing ? says.slice(0, -1) : says;
    await globalThis.ask("append", `visit:${id}`, JSON.stringify(said.map((says) => ({ says }))), "ada");
  }
  return performance.now() - began;
}

chapter("a thousand visits are put on the phone", async () => {
  const site = await ada.page.evaluate(() => JSON.parse(localStorage.getItem("farsiding.settings")).site);
  await ada.opensBook();
  const took = await ada.page.evaluate(fillsPhone, [site, VISITS, STANDING, everythingSaid()]);
  await ada.returnsToApp();
  const began = Date.now();
  await ada.meetsOffice(300_000);
  const sent = ((Date.now() - began) / 1000).toFixed(1);
  return `(${(took / 1000).toFixed(1)} s for ${VISITS} visits of some 17 entries, ${sent} s to the office)`;
});

chapter("among a thousand visits the list is there right after opening and after every entry", async () => {
  // The phone is on its own, as at a siding.
  await office.closes();
  const first = [];
  const opened = [];
  for (let n = 0; n < 4; n++) {
    const began = Date.now();
    await ada.page.goto("about:blank");
    await ada.returnsToApp();
    await ada.seesCar("104417", 60_000);
    opened.push(Date.now() - began);
    first.push((await tookByApp("listed"))[0]);
  }
  const best = Math.min(...opened);
  measured(`phone app opened with ${VISITS} visits ${best} ms at best of ${opened.length}`);
  isWithinAim(`first list of ${VISITS} visits after opening`, first, 200);
  const { durable } = await tapsManyTimes(20);
  isWithinAim(`tap to durable among ${VISITS} visits`, durable, 50);

  await ada.goesTo("cars//");
  await ada.page.locator(".gone summary").tap();
  await ada.page.waitForFunction((n) => document.querySelectorAll(".gone .lead").length === n, 30);
  assert.equal(await ada.page.locator(".track .car").count(), STANDING);
  assert.match(await ada.text(), new RegExp(`${VISITS - STANDING}`));
  isWithinAim(`list of ${VISITS} visits after an entry`, await tookByApp("listed"), 200);
});

/**
 * Starts a phone anew with its processor slowed four times; returns how long it took until `shows` was done.
 */
async function coldStart(phone, shows) {
  await phone.startsAnew();
  await phone.slowsDown(4);
  const began = Date.now();
  await phone.page.goto(phone.appAt());
  await shows();
  return Date.now() - began;
}

chapter("a cold start on a slow phone is quick", async () => {
  const times = [];
  for (let n = 0; n < 3; n++) times.push(await coldStart(ada, () => ada.seesCar("104417")));
  times.sort((x, y) => x - y);
  const how = `with ${VISITS} visits, no network, CPU slowed four times`;
  measured(`phone cold start to usable ${how}: ${times[1]} ms median (aim < 2000)`);
  assert.ok(times[0] < 3000, "far from the aim on any machine");
  // A slowed browser keeps a core busy.
  await ada.closes();

  await office.opens();
  await ben.opens();
  await ben.enrols("Ben");
  await ben.page.waitForSelector(".go");
  // Its first meeting brings everything; that is another story.
  await ben.meetsOffice(300_000);
  const met = [];
  for (let n = 0; n < 3; n++)
    met.push(await coldStart(ben, () => ben.page.waitForSelector('.go:has-text("New car")')));
  // It meets the office meanwhile: shown, and not yet within the aim of what starts alone.
  measured(`phone cold start while it meets the office, CPU slowed four times: ${met.join(", ")} ms`);
});
