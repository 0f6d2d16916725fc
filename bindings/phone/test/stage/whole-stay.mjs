// A stay as a person plays it: looks at the screen, does what it asks, looks again. What is answered stands
// here by the words on the screen; where to go next is the app's.
import { later } from "./waiting.mjs";

/** The figures of a car, by what the keypad's heading says. */
const FIGURES = {
  "Shell capacity": "33700",
  "Threads engaged": "5",
  "Pressure arrival": "118",
  "Temperature arrival": "62",
  "Outage arrival": "18.4",
  "Level arrival": "22",
  "Pressure transfer": "124",
  "Level transfer": "41",
  "Pressure recovery": "38",
  "Pressure pressure hold": "21",
  "Temperature liquid-out check": "57",
  "Pressure liquid-out check": "21",
  "Pressure final": "18.5",
};

export class Siding {
  visit = "";
  rounds = 0;

  /**
   * `detours` are what else happens: by the beginning of a screen's title, what is done there, once, in place
   * of what is usual; a title may have several, in order. `expected`: the office sent the car's paper before.
   * `answers` are other ones than "Right", by title.
   */
  constructor(
    hand,
    {
      car,
      figures = {},
      hours = 4,
      minutes_ago = 600,
      receiver = "Fixed tank",
      weather = "Dry",
      expected = false,
      detours = {},
      answers = {},
    },
  ) {
    this.hand = hand;
    this.car = car;
    this.receiver = receiver;
    this.weather = weather;
    this.expected = expected;
    this.answers = answers;
    this.detours = Object.entries(detours).map(([title, acts]) => [title, [acts].flat()]);
    this.figures = { ...FIGURES, ...figures };
    this.hours = hours;
    this.minutes_ago = minutes_ago;
  }

  get page() {
    return this.hand.page;
  }

  async plays() {
    await this.hand.phone.worksMinutesAgo(this.minutes_ago);
    await this.opens();
    for (let n = 0; n < 160; n++) {
      const { kind, title } = await this.hand.screen();
      if (kind === "cars") return;
      if (process.env.STEPS) console.log(n, kind, "|", title);
      if (title !== this.before) await this.hand.seesTheTop(title);
      this.before = title;
      // SHOTS=DIR takes a picture of each screen of the stay.
      if (process.env.SHOTS) await this.page.screenshot({ path: `${process.env.SHOTS}/${n}-${kind}.png` });
      const detour = this.detours.find(([begins, acts]) => title.startsWith(begins) && acts.length > 0);
      if (detour) await detour[1].shift()(this);
      else await this.acts(kind, title);
    }
    throw new Error("the stay did not end");
  }

  /** Time goes by; the app is looked at again. */
  async waits(minutes) {
    this.minutes_ago -= minutes;
    await this.hand.phone.worksMinutesAgo(this.minutes_ago);
    const shown = await this.page.locator("h1").first().innerText();
    await this.page.evaluate(() => document.dispatchEvent(new Event("visibilitychange")));
    await this.page
      .waitForFunction((was) => document.querySelector("h1")?.innerText !== was, shown, { timeout: 4000 })
      .catch(() => {});
    await later(50);
  }

  async opens() {
    const { hand } = this;
    if (this.expected) {
      // The office's paper names it: its stencil is photographed, and one key says that it shows this number.
      await hand.tapsKey(this.car.join(" "), ".expected .lead");
      await hand.photographs("car number");
      await hand.tapsKey(`The car shows ${this.car.join(" ")}`);
    } else {
      await hand.tapsKey("New car");
      await hand.field("Reporting mark", this.car[0]);
      await hand.field("Number", this.car[1], { number: true });
      await hand.photographs("car number");
    }
    await this.page.waitForSelector(".verdict .icon");
    const chosen = `.receivers [aria-pressed="true"]:has-text("${this.receiver}")`;
    if ((await this.page.locator(chosen).count()) === 0)
      await hand.tapsKey(this.receiver, ".receivers button");
    await hand.confirms();
    this.visit = await hand.phone.visitOnScreen();
    await hand.confirms();
  }

  /** Somebody who transfers for hours reads when a reading is due, and goes on when the car is empty. */
  transfers() {
    if (this.rounds >= this.hours - 1) return this.hand.moves(() => this.hand.confirms("Transfer is over"));
    this.rounds += 1;
    return this.waits(61);
  }

  async acts(kind, title) {
    const { hand } = this;
    if (title === "Transfer running") return this.transfers();
    switch (kind) {
      case "step":
        return this.step(title);
      case "figure":
        return this.figure();
      case "form":
        return this.form(title);
      case "paper":
        await hand.readsToTheEnd();
        return hand.leaves(() => hand.confirms(title));
      case "photo":
        return hand.leaves(() => hand.photographs(title));
      case "seal":
        return this.seal();
      case "car":
        if (await this.page.locator('button:has-text("No bolts, pin only")').count())
          await hand.tapsKey("No bolts, pin only");
        return hand.leaves(() => hand.tapsKey("Record:"));
      case "gate":
        return hand.holds("gate");
      case "round":
        await hand.photographs("open housing");
        await this.page.waitForSelector(".photo .say");
        // Nothing is signed that was not on the screen.
        await hand.readsToTheEnd();
        return hand.holds("last round");
      default:
        throw new Error(`nothing is known to do on "${kind}": ${title}`);
    }
  }

  async step(title) {
    const { hand, page } = this;
    const lead = page.locator(".lead.ask:not(.done)").first();
    if (await lead.count()) return hand.moves(() => hand.taps_(lead, title));
    const keys = page.locator('.sink .keys[role="group"] .key');
    if (await keys.count()) {
      const answer = this.answer(title);
      return hand.moves(() => hand.taps_(keys.filter({ hasText: answer }).first(), `${title}: ${answer}`));
    }
    // A list is read to its end before its key records.
    await hand.readsToTheEnd();
    return hand.moves(() => hand.confirms(title));
  }

  answer(title) {
    const known = { "Attend the car": "I have the car", ...this.answers };
    if (title.startsWith("Threads engaged")) return "5";
    return known[title] ?? "Right";
  }

  async figure() {
    const { hand, page } = this;
    const heading = (await page.locator(".screen .ttl, .read h2").first().innerText())
      .replace(/\s+/g, " ")
      .trim();
    const words = (name) => name.toLowerCase().split(" ");
    const known = Object.keys(this.figures).find((name) =>
      words(name).every((word) => heading.toLowerCase().includes(word)),
    );
    const value = this.figures[known];
    if (!value) throw new Error(`no figure for "${heading}"`);
    await hand.figure(value);
    await hand.leaves(() => hand.confirms(heading));
  }

  async form(title) {
    const { hand, page } = this;
    const below = page.locator(".screen .body > h2");
    switch ((await below.count()) ? await below.innerText() : title) {
      case "Shipping paper":
        await hand.tapsKey("The same:");
        await hand.tapsKey("UN1075");
        await hand.field("Billed", "30100", { number: true });
        await hand.tapsKey("Yes");
        break;
      case "Liquid out?":
        await hand.tapsKey("Liquid is out");
        await hand.field("What is it based on?", "Hold still, rod at bottom");
        break;
      case "Weather":
        await hand.tapsKey(this.weather);
        break;
      case "Truck load":
        await hand.field("Which truck", "Truck 12");
        await hand.field("Loaded", "9000", { number: true });
        await hand.field("Ticket", "T-4471");
        break;
      case "Tank qualification":
      case "Relief valve test":
        await hand.field("Due", `${new Date().getFullYear() + 4}-05`);
        break;
      default:
        break;
    }
    await hand.leaves(() => hand.confirms(title));
  }

  async seal() {
    const { hand, page } = this;
    await hand.photographs("seal");
    await page.waitForSelector(".intact .on .icon, .intact button.on");
    await hand.field("Number", "7714402", { number: true });
    for (const word of ["Cable", "Pin"])
      if ((await page.locator(`.keys.four [aria-pressed="true"]:has-text("${word}")`).count()) === 0)
        await hand.tapsKey(word, ".keys.four button");
    await hand.leaves(() => hand.confirms("seal"));
  }
}

/**
 * A car that was at the siding before: the office's device recorded what its stencil says, and released it
 * with everything else overridden, so that these facts are all that is known of it.
 */
export function wasHereBefore(office, car, lines = ["liquid_a", "vapour"]) {
  office.device("open", "--car", car, "--site", "Demo siding");
  const visit = car;
  const due = `${new Date().getFullYear() + 4}-05`;
  office.device("add", visit, "car_capacity", "33700 gal", "insulated");
  office.device(
    "add",
    visit,
    "car_fittings",
    [...lines, "gauging_device,thermometer_well,sample_line"].join(","),
  );
  for (const test of ["tank_qualification", "relief_device", "service_equipment"])
    office.device("add", visit, "car_test_date", test, due);
  for (;;) {
    const { blockers } = JSON.parse(office.device("--json", "show", visit)).visit;
    const open = blockers.filter((one) => !one.passed_over).map((one) => one.code);
    if (!open.length) break;
    office.device("override", visit, "release", ...open, "--reason", "not_here");
  }
  office.device("release", visit);
  office.device("sync");
}
