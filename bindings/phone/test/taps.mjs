// Taps that nobody meant: a second tap of a cold thumb, and taps at random. A second tap records nothing and
// signs nothing; whatever is tapped, an answer that holds the job is seen to hold it, and "no open items"
// never stands beside an alarm. TAPS gives how many are tried of each (200 and 300 when measured; fewer in
// every run).
import assert from "node:assert/strict";
import { aPicture } from "./stage/pictures.mjs";
import { later } from "./stage/waiting.mjs";
import { carScreen, formScreen } from "./stage/screens.mjs";
import { setsStage } from "./stage/setting.mjs";
import { chapter, measured } from "./stage/story.mjs";

const SECOND = Number(process.env.TAPS ?? 40);
const AT_RANDOM = Number(process.env.TAPS ? 1.5 * Number(process.env.TAPS) : 60);

const { office, browser, phoneInWindow } = setsStage({ quotas: [] });
const ada = phoneInWindow("a");
let visit = "";

/** Random numbers that can be drawn again: a linear congruential generator is enough for choosing keys. */
function drawing(seed) {
  let state = seed >>> 0;
  return (below) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 2 ** 32) * below);
  };
}
const draw = drawing(Number(process.env.FARSIDING_SEED ?? 20261129));

chapter("a car stands at the siding", async () => {
  await office.opens();
  office.namesSiteInFull();
  await ada.opens(await browser());
  await ada.enrols("Ada");
  visit = await ada.opensCar("204117", "Track 2");
});

/** How many acts were recorded since the page opened. */
const recorded = () => ada.page.evaluate(() => performance.getEntriesByName("recorded").length);
const settled = () =>
  ada.page.waitForFunction(() => !document.querySelector(".under.settling"), null, { timeout: 10_000 });

/** Taps a point twice, so many milliseconds apart. */
async function tapsTwice(locator, apart) {
  await locator.scrollIntoViewIfNeeded();
  const box = await locator.boundingBox();
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await ada.page.touchscreen.tap(x, y);
  await later(apart);
  await ada.page.touchscreen.tap(x, y);
  await later(700);
}

chapter("a second tap records nothing and signs nothing", async () => {
  let acts = 0;
  for (let n = 0; n < SECOND; n++) {
    const where = [`step/${visit}/`, carScreen(visit, "liquid_a"), `step/${visit}/hand_brake`][n % 3];
    await ada.goesTo(where);
    await ada.page.waitForSelector(".screen .foot");
    await settled();
    const keys = ada.page.locator(".foot .go, .keys[role=group] .key, .keys .key.row");
    const key = keys.nth(draw(await keys.count()));
    const before = await recorded();
    await tapsTwice(key, 20 + draw(481));
    const made = (await recorded()) - before;
    assert.ok(made <= 1, `tap ${n}: ${made} acts recorded by one key at ${where}`);
    acts += made;
  }
  const { release, unloading } = await ada.view(visit);
  assert.equal(release.released, null);
  assert.equal(unloading.fit, null);
  assert.ok(acts > SECOND / 10, "the taps must reach keys that record");
  measured(
    `second taps: ${SECOND} at 20 to 500 ms, ${acts} acts by first taps, none by second ones (aim none)`,
  );
});

chapter(
  "the key of a list records nothing that was not on the screen, and as far as the first that is not so",
  async () => {
    const listed = await ada.opensCar("204118", "Track 3");
    await ada.photographs(listed, await aPicture(ada.page), "car_number");
    await ada.page.waitForFunction(() => !location.hash.startsWith("#photo"));
    const paper = { paper: { car: "QZQX 204118", un_number: "UN1075" } };
    await ada.says(listed, paper, { clock: { event: "actual_placement", at: Date.now() } });
    await ada.page.setViewportSize({ width: 360, height: 640 });
    await ada.goesTo(`step/${listed}/`);
    await ada.sees("Protect the track and the car");
    await settled();
    const before = await recorded();
    await ada.confirms();
    await later(700);
    assert.equal(await recorded(), before, "the list goes on below the edge");
    const rows = ada.page.locator("ol li");
    await rows.nth(2).locator("button.not").tap();
    await ada.sees("Record 2 as listed, then answer this");
    await ada.confirms();
    await ada.page.waitForFunction(() => location.hash.endsWith("/chocks"));
    await ada.sees("Block wheels at both ends");
    const { steps } = await ada.view(listed);
    const status = (id) => steps.steps.find((step) => step.id === id).status;
    const first = ["track_secured", "hand_brake", "chocks", "look_round"].map(status);
    assert.deepEqual(first, ["recorded", "recorded", "open", "open"]);
    await ada.goesTo(`step/${listed}/`);
    await ada.sees("Protect the track and the car");
    await rows.last().scrollIntoViewIfNeeded();
    await ada.page.evaluate(() => document.querySelector(".screen .body").scrollTo(0, 1e6));
    await ada.sees("All 7 as listed");
    await ada.confirms();
    await ada.sees("Weather and wind");
  },
);

chapter(
  "a paper that nobody compared names no car, and a cover that nobody counted has no bolts",
  async () => {
    const bare = await ada.opensCar("204119", "Track 4");
    await ada.goesTo(formScreen(bare, "paper"));
    await ada.taps("UN1978");
    await ada.confirmsAndLeaves("form");
    const open = async () => (await ada.view(bare)).unloading.blockers.map((one) => one.code);
    assert.ok((await open()).includes("paper_not_compared"));
    await ada.goesTo(carScreen(bare, "cover"));
    await ada.sees("No bolts, pin only");
    assert.equal(await ada.page.locator('button:has-text("Record:")').count(), 0);
    await ada.goesTo(formScreen(bare, "paper"));
    await ada.taps("The same: QZQX 204119");
    await ada.confirmsAndLeaves("form");
  },
);

/** What must hold whatever was tapped. */
async function holds(n, what) {
  const view = await ada.view(visit);
  const held = view.steps.steps.filter((step) => step.status === "held").map((step) => step.id);
  const told = `tap ${n} (${what})`;
  if (held.length && !view.release.released)
    assert.ok(
      held.includes(view.steps.next[0]),
      `${told}: ${held} holds the job, next is ${view.steps.next[0]}`,
    );
  for (const fitting of view.fittings) {
    const hissed = fitting.listen?.value === "hiss";
    const open = view.blockers.some((one) => one.fitting === fitting.fitting);
    assert.ok(!hissed || open || held.length > 0, `${told}: a leak at ${fitting.fitting} and nothing open`);
  }
  const alarms = view.findings.filter((finding) => finding.severity === "alarm");
  const text = await ada.text();
  if (text.includes("No open items")) {
    const open = [...view.blockers, ...view.unloading.blockers].filter((one) => one.code.startsWith("alarm"));
    assert.ok(
      !open.some((one) => !one.passed_over),
      `${told}: "no open items" beside ${JSON.stringify(alarms)}`,
    );
  }
}

chapter("whatever is tapped, a dangerous answer holds the job", async () => {
  const screens = ["liquid_a", "liquid_b", "vapour", "sample_line", "gauging_device"];
  let holding = 0;
  for (let n = 0; n < AT_RANDOM; n++) {
    const fitting = screens[draw(screens.length)];
    const places = [
      carScreen(visit, fitting),
      `step/${visit}/`,
      `gate/${visit}/unload`,
      `gate/${visit}/release`,
    ];
    if (n % 5 === 0) await ada.goesTo(places[draw(places.length)]);
    await ada.page.waitForSelector(".screen .foot");
    await settled();
    const keys = ada.page.locator(".screen button:visible");
    const at = draw(await keys.count());
    const what = (
      await keys
        .nth(at)
        .innerText()
        .catch(() => "?")
    )
      .replace(/\s+/g, " ")
      .slice(0, 40);
    await keys
      .nth(at)
      .tap({ timeout: 2000 })
      .catch(() => {});
    await later(60);
    if (!ada.page.url().includes(visit)) await ada.goesTo(`step/${visit}/`);
    await holds(n, what);
    const { steps } = await ada.view(visit);
    holding += steps.steps.some((step) => step.status === "held") ? 1 : 0;
  }
  measured(`taps at random: ${AT_RANDOM}, ${holding} of them while an answer held the job (aim no breach)`);
});
