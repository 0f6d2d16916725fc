// Two cars on one track, each received by what the screens offer. What belongs to the track is looked at
// once: at the second car one key says that it is still so, and the record says on which entry that rests.
// Prints what the second car costs less. Everybody and everything in it is invented.
import assert from "node:assert/strict";
import { Hand } from "./stage/hand.mjs";
import { setsStage } from "./stage/setting.mjs";
import { chapter, measured } from "./stage/story.mjs";
import { Siding, wasHereBefore } from "./stage/whole-stay.mjs";

const { office, browser, phoneInWindow } = setsStage({ quotas: [] });
const ada = phoneInWindow("a");

/** A car that is received, and no further. */
class Received extends Siding {
  constructor(hand, spot, options) {
    super(hand, options);
    this.spot = spot;
    this.lists = [];
  }

  async plays() {
    await this.hand.phone.worksMinutesAgo(this.minutes_ago);
    await this.opens();
    for (let n = 0; n < 60; n++) {
      const { kind, title } = await this.hand.screen();
      const view = await this.hand.phone.view(this.visit);
      if (view.stage !== "receive") return;
      if (kind === "step") this.lists.push(await this.page.locator("ol").allInnerTexts());
      if (process.env.SHOTS)
        await this.page.screenshot({ path: `${process.env.SHOTS}/${this.car[1]}-${n}-${kind}.png` });
      await this.acts(kind, title);
    }
    throw new Error("the car was not received");
  }

  async opens() {
    const { hand, page } = this;
    await hand.tapsKey("New car");
    await hand.field("Reporting mark", this.car[0]);
    await hand.field("Number", this.car[1], { number: true });
    await page.locator("input.field").nth(2).fill(this.spot);
    await hand.photographs("car number");
    await page.waitForSelector(".verdict .icon");
    const chosen = `.receivers [aria-pressed="true"]:has-text("${this.receiver}")`;
    if ((await page.locator(chosen).count()) === 0) await hand.tapsKey(this.receiver, ".receivers button");
    await hand.confirms();
    this.visit = await hand.phone.visitOnScreen();
    await hand.confirms();
  }
}

async function receives(number, spot, minutes_ago) {
  await ada.worksMinutesAgo(0);
  await ada.goesTo("cars//");
  const hand = new Hand(ada);
  const stay = new Received(hand, spot, { car: ["QZQX", number], minutes_ago });
  await ada.context.setOffline(true);
  await stay.plays();
  return { stay, cost: hand.count() };
}

const sign = (view) => view.steps.steps.find((step) => step.id === "blue_sign_up").status;

chapter("a phone is enrolled at a siding", async () => {
  await office.opens();
  office.namesSiteInFull();
  for (const number of [204131, 204132, 204133]) wasHereBefore(office, `QZQX ${number}`);
  await ada.opens(await browser());
  await ada.enrols("Ada");
  await ada.meetsOffice();
});

let first, second;
chapter("the second car on the track takes over what was looked at with the first", async () => {
  first = await receives("204131", "Track 3, spot 1", 40);
  second = await receives("204132", "Track 3, spot 2", 20);
  const shown = second.stay.lists.flat().join("\n");
  assert.match(shown, /As on Track 3 at \d\d:\d\d, with QZQX 204131: still so\./);
  assert.equal(shown.split("still so").length - 1, 5, "track, sign, detector, escape route, weather");
  const [one, two] = [first.cost, second.cost];
  measured(`received, first car on the track: ${JSON.stringify(one)}; second: ${JSON.stringify(two)}`);
  measured(`saved: ${one.taps - two.taps} taps, ${one.numbers - two.numbers} typed numbers`);
  assert.ok(second.cost.taps < first.cost.taps, "fewer taps");
  assert.ok(second.cost.numbers < first.cost.numbers, "fewer numbers typed");
  const view = await ada.view(second.stay.visit);
  const codes = view.unloading.blockers.map((item) => item.code);
  assert.ok(!codes.some((code) => /blue_sign|track_secured|weather|escape/.test(code)), codes.join());
  const history = await ada.history(second.stay.visit);
  const rests = history.filter((line) => /Rests on the entry of .* for QZQX 204131/.test(line));
  assert.equal(rests.length, 6, "five steps, of which the weather has two entries");
});

chapter("a car on another track takes nothing over", async () => {
  const { stay } = await receives("204133", "Track 4, spot 1", 10);
  assert.ok(!stay.lists.flat().join("\n").includes("still so"));
});

chapter("what the first car's entry loses, the second car's loses as well", async () => {
  assert.equal(sign(await ada.view(second.stay.visit)), "recorded");
  const { history } = await ada.view(first.stay.visit);
  const { entry } = history.find((line) => line.slot === "protection/blue_sign").said;
  await ada.asks("withdraw", first.stay.visit, entry, "The sign of track 4", "ada");
  const view = await ada.view(second.stay.visit);
  assert.equal(sign(view), "open");
  assert.ok(view.unloading.blockers.some((item) => item.code === "protection_not_set.blue_sign"));
});
