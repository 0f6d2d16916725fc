// The hand of a person who plays a whole stay by what the screens offer: it sees what stands there, taps,
// types and photographs, and counts all of it. It knows no addresses.
import { aPicture } from "./pictures.mjs";
import { later } from "./waiting.mjs";

/** What kind of screen is there; one that answers the next step stands at the step's address. */
function shownKind() {
  const kind = location.hash.slice(1).split("/")[0] || "cars";
  if (kind !== "step") return kind;
  const has = (selector) => document.querySelector(`.screen ${selector}`) !== null;
  if (has("ol li") || has(".keys.bottom")) return kind;
  if (has(".pad")) return "figure";
  if (has(".lead.one")) return "round";
  if (has(".hold")) return "gate";
  if (has(".intact")) return "seal";
  if (has(".pairs")) return "car";
  if (has(".facts")) return "paper";
  if (has('.foot input[type="file"]')) return "photo";
  return has(".foot .go") ? "form" : kind;
}

/** The address and the headings of the screen that is there. */
function shownPlace() {
  const headings = [...document.querySelectorAll(".screen h1, .screen h2")].map((one) => one.innerText);
  return [location.hash, ...headings].join(" ");
}

export class Hand {
  taps = 0;
  strokes = 0;
  characters = 0;
  numbers = 0;
  photos = 0;
  swipes = 0;
  screens = new Set();
  /** What was done, in order. */
  told = [];

  constructor(phone) {
    this.phone = phone;
  }

  get page() {
    return this.phone.page;
  }

  /** The heading of the screen, and the address as far as it names the kind of screen. */
  async screen() {
    await this.page.waitForSelector(".screen h1, .screen .foot", { timeout: 20_000 });
    const kind = await this.page.evaluate(shownKind);
    const title = await this.page
      .locator("h1")
      .first()
      .innerText()
      .catch(() => "");
    this.screens.add(`${kind}: ${title}`);
    // A message that lacks one of its arguments shows the argument's name.
    const shown = await this.page.locator(".screen").first().innerText();
    if (shown.includes("{$")) throw new Error(`words that were not filled in on "${title}": ${shown}`);
    return { kind, title: title.replace(/\s+/g, " ").trim() };
  }

  /** Waits until the screen takes taps again after it changed. */
  async settles() {
    await this.page.waitForFunction(() => !document.querySelector(".under.settling"), null, {
      timeout: 10_000,
    });
  }

  async taps_(locator, what) {
    await this.settles();
    await locator.tap();
    this.taps += 1;
    this.told.push(what);
  }

  tapsKey(text, where = "button") {
    return this.taps_(this.page.locator(`${where}:has-text("${text}")`).first(), text);
  }

  async confirms(what = "the key at the foot") {
    const key = this.page.locator(".foot .go");
    const label = (await key.innerText().catch(() => what)).replace(/\s+/g, " ");
    await this.taps_(key, label);
  }

  /** Swipes to the end of the screen, where it is longer than the window. */
  async readsToTheEnd() {
    const longer = await this.page.evaluate(() => {
      const body = document.querySelector(".screen .body");
      const more = body.scrollHeight > body.clientHeight + 1;
      body.scrollTo(0, body.scrollHeight);
      return more;
    });
    if (longer) this.swipes += 1;
    await later(150);
  }

  /** What has just come is on the screen from its top, so that a person sees which line it is about. */
  async seesTheTop(title) {
    const scrolled = await this.page.evaluate(() => document.querySelector(".screen .body")?.scrollTop ?? 0);
    if (scrolled > 1) throw new Error(`"${title}" came scrolled down by ${scrolled} px`);
    const cut = await this.page.evaluate(() => {
      const told = document.querySelector(".told .what")?.getBoundingClientRect();
      const top = document.querySelector(".screen .body :is(h1, h2):not(.sr)")?.getBoundingClientRect();
      return told && top ? told.bottom - top.top : 0;
    });
    if (cut > 3) throw new Error(`what was recorded last covers "${title}" by ${cut} px`);
  }

  /** Types a figure on the keypad: one number, and its strokes. */
  async figure(text) {
    await this.settles();
    for (const key of String(text)) {
      await this.page.locator(`.pad button:text-is("${key === "-" ? "+/−" : key}")`).tap();
      this.strokes += 1;
    }
    this.numbers += 1;
    await this.page.waitForFunction(
      () => document.querySelector(".foot .go")?.getAttribute("aria-disabled") !== "true",
    );
  }

  /** Types into a field by its name: a tap to get there, and the characters. */
  async field(name, text, { number = false } = {}) {
    await this.settles();
    const field = this.page
      .locator(`label:has-text("${name}") input, label:has-text("${name}") textarea`)
      .first();
    await field.tap();
    await field.fill(text);
    this.taps += 1;
    this.characters += text.length;
    if (number) this.numbers += 1;
    this.told.push(`${name}: ${text}`);
  }

  /** Photographs: a tap, and the camera's shutter. */
  async photographs(what) {
    await this.settles();
    await this.page.setInputFiles('input[type="file"]', await this.picture());
    this.taps += 1;
    this.photos += 1;
    this.told.push(`photo: ${what}`);
  }

  async picture() {
    const { name, mimeType, buffer } = await aPicture(this.page);
    return { name, mimeType, buffer };
  }

  /** Holds the key that signs until another screen is there. */
  async holds(what) {
    await this.settles();
    const key = this.page.locator(".hold");
    const from = await this.page.evaluate(shownPlace);
    await key.scrollIntoViewIfNeeded();
    const box = await key.boundingBox();
    await this.page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    await this.page.mouse.down();
    await this.changesFrom(from, 8000);
    await this.page.mouse.up();
    this.taps += 1;
    this.told.push(`hold: ${what}`);
  }

  /** Waits until what was on the screen has given way to what comes next. */
  async moves(act) {
    const print = () =>
      this.page.evaluate(() => location.hash + document.querySelector(".screen")?.innerText);
    const before = await print();
    await act();
    await this.page.waitForFunction(
      (was) => location.hash + document.querySelector(".screen")?.innerText !== was,
      before,
      { timeout: 15_000 },
    );
    // The app may go on to another screen by itself.
    for (let [was, is] = ["", await print()]; was !== is; [was, is] = [is, await print()]) await later(200);
    await this.settles();
  }

  /** Waits until another screen, or the same one about something else, has taken the place of this one. */
  async leaves(act) {
    const at = () => this.page.evaluate(shownPlace);
    const before = await at();
    await act();
    await this.changesFrom(before, 30_000);
    for (let [was, is] = ["", await at()]; was !== is; [was, is] = [is, await at()]) await later(200);
    await this.settles();
  }

  /** Waits until another screen is there than the one of that print. */
  async changesFrom(place, timeout) {
    for (const began = Date.now(); (await this.page.evaluate(shownPlace)) === place; await later(50))
      if (Date.now() - began > timeout) throw new Error(`still there: ${place}`);
  }

  count() {
    const { taps, strokes, characters, numbers, photos, swipes } = this;
    return { taps, numbers, photos, swipes, screens: this.screens.size, strokes, characters };
  }
}
