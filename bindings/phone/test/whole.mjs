// Whole stays, played from enrolment to release by what the screens offer alone: nothing is passed over,
// nothing is overridden, no address is typed. Prints what a person has to do for each: taps, typed numbers,
// photographs, screens. Everybody and everything in them is invented.
import assert from "node:assert/strict";
import { Hand } from "./stage/hand.mjs";
import { Siding, wasHereBefore } from "./stage/whole-stay.mjs";
import { setsStage } from "./stage/setting.mjs";
import { chapter, measured } from "./stage/story.mjs";

const { office, browser, phoneInWindow } = setsStage({ quotas: [] });
const ada = phoneInWindow("a");

/**
 * What an ordinary car may cost a person, beside the strokes on the keypad: as measured, so that it never
 * grows. The aim is 80 taps and 20 typed numbers.
 */
const SMALL = process.env.SIZE === "360x640";
/** On a small phone a step with a caution, or with much to do, comes before its keypad. */
const MOST_TAPS = SMALL ? 77 : 70;
const MOST_NUMBERS = 20;

chapter("a phone is enrolled at a siding", async () => {
  await office.opens();
  office.namesSiteInFull();
  wasHereBefore(office, "QZQX 204117");
  // Its shipping paper came before it: the office imported it and sent it to the siding.
  office.sendsPapers(
    "B-7714,QZQX 204117,Demo gas plant,,30100 gal,0.507,UN1075,Liquefied petroleum gas,yes,",
  );
  await ada.opens(await browser());
  // SIZE=360x640 plays it on a small phone.
  const [width, height] = (process.env.SIZE ?? "390x844").split("x").map(Number);
  await ada.page.setViewportSize({ width, height });
  await ada.enrols("Ada");
  // What the siding knows of its cars comes with the next meeting.
  await ada.meetsOffice();
  await ada.goesTo("cars//");
});

chapter("an ordinary car: one liquid line, one vapor line, four hours of transfer", async () => {
  const hand = new Hand(ada);
  const stay = new Siding(hand, { car: ["QZQX", "204117"], expected: true });
  // No signal from here on until the car has left.
  await ada.context.setOffline(true);
  await stay.plays();
  const cost = hand.count();
  measured(`whole stay, ordinary car: ${JSON.stringify(cost)} (aim 80 taps, 20 numbers)`);
  if (process.env.TOLD) console.log(hand.told.join("\n"));
  const { release, unloading, findings } = await ada.view(stay.visit);
  assert.ok(release.released, "released");
  assert.equal(release.open + release.passed_over, 0, "nothing open, nothing overridden");
  assert.ok(unloading.fit, "signed before the first closure came out");
  assert.deepEqual(
    findings.filter((finding) => finding.severity === "alarm"),
    [],
  );
  await ada.worksMinutesAgo(0);
  await ada.context.setOffline(false);
  await ada.meetsOffice();
  assert.ok(cost.taps <= MOST_TAPS, `${cost.taps} taps`);
  assert.ok(cost.numbers <= MOST_NUMBERS, `${cost.numbers} typed numbers`);
});
