// A phone that is a window of a shared browser, with records of its own. The worker that holds its records
// also answers the story, and its clock can be set back.
import { chromium } from "playwright-core";
import { CLOCK_SET_BACK } from "./clock.mjs";
import { HANDHELD, PATIENCE, Phone } from "./phone.mjs";

/**
 * A browser whose windows promise to keep what they are given, as an installed app's do: without that promise
 * the app records nothing.
 */
export async function startsBrowser() {
  const browser = await chromium.launch({ executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium" });
  const side = await browser.newBrowserCDPSession();
  const plain = browser.newContext.bind(browser);
  browser.newContext = async (options) => {
    const context = await plain(options);
    const page = await context.newPage();
    const own = await context.newCDPSession(page);
    const { targetInfo } = await own.send("Target.getTargetInfo");
    await side.send("Browser.grantPermissions", {
      permissions: ["durableStorage"],
      browserContextId: targetInfo.browserContextId,
    });
    await page.close();
    return context;
  };
  return browser;
}

export class PhoneInWindow extends Phone {
  /** Opens a window as a phone in the field has it, with the app's cache and its worker as they are. */
  async opensPlainly(browser) {
    this.context = await browser.newContext(HANDHELD);
    this.page = this.watches(await this.context.newPage());
  }

  /**
   * Opens a window in a fixed zone and language, without the app's cache; `worker` is code put before the
   * worker's own.
   */
  async opens(browser, { worker = CLOCK_SET_BACK, ...more } = {}) {
    this.context = await browser.newContext({
      ...HANDHELD,
      deviceScaleFactor: 1,
      timezoneId: "Etc/GMT+6",
      locale: "en-US",
      colorScheme: "light",
      serviceWorkers: "block",
      ...more,
    });
    await this.context.addInitScript(keepsHoldOfWorker);
    await this.context.route("**/core/book-worker.js", async (route) => {
      const answer = await route.fetch();
      await route.fulfill({ response: answer, body: worker + (await answer.text()) });
    });
    this.page = this.watches(await this.context.newPage());
    this.page.setDefaultTimeout(20_000 * PATIENCE);
  }

  /** Asks the worker that holds the records. */
  asks(name, ...given) {
    return this.page.evaluate(
      ([call, args]) =>
        new Promise((yes, no) => {
          const id = 1e9 + Math.floor(Math.random() * 1e9);
          const book = window.theBook;
          const heard = ({ data }) => {
            if (data.id !== id) return;
            book.removeEventListener("message", heard);
            if (data.kind === "answer") yes(data.value);
            else no(new Error(`${call}: ${JSON.stringify(data.failure)}`));
          };
          book.addEventListener("message", heard);
          book.postMessage({ kind: "ask", id, call, args });
        }),
      [name, given],
    );
  }

  /** What the worker answers in JSON. */
  async asksFor(name, ...given) {
    return JSON.parse(await this.asks(name, ...given));
  }

  view(visit) {
    return this.asksFor("visit", visit);
  }

  /** Opens a visit in the records, without the screens. */
  async opensVisit({ receiver = "fixed_tank", ...opening }) {
    const [site] = Object.keys(await this.asksFor("sites"));
    return this.asks("openVisit", JSON.stringify({ site, receiver, ...opening }), "ada");
  }

  /** Records statements of Ada's at a visit, without the screens. */
  says(visit, ...statements) {
    const drafts = statements.map((says) => ({ says }));
    return this.asks("append", `visit:${visit}`, JSON.stringify(drafts), "ada");
  }

  /** Sets the worker's clock back by so many minutes. */
  worksMinutesAgo(minutes) {
    return this.page.evaluate((back) => window.theBook.postMessage({ back }), minutes * 60_000);
  }

  /** Changes what the phone keeps of its settings; the page shows that once it is loaded again. */
  async changesSettings(more) {
    await this.page.evaluate((more) => {
      const kept = JSON.parse(localStorage.getItem("farsiding.settings") ?? "{}");
      localStorage.setItem("farsiding.settings", JSON.stringify({ ...kept, ...more }));
    }, more);
  }
}

/** Runs before the page's own scripts: the app, not its cache, and the worker of its records within reach. */
function keepsHoldOfWorker() {
  delete Navigator.prototype.serviceWorker;
  const Was = Worker;
  window.Worker = class extends Was {
    constructor(url, options) {
      super(url, options);
      if (options?.name === "book") window.theBook = this;
    }
  };
}
