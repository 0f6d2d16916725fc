// A siding at work, invented, for looking at screens: six cars at different places in the job, and a second
// person's device that says other things of two of them. The siding is played once; whatever measures the
// screens only looks. What was recorded hours ago is recorded so: the worker's clock is set back while the
// phone is without a network.
import { aBoard } from "../pictures.mjs";
import { photoScreen } from "../screens.mjs";
import { later } from "../waiting.mjs";
import {
  LINES,
  amount,
  arrived,
  closed,
  fitted,
  opened,
  paper,
  proven,
  psi,
  reading,
  shut,
} from "./statements.mjs";

export const HOLD = "a".repeat(32);
export const DEFECT = "b".repeat(32);
const LIFTED_HOLD = "c".repeat(32);
export const INCIDENT = "d".repeat(32);
export const LEAK = "e".repeat(32);
/** A car whose paper the office sent, and which has not come. */
export const EXPECTED = "QZQX 500601";

/** Plays the whole siding on a phone. Returns the visits by what they are good for. */
export async function playsSiding(office, phone) {
  await phone.enrolsByCode("Ada (demo)", "Ada's phone");
  const story = new Siding(phone);
  await phone.context.setOffline(true);
  const visits = {
    gone: await story.carComes(1500, "300498", 1),
    moving: await story.carComes(200, "104471", 1),
    main: await story.carComes(260, "104417", 2),
    held: await story.carComes(90, "220086", 3, "truck"),
    ready: await story.carComes(400, "300512", 4),
    twin: await story.carComes(150, "415020", 5),
  };
  await story.isUnloaded(visits.gone, "QZQX 300498", 1450);
  await story.isUnloaded(visits.ready, "QZQX 300512", 380);
  await phone.asks("release", visits.gone, true, "ada");
  await isBeingUnloaded(story, visits.moving);
  await isBeingClosed(story, visits.main);
  await isHeld(story, visits.held);
  await story.says(visits.twin, 149, paper("QZQX 415020"), psi("arrival", 104, "Gauge 2"));

  await phone.worksMinutesAgo(0);
  await phone.context.setOffline(false);
  office.sendsPapers(
    "B-7714,QZQX 415020,Demo gas plant,,30100 gal,0.507,UN1075,Liquefied petroleum gas,yes,",
    `B-7720,${EXPECTED},Demo gas plant,,29850 gal,0.507,UN1075,Liquefied petroleum gas,yes,`,
    "B-7721,QZQX 500602,Demo gas plant north,,30020 gal,,UN1978,Propane,,",
  );
  await takesPhotographs(phone, visits.main);
  await meetsUntil(phone, () => everythingReceipted(phone));
  await benSaysOtherThings(office, phone, story, visits);
  // One thing that the office has not.
  await story.says(visits.moving, 0, psi("transfer", 118, "Gauge 2"));
  return visits;
}

/** What Ada does at a car, said so many minutes ago. */
class Siding {
  constructor(phone) {
    this.phone = phone;
  }

  async carComes(minutes, number, spot, receiver = "fixed_tank") {
    await this.phone.worksMinutesAgo(minutes);
    return this.phone.opensVisit({ car: `QZQX ${number}`, receiver, spot: `Track 2, spot ${spot}` });
  }

  async says(visit, minutes, ...statements) {
    await this.phone.worksMinutesAgo(minutes);
    await this.phone.says(visit, ...statements);
  }

  /** Ticks off every open step of the stages before `upTo`, as one who had done them. */
  async ticksOff(visit, minutes, upTo) {
    const { steps } = await this.phone.view(visit);
    const place = (stage) => steps.stages.findIndex((one) => one.stage === stage);
    const end = upTo ? place(upTo) : 99;
    const open = steps.steps.filter(
      (step) => ["open", "partly"].includes(step.status) && place(step.stage) < end,
    );
    const done = open.map((step) => ({ step: { step: step.id, outcome: "done" } }));
    await this.says(visit, minutes, ...done);
  }

  /** Passes over all that still speaks against release. */
  async passesOver(visit, why) {
    for (let n = 0; n < 40; n++) {
      const { blockers } = await this.phone.view(visit);
      const next = blockers.find((blocker) => !blocker.passed_over);
      if (!next) return;
      await this.phone.asks("passOver", visit, next.code, why, "ada");
    }
  }

  /** A car that was received, unloaded, proven empty and closed, and whose last doubts were passed over. */
  async isUnloaded(visit, car, minutes) {
    await this.says(visit, minutes, ...arrived(car));
    await this.says(visit, minutes - 40, ...opened(...LINES));
    const decision = { empty_decision: { accepted: true, grounds: "Rod at bottom, only vapour" } };
    await this.says(visit, minutes - 250, psi("hold_test", 29), ...proven, decision);
    await this.says(visit, minutes - 300, ...closed);
    await this.ticksOff(visit, minutes - 310);
    await this.passesOver(visit, "Looked at again, stays so");
  }
}

async function isBeingUnloaded(story, visit) {
  await story.says(visit, 190, ...arrived("QZQX 104471"));
  const adapter = { item_out: { item: "Adapter 1", fitting: "liquid_a" } };
  await story.says(visit, 150, ...opened("liquid_a", "vapour"), adapter);
  await story.ticksOff(visit, 140, "transfer");
  await story.says(visit, 60, psi("transfer", 121, "Gauge 2"));
  await story.says(visit, 20, psi("transfer", 119, "Gauge 2"));
}

/**
 * The car that most screens are looked at with: unloaded and proven empty, half closed, with a hiss at the
 * vapour line.
 */
async function isBeingClosed(story, visit) {
  const seal = { event: "found", place: "housing_pin", number: "0031187", kind: "cable", intact: true };
  const weather = { precipitation: "freezing_rain", wind: "NW, fresh" };
  await story.says(visit, 255, ...arrived("QZQX 104417"), { seal }, { weather });
  await story.says(
    visit,
    240,
    ...opened(...LINES),
    { item_out: { item: "Adapter 2", fitting: "liquid_b" } },
    { item_out: { item: "Thermo well cap", fitting: "thermometer_well" } },
  );
  await story.ticksOff(visit, 235, "prove_empty");
  for (const [minutes, value] of [
    [58, 28.2],
    [52, 28.9],
    [46, 29.2],
    [38, 29.4],
    [30, 29.4],
  ])
    await story.says(visit, minutes, psi("hold_test", value));
  const grounds = "Rod at bottom, vapour, far below saturation";
  await story.says(visit, 28, ...proven, { empty_decision: { accepted: true, grounds } });
  await story.ticksOff(visit, 27, "disconnect");

  await story.says(visit, 24, ...shut("liquid_a"));
  const liquidB = fitted(
    "liquid_b",
    ["valve", { position: "shut" }],
    ["effort", { part: "valve", amount: amount(46, "ft·lbf") }],
    ["listen", { heard: "quiet" }],
    ["line", { connected: false }],
    ["closure", { state: "hand_tight" }],
  );
  await story.says(visit, 20, ...liquidB);
  await story.says(
    visit,
    16,
    ...fitted("sample_line", ["valve", { position: "shut" }], ["closure", { state: "tool_tight" }]),
    ...fitted("gauging_device", ["closure", { state: "tool_tight" }]),
    ...fitted("thermometer_well", ["closure", { state: "open" }]),
    ...fitted("vapour", ["listen", { heard: "hiss" }]),
  );
  const cover = { closed: false, pinned: false, bolts_in_place: 2, bolts_required: 4 };
  await story.says(visit, 14, { cover });
}

/** A car on hold for a defect that an authority has spoken on. */
async function isHeld(story, visit) {
  const what = "Plug bottoms after one thread";
  await story.says(
    visit,
    80,
    paper("QZQX 220086"),
    { defect: { defect: DEFECT, fitting: "liquid_b", what, needs_authority: true } },
    { forwarded: { defect: DEFECT, to: "Demo carrier, mechanical", how: "voice" } },
    { threads: { fitting: "liquid_b", engaged: amount(1, "turns") } },
  );
  await story.says(
    visit,
    70,
    { hold: { hold: HOLD, because: "One thread engaged at liquid B" } },
    { hold: { hold: LIFTED_HOLD, because: "Chock missing on the west side" } },
    { hold_lifted: { hold: LIFTED_HOLD, because: "Chock set again" } },
    { leak: { leak: LEAK, at: "packing", fitting: "liquid_b", action: "Gland nut turned a quarter" } },
    { leak_checked: { leak: LEAK, tight: false, note: "Bubbles at the stem" } },
  );
  const noticed_at = Date.now() - 75 * 60_000;
  const incident = {
    incident: INCIDENT,
    source: "hose",
    fitting: "liquid_b",
    noticed_at,
    what: "Hose split",
  };
  const at = noticed_at + 5 * 60_000;
  const incident_call = { incident: INCIDENT, to: "emergency", at, number: "R-77" };
  await story.says(visit, 69, { incident }, { incident_call });
  const spoken_at = Date.now() - 60 * 60_000;
  const authority = { defect: DEFECT, by: "Demo authority", reference: "DA-1", spoken_at };
  await story.says(visit, 69, { authority });
}

/** Takes photographs of a car through the app itself. */
async function takesPhotographs(phone, visit) {
  for (const [words, of, ground] of [
    [["QZQX", "104417"], "Car number", "#20262b"],
    [["0031187"], "Seal", "#5a3a22"],
    [["4 1/2", "turns"], "Threads", "#3a4148"],
    [["demo"], "Housing", "#28302c"],
  ]) {
    const before = await phone.page.locator("figure").count();
    await phone.goesTo(photoScreen(visit));
    await phone.taps(of, ".keys.two .key");
    await phone.handsInPicture(await aBoard(phone.page, words, ground));
    await phone.page.waitForFunction(
      (count) => document.querySelectorAll("figure canvas[data-drawn]").length > count,
      before,
    );
  }
}

const everythingReceipted = async (phone) => (await phone.asksFor("status")).without_receipt === 0;

/** Meets the office until something has come of it, and asks again for a meeting every two seconds. */
async function meetsUntil(phone, done) {
  await phone.goesTo("only_here//");
  for (let n = 0; !(await done()); n++) {
    if (n > 60) throw new Error("the office was not met");
    if (n % 8 === 0) await phone.confirms();
    await later(250);
  }
}

/** Ben is at the same cars with a device of his own, while Ada's phone has not heard of his words. */
async function benSaysOtherThings(office, phone, story, { main, twin }) {
  const ben = office.enrolsDevice("ben");
  ben("sync", "--no-photos");
  ben("add", main, "closure", "thermometer_well", "hand_tight");
  const differing = async () => (await phone.view(main)).disagreements.length;
  const before = await differing();

  await phone.context.setOffline(true);
  await story.says(main, 0, ...fitted("thermometer_well", ["closure", { state: "tool_tight" }]));
  await story.says(main, 0, reading("outage", "car", "arrival", 14.5, "in"));
  ben("add", main, "reading", "outage", "car", "arrival", "15.25 in");
  ben("add", main, "handover_given", "to=ada");
  const opens = (car, spot) =>
    JSON.parse(ben("--json", "open", "--car", car, "--site", "Demo siding", "--spot", spot)).visit;
  const bens = opens("QZQX 415020", "Track 2, spot 5");
  ben("add", bens, "reading", "temperature", "car", "arrival", "58 °F", "Thermometer 1");
  // This number is one slip of the hand away from another car's.
  opens("QZQX 415002", "Track 3, spot 1");
  ben("sync", "--no-photos");

  await phone.context.setOffline(false);
  await meetsUntil(phone, async () => (await differing()) >= before + 2);
  await story.says(twin, 0, { joined: { other: bens } });
  await meetsUntil(phone, () => everythingReceipted(phone));
}
