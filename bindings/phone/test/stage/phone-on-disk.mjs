// A phone that is a browser of its own with a profile on disk: it can be shut, killed and started again, its
// room can be taken away, and its book can be asked without the app.
import { mkdirSync, readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { chromium } from "playwright-core";
import { HANDHELD, Phone } from "./phone.mjs";

export class PhoneOnDisk extends Phone {
  constructor(home, name, office) {
    super(name, office);
    this.profile = join(home, `phone-${name}`);
    mkdirSync(this.profile);
  }

  /** Starts the browser; `grants: []` leaves it without the promise to keep what it is given. */
  async opens({ grants = ["durableStorage"], ...more } = {}) {
    this.context = await chromium.launchPersistentContext(this.profile, {
      executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
      acceptDownloads: true,
      ...HANDHELD,
      ...more,
    });
    this.page = this.watches(this.context.pages()[0] ?? (await this.context.newPage()));
    this.side = await this.context.newCDPSession(this.page);
    if (grants.length) await this.side.send("Browser.grantPermissions", { permissions: grants });
    return this.page;
  }

  /** Enrols, and waits until the app would open without a network. */
  async enrols(who, name) {
    await super.enrols(who, name);
    await this.isReadyWithoutNetwork();
  }

  /** Shuts the browser and starts it again, as a phone that was off. */
  async startsAnew(more) {
    await this.closes();
    await this.opens(more);
  }

  /** Makes the processor slower by so many times. */
  slowsDown(times) {
    return this.side.send("Emulation.setCPUThrottlingRate", { rate: times });
  }

  /** Ends every process of the browser at once, as a flat battery would. */
  async dies() {
    const browser = this.processes().find(({ kind }) => kind === "browser");
    if (!browser) throw new Error("the browser was not found");
    const gone = new Promise((done) => this.context.once("close", done));
    // Playwright makes the browser's own process lead its group.
    process.kill(-browser.id, "SIGKILL");
    await gone;
    this.context = undefined;
  }

  /** Megabytes that the pages and workers of this phone hold. */
  memory() {
    const pages = this.processes().filter(({ kind }) => kind === "renderer");
    const shares = pages.map(({ id }) => {
      const share = textOf(`/proc/${id}/smaps_rollup`);
      return Number(/^Pss:\s+(\d+)/m.exec(share)?.[1] ?? 0) / 1024;
    });
    return shares.reduce((sum, share) => sum + share, 0);
  }

  /**
   * The processes of this phone's browser, each with its kind: "browser" for the browser's own, "renderer"
   * for its pages.
   */
  processes() {
    const all = readdirSync("/proc")
      .filter((name) => /^\d+$/.test(name))
      // The browser's own command line is parted by zeros, those of its children by spaces.
      .map((name) => ({ id: Number(name), words: textOf(`/proc/${name}/cmdline`).split(/[\0 ]/) }));
    const own = all.find(
      ({ words }) =>
        words.includes(`--user-data-dir=${this.profile}`) &&
        /chrom/.test(words[0]) &&
        !words.some((word) => word.startsWith("--type=")),
    );
    if (!own) return [];
    const group = groupOf(own.id);
    return all
      .filter(({ id }) => groupOf(id) === group)
      .map(({ id, words }) => ({ id, kind: id === own.id ? "browser" : kindOf(words) }));
  }

  /** Bounds what the office's pages may keep on this phone; `null` takes the bound away. */
  hasRoomFor(bytes) {
    return this.side.send("Storage.overrideQuotaForOrigin", {
      origin: this.office.url,
      ...(bytes === null ? {} : { quotaSize: bytes }),
    });
  }

  /** Leaves room for so many bytes more than the phone holds now. */
  async hasRoomForMore(bytes) {
    await this.hasRoomFor((await this.used()) + bytes);
  }

  used() {
    return this.page.evaluate(async () => (await navigator.storage.estimate()).usage);
  }

  /**
   * Photographs on this phone: the files' names, which are the digests of what is sealed in them, and how
   * long each is.
   */
  photoFiles() {
    return this.page.evaluate(async () => {
      const all = {};
      const root = await navigator.storage.getDirectory();
      for await (const [folder, handle] of root.entries()) {
        if (!/^photos(-|$)/.test(folder)) continue;
        for await (const [name, file] of handle.entries()) all[name] = (await file.getFile()).size;
      }
      return all;
    });
  }

  /**
   * Leaves the app and opens its book with the app's own worker; `ask(call, ...arguments)` is then there in
   * the page.
   */
  async opensBook() {
    await this.page.goto(this.appAt("icon-192.png"));
    await this.page.evaluate(startsWorker);
  }

  /** Asks the book, which `opensBook` opened. Bytes go in and come out as `{ bytes: [...] }`. */
  asks(call, ...given) {
    return this.page.evaluate(
      async ([call, given]) => {
        const answer = await globalThis.ask(
          call,
          ...given.map((one) => (one?.bytes ? new Uint8Array(one.bytes) : one)),
        );
        const isBytes = answer instanceof Uint8Array || answer instanceof ArrayBuffer;
        return isBytes ? { bytes: [...new Uint8Array(answer)] } : answer;
      },
      [call, given],
    );
  }

  /** What the book, which `opensBook` opened, answers in JSON. */
  async asksFor(call, ...given) {
    return JSON.parse(await this.asks(call, ...given));
  }

  async view(visit) {
    await this.opensBook();
    return this.asksFor("visit", visit);
  }
}

const textOf = (file) => {
  try {
    return readFileSync(file, "utf8");
  } catch {
    return "";
  }
};
const groupOf = (id) => textOf(`/proc/${id}/stat`).split(") ")[1]?.split(" ")[2];
const kindOf = (words) => words.find((word) => word.startsWith("--type="))?.slice("--type=".length);

/** Runs in a page of the app's origin: starts the app's own worker and puts `ask` there. */
async function startsWorker() {
  const worker = new Worker("/app/core/book-worker.js", { type: "module" });
  const open = new Map();
  let last = 0;
  await new Promise((ready, failed) => {
    worker.onerror = failed;
    worker.onmessage = ({ data }) => {
      if (data.kind === "ready") ready();
      else if (data.kind === "answer") open.get(data.id).yes(data.value);
      else if (data.kind === "failed")
        open.get(data.id).no(new Error(`${data.failure.variant}: ${data.failure.why}`));
      else if (data.kind !== "waiting") failed(new Error(JSON.stringify(data)));
    };
    worker.postMessage({ kind: "start", options: { folder: "books", settings: { book: "book" } } });
  });
  globalThis.ask = (call, ...args) =>
    new Promise((yes, no) => {
      open.set(++last, { yes, no });
      worker.postMessage({ kind: "ask", id: last, call, args });
    });
}
