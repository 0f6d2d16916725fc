// Whole stays that are not ordinary, each played from its opening to release by what the screens offer alone:
// nothing is overridden, nothing is skipped, no address is typed. Prints what each costs a person. Everybody
// and everything in them is invented. ONLY=part of a chapter's name plays that one.
import assert from "node:assert/strict";
import { Hand } from "./stage/hand.mjs";
import { Siding, wasHereBefore } from "./stage/whole-stay.mjs";
import { setsStage } from "./stage/setting.mjs";
import { chapter, measured } from "./stage/story.mjs";

const { office, browser, phoneInWindow } = setsStage({ quotas: [] });
const ada = phoneInWindow("a");

/** What each may cost, beside the strokes on the keypad: as measured, so that it never grows. */
const MOST = {
  freezing: { taps: 81, numbers: 22 },
  truck: { taps: 73, numbers: 18 },
  // The weather and its temperature are asked for again in the morning; the protections are one key.
  overnight: { taps: 87, numbers: 20 },
  thread: { taps: 83, numbers: 22 },
  // Facts are added to the incident, which takes five more.
  leak: { taps: 104, numbers: 22 },
};
/** What a small phone takes more. */
const SMALL_MORE = 9;
const THREE_LINES = ["liquid_a", "liquid_b", "vapour"];

chapter("a phone is enrolled at a siding", async () => {
  await office.opens();
  office.namesSiteInFull();
  wasHereBefore(office, "QZQX 204120", THREE_LINES);
  for (const number of [204121, 204122, 204123, 204124]) wasHereBefore(office, `QZQX ${number}`);
  await ada.opens(await browser());
  // SIZE=360x640 plays them on a small phone, where a step with a caution comes before its keypad.
  if (process.env.SIZE) {
    const [width, height] = process.env.SIZE.split("x").map(Number);
    await ada.page.setViewportSize({ width, height });
  }
  await ada.enrols("Ada");
  await ada.meetsOffice();
  await ada.goesTo("cars//");
});

/** Plays a stay to its end and looks at what stands in the record then. */
async function plays(name, number, options) {
  const hand = new Hand(ada);
  const stay = new Siding(hand, { car: ["QZQX", String(number)], ...options });
  await ada.context.setOffline(true);
  try {
    await stay.plays();
  } finally {
    if (process.env.TOLD) console.log(hand.told.join("\n"));
  }
  const cost = hand.count();
  measured(`whole stay, ${name}: ${JSON.stringify(cost)}`);
  const view = await ada.view(stay.visit);
  assert.ok(view.release.released, "released");
  assert.equal(view.release.open + view.release.passed_over, 0, "nothing open, nothing overridden");
  assert.ok(view.unloading.fit, "signed before the first closure came out");
  const skipped = view.steps.steps.filter((step) => step.status === "skipped").map((step) => step.id);
  assert.deepEqual(skipped, [], "nothing skipped");
  await ada.worksMinutesAgo(0);
  await ada.context.setOffline(false);
  await ada.meetsOffice();
  await ada.goesTo("cars//");
  const most = MOST[name].taps + (process.env.SIZE ? SMALL_MORE : 0);
  assert.ok(cost.taps <= most, `${cost.taps} taps`);
  assert.ok(cost.numbers <= MOST[name].numbers, `${cost.numbers} typed numbers`);
  return view;
}

function stayOf(name, title, play) {
  if (name.includes(process.env.ONLY ?? "")) chapter(title, play, { othersGoOn: true });
}

stayOf("freezing", "a car with three lines in freezing rain", async () => {
  const view = await plays("freezing", 204120, {
    weather: "Freezing rain",
    figures: { "Temperature Air": "28", "Temperature arrival": "30", "Pressure arrival": "52" },
  });
  assert.ok(view.advice.length > 0, "what ice and frost do to closures is said");
});

stayOf("truck", "a car transloaded into a truck", async () => {
  await plays("truck", 204121, { receiver: "Truck" });
});

stayOf("overnight", "a part of the load is left overnight and taken up the next morning", async () => {
  const left = async (stay) => {
    const { hand, page } = stay;
    await hand.tapsKey("Record something else");
    await hand.tapsKey("Car left");
    await hand.tapsKey("Connected", ".sink button");
    const conditions = page.locator('.sink .keys .key[aria-pressed="false"]');
    while ((await conditions.count()) > 1) await hand.taps_(conditions.nth(1), "seen to");
    await hand.leaves(() => hand.confirms("left"));
    await stay.waits(14 * 60);
  };
  const again = ["Track secured", "Hand brake", "Wheels blocked", "Blue sign up"];
  const protectedAgain = Object.fromEntries(again.map((title) => [title, "In place"]));
  const view = await plays("overnight", 204122, {
    receiver: "Truck",
    minutes_ago: 1600,
    answers: protectedAgain,
    detours: { "Transfer running": left },
  });
  assert.deepEqual(view.leaving.set_again, [], "protected again before anything went on");
});

stayOf("thread", "one thread engaged on a plug stops the job until it is put right", async () => {
  const one = (stay) => stay.hand.moves(() => stay.hand.tapsKey("1", '.sink .keys[role="group"] .key'));
  const holds = async ({ hand, page }) => {
    assert.equal(await page.locator(".held").count(), 1, "one thread holds the job");
    await hand.confirms();
    await hand.field("Why", "One thread engaged");
    await hand.leaves(() => hand.confirms("hold"));
  };
  const again = (stay) => stay.hand.moves(() => stay.hand.tapsKey("5", '.sink .keys[role="group"] .key'));
  const lifted = async ({ hand }) => {
    await hand.tapsKey("Lift the hold");
    await hand.field("Why", "Plug turned in again, five threads");
    await hand.leaves(() => hand.confirms("lift"));
  };
  await plays("thread", 204123, {
    detours: { "Threads engaged liquid": [one, holds, again], "On hold": lifted },
  });
});

stayOf("leak", "a leak is found, and an incident happens", async () => {
  const notSo = async ({ hand, page }) => {
    await hand.taps_(page.locator("ol li").nth(1).locator("button.not"), "not so");
    await hand.moves(() => hand.confirms());
  };
  const found = async ({ hand }) => {
    await hand.tapsKey("Leak found");
    await hand.tapsKey("Packing or stem");
    await hand.field("Done about it", "Pressure off, gland nut a quarter turn");
    await hand.leaves(() => hand.confirms("leak"));
  };
  const happens = async ({ hand }) => {
    await hand.tapsKey("Record something else");
    await hand.tapsKey("Incident");
    await hand.tapsKey("hose or arm");
    await hand.leaves(() => hand.confirms("incident"));
  };
  // What is known by now is added; what was said before stands as it was, to the second.
  const more = async ({ hand, visit }) => {
    const before = await hand.phone.view(visit);
    await hand.tapsKey("Add facts");
    await hand.tapsKey("More 1/");
    await hand.tapsKey("More 2/");
    await hand.tapsKey("Nobody hurt");
    await hand.leaves(() => hand.confirms("facts"));
    const { incidents } = await hand.phone.view(visit);
    assert.equal(incidents.length, 1, "it is the same incident");
    assert.deepEqual(incidents[0].known, { ...before.incidents[0].known, injury: "none" });
  };
  const isClosed = async ({ hand }) => {
    await hand.tapsKey("Call");
    await hand.tapsKey("local emergency number");
    await hand.leaves(() => hand.confirms("call"));
    await hand.tapsKey("Stopped");
    await hand.leaves(() => hand.confirms("stopped"));
    await hand.tapsKey("Close", ".screen .body button");
    await hand.field("What was done", "Hose changed, area free of gas");
    await hand.leaves(() => hand.confirms("closed"));
  };
  const tight = async ({ hand, page }) => {
    assert.equal(await page.locator(".held").count(), 1, "a leak holds the job");
    await hand.tapsKey("Check again");
    await hand.tapsKey("Tight");
    await hand.leaves(() => hand.confirms("tight"));
  };
  const detours = {
    "Open the valve": notSo,
    "Leak check": [found, tight],
    "Transfer running": happens,
    "On hold": [more, isClosed],
  };
  await plays("leak", 204124, { detours });
});
