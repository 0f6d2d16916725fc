// What a person does with a phone in a story: the hands and eyes that every kind of phone here has. How a
// phone is opened stands in `phone-on-disk.mjs` (a browser of its own, whose profile outlives it) and
// `phone-in-window.mjs` (a window of a shared browser).
import { screenOf } from "./story.mjs";
import { later } from "./waiting.mjs";
import { formScreen, photoScreen } from "./screens.mjs";

/** How a phone's window is. */
export const HANDHELD = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true };

/** How many times longer a story waits: PATIENCE, where many share a machine. */
export const PATIENCE = Number(process.env.PATIENCE ?? 1);

export class Phone {
  complaints = [];

  /** A phone that is broken on purpose `mayComplain`. */
  constructor(name, office, { mayComplain = false } = {}) {
    this.name = name;
    this.office = office;
    this.mayComplain = mayComplain;
  }

  /** Notes whatever a page of this phone complains of. */
  watches(page) {
    page.setDefaultTimeout(15_000 * PATIENCE);
    if (this.mayComplain) return page;
    page.on("pageerror", (error) => {
      this.complaints.push(`${this.name}: ${error.message}`);
      console.log("PAGE ERROR", this.name, error.message);
    });
    return page;
  }

  /** What stands on this phone's screens, for whoever reads of a failure. */
  async screens() {
    const lines = (this.context?.pages() ?? []).map(async (page) => `${this.name} ${await screenOf(page)}`);
    return Promise.all(lines);
  }

  async closes() {
    await this.context?.close();
    this.context = undefined;
  }

  /** The app's address. A story whose app is handed out elsewhere sets `servedAt`. */
  appAt(hash = "") {
    return `${this.servedAt ?? `${this.office.url}/app/`}${hash}`;
  }

  // --- moving about

  async goesTo(screen) {
    await this.page.evaluate((hash) => {
      location.hash = hash;
    }, screen);
    await later(100);
  }

  async returnsToApp(hash = "#cars//") {
    await this.page.goto(this.appAt(hash));
    await this.page.waitForSelector(".screen .foot");
  }

  taps(text, where = "button") {
    return this.page.locator(`${where}:has-text("${text}")`).first().tap();
  }

  /** Taps the key at the foot of the screen, which does what the screen is for. */
  confirms() {
    return this.page.locator(".foot .go").tap();
  }

  /** Waits until a screen is left, by the first part of its address. */
  leaves(screen) {
    return this.page.waitForFunction((name) => !location.hash.startsWith(`#${name}`), screen);
  }

  /** Confirms a screen that the app leaves once what stood on it is recorded. */
  async confirmsAndLeaves(screen) {
    await this.confirms();
    await this.leaves(screen);
  }

  /** Types on the keypad. */
  async types(...keys) {
    for (const key of keys) await this.page.locator(`.pad button:text-is("${key}")`).tap();
  }

  /** Types a PIN on the keypad in front. */
  async typesPin(pin) {
    for (const digit of pin) await this.page.locator(`.pad button:text-is("${digit}")`).last().tap();
  }

  /** Chooses a language on its screen, and waits until the page speaks it. */
  async speaks(language) {
    await this.goesTo("language//");
    await this.page.locator(`.lead:has(b[lang="${language}"])`).tap();
    await this.page.waitForFunction((tag) => document.documentElement.lang === tag, language);
  }

  // --- seeing

  /** Waits until a text stands on the screen. */
  sees(text, timeout = 15_000 * PATIENCE) {
    return this.page.waitForFunction((words) => document.body.innerText.includes(words), text, { timeout });
  }

  /** Waits until the screen says what matches a pattern. */
  reads(pattern, timeout) {
    const { source } = new RegExp(pattern);
    return this.page.waitForFunction((text) => new RegExp(text).test(document.body.innerText), source, {
      timeout,
    });
  }

  text() {
    return this.page.innerText("body");
  }

  seesCar(number, timeout) {
    return this.page.waitForSelector(`.car:has-text("${number}")`, { timeout });
  }

  /** Waits until the key of a valve's or a closure's word is marked as what was said. */
  seesMarked(word) {
    return this.page.waitForSelector(`.keys button[aria-pressed="true"]:has-text("${word}")`);
  }

  /** Waits until the screen of what is only here counts nothing any more. */
  seesNothingLeftHere() {
    return this.page.waitForFunction(() =>
      [...document.querySelectorAll(".count")].every((count) => count.textContent === "0"),
    );
  }

  // --- enrolling

  /** Follows the office's link, and says who this is and where. */
  async enrols(who, name = `phone ${this.name}`) {
    const link = this.office.link(name);
    await this.page.goto(this.servedAt ? this.appAt(`#${link.split("#")[1]}`) : link);
    await this.page.waitForSelector("input.field");
    await this.confirms();
    await this.saysWhoAndWhere(who);
  }

  /** Types the office's code by hand, as a person does who was told it, and says who this is and where. */
  async enrolsByCode(who, name) {
    const code = /enrol=([^&]+)/.exec(this.office.link(name))[1];
    await this.page.goto(this.appAt("#enrol//"));
    const fields = this.page.locator("input.field");
    await fields.nth(0).fill(code);
    await fields.nth(1).fill(name);
    await this.confirms();
    await this.saysWhoAndWhere(who);
  }

  async saysWhoAndWhere(who) {
    // People and sites come from the office first.
    await this.page.waitForSelector(`.lead:has-text("${who}")`, { timeout: 20_000 * PATIENCE });
    await this.taps(who, ".lead");
    await this.page.waitForSelector('.lead:has-text("Demo siding")');
    await this.taps("Demo siding", ".lead");
    await this.page.waitForSelector('.go:has-text("New car")');
  }

  /** Waits until the app is kept on the phone and would open without a network. */
  isReadyWithoutNetwork() {
    return this.page.evaluate(() => navigator.serviceWorker.ready.then(() => true));
  }

  // --- the gates

  /** Overrides everything that is open at a gate in one act; returns how many items that were. */
  async overridesEverything(visit, gate) {
    await this.goesTo(`override/${visit}/${gate}`);
    await this.page.waitForSelector(".item");
    const items = await this.page.locator(".item").count();
    for (let at = 0; at < items; at++) await this.page.locator(".item").nth(at).tap();
    await this.page.locator(".reason").first().tap();
    await this.signsByTapping("#gate");
    return items;
  }

  /** Signs with the two-tap way for whoever cannot hold, and waits until another screen is there. */
  async signsByTapping(next) {
    await this.page.locator(".foot .quietly").tap();
    await this.page.locator(".hold").tap();
    await this.page.locator(".hold").tap();
    await this.page.waitForFunction((hash) => location.hash.startsWith(hash), next, { timeout: 8000 });
  }

  // --- recording

  /** Opens a car on the screens and returns its visit. */
  async opensCar(number, spot) {
    await this.goesTo("new//");
    await this.fillsInCar(number, spot);
    return this.visitOnScreen();
  }

  /** Waits until a car's own screen is there and returns its visit. */
  async visitOnScreen() {
    await this.page.waitForSelector(".plan");
    return decodeURIComponent(this.page.url().split("#")[1]).split("/")[1];
  }

  /** Fills in the screen for a new car and confirms it. Where no spot is told, the field is left alone. */
  async fillsInCar(number, spot) {
    const fields = this.page.locator("input.field");
    await fields.nth(0).fill("QZQX");
    await fields.nth(1).fill(number);
    if (spot) await fields.nth(2).fill(spot);
    await fields.nth(3).fill(number);
    await this.taps("Fixed tank");
    await this.taps("Open this car");
  }

  /** Says how a fitting's valve stands, and waits until the screen says it too. */
  async setsValve(visit, fitting, word) {
    await this.goesTo(`car/${visit}/${fitting}`);
    await this.page.waitForSelector(".plan");
    await this.taps(word, ".keys button");
    await this.seesMarked(word);
  }

  async remarks(visit, text) {
    await this.goesTo(formScreen(visit, "remark"));
    await this.page.fill("textarea", text);
    await this.confirmsAndLeaves("form");
  }

  /** Hands the camera's input a picture, on the screen where photographs of a car are taken. */
  async photographs(visit, picture, of = "other") {
    await this.goesTo(photoScreen(visit, of));
    await this.handsInPicture(picture);
  }

  async handsInPicture(picture) {
    const file = picture.buffer
      ? { name: picture.name, mimeType: picture.mimeType, buffer: picture.buffer }
      : picture;
    await this.page.setInputFiles('input[type="file"]', file);
  }

  /** Meets the office on the screen of what is only here. */
  async meetsOffice(timeout = 20_000 * PATIENCE) {
    await this.goesTo("only_here//");
    // What an earlier meeting said may still stand on the screen, so its answer is waited for too.
    const answered = this.page.waitForResponse(/\/v1\/sync$/, { timeout });
    await this.confirms();
    await answered;
    await this.reads("Sent to the office|Enviado a la oficina|Envoyé au bureau", timeout);
  }

  /** What the history of a visit shows, oldest first. */
  async history(visit) {
    await this.goesTo(`history/${visit}`);
    await this.page.waitForSelector("ol li");
    return (await this.page.locator("ol li .what b").allTextContents()).reverse();
  }
}
