// What the field stories stand on: the real office serving the real app, and phones that are real browsers with a profile on disk, which
// can be shut, killed and started again. No story lives here.
import { execFileSync, spawn } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { brotliCompressSync } from "node:zlib";
import { chromium } from "playwright-core";
import { folder } from "../stage.mjs";

const PROGRAM =
  process.env.FARSIDING ?? new URL("../../../../target/debug/farsiding", import.meta.url).pathname;
export const later = (ms) => new Promise((done) => setTimeout(done, ms));
export async function until(what, f, ms = 20_000) {
  for (const end = Date.now() + ms; ; await later(100)) {
    const answer = await Promise.resolve()
      .then(f)
      .catch(() => false);
    if (answer) return answer;
    if (Date.now() > end) throw new Error(`never: ${what}`);
  }
}
const freePort = () =>
  new Promise((found) => {
    const s = createServer().listen(0, "127.0.0.1", () => {
      const { port } = s.address();
      s.close(() => found(port));
    });
  });

/** A copy of the built app, to be changed as a newer build or another phone would have it. */
export function copyOfApp(to) {
  cpSync(folder("dist"), to, { recursive: true });
  return to;
}
/** Changes a file of a copy, its compressed twin too. */
export function change(app, name, f) {
  const file = join(app, name),
    text = f(readFileSync(file, "utf8"));
  writeFileSync(file, text);
  writeFileSync(`${file}.br`, brotliCompressSync(text));
}
/** Puts `code` before a script of a copy. */
export const before = (app, name, code) => change(app, name, (text) => `${code};\n${text}`);
export const mainScript = (app) =>
  `assets/${readdirSync(join(app, "assets")).find((name) => /^index-.*\.js$/.test(name))}`;

export class Office {
  constructor(home) {
    this.home = home;
    this.data = join(home, "data");
    // A phone here records in a minute what takes a siding years: more than one may bring in a day.
    this.quotas = ["visits=5000", "entries=100000"];
  }
  async start(app = this.app ?? folder("dist")) {
    this.app = app;
    this.port ??= await freePort();
    this.url = `http://127.0.0.1:${this.port}`;
    const more = this.quotas.flatMap((one) => ["--quota", one]);
    const address = ["--listen", `127.0.0.1:${this.port}`, "--url", this.url];
    this.process = spawn(PROGRAM, ["serve", "--data", this.data, ...address, "--app", app, ...more], {
      stdio: ["ignore", "ignore", "pipe"],
    });
    this.said = "";
    this.process.stderr.on("data", (text) => (this.said = (this.said + text).slice(-4000)));
    await until("the office answers", async () => (await fetch(`${this.url}/healthz`)).ok);
  }
  async stop(signal = "SIGTERM") {
    if (!this.process || this.process.exitCode !== null || this.process.signalCode !== null) return;
    const gone = new Promise((done) => this.process.once("exit", done));
    this.process.kill(signal);
    await gone;
  }
  run(...args) {
    return execFileSync(PROGRAM, args, {
      encoding: "utf8",
      stdio: ["ignore", "pipe", "pipe"],
      maxBuffer: 1 << 28,
    });
  }
  /** The office's own device. */
  device(...args) {
    return this.run("device", "--dir", join(this.home, "office"), "--operator", "office", ...args);
  }
  link(name, role = "operator") {
    return /All in one:\s+(\S+)/.exec(
      this.run("enrol", "--data", this.data, "--name", name, "--role", role),
    )[1];
  }
  /** Invented people and an invented site, brought in by the office's device. */
  furnish() {
    this.device("init", "--name", "office");
    this.device("enrol", this.link("office", "office"));
    this.device("site", "new", "Demo siding", "Etc/GMT+6", "900 ft", "30");
    this.device("person", "ada", "Ada (demo)");
    this.device("person", "ben", "Ben (demo)");
    this.device("sync");
  }
  view(visit) {
    this.device("sync");
    return JSON.parse(this.device("--json", "show", visit)).visit;
  }
}

export class Phone {
  constructor(home, name, office) {
    this.name = name;
    this.office = office;
    this.profile = join(home, `phone-${name}`);
    mkdirSync(this.profile);
  }
  /** Starts the browser; `grants: []` leaves it without the promise to keep what it is given. */
  async open({ grants = ["durableStorage"], ...more } = {}) {
    const grant = async (page) => {
      const side = await this.context.newCDPSession(page);
      await side.send("Browser.grantPermissions", { permissions: grants });
    };
    this.context = await chromium.launchPersistentContext(this.profile, {
      executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
      viewport: { width: 390, height: 844 },
      hasTouch: true,
      isMobile: true,
      acceptDownloads: true,
      ...more,
    });
    this.page = this.context.pages()[0] ?? (await this.context.newPage());
    this.watch(this.page);
    if (grants.length) await grant(this.page);
    this.side = await this.context.newCDPSession(this.page);
    return this.page;
  }
  watch(page) {
    page.setDefaultTimeout(15_000);
    page.on("pageerror", (error) => {
      this.complaints.push(error.message);
      console.log("PAGE ERROR", this.name, error.message);
    });
  }
  complaints = [];
  async close() {
    await this.context?.close();
    this.context = undefined;
  }
  /** Ends every process of the browser at once, as a flat battery would. */
  async kill() {
    // The browser's own process is the one with this profile that is no other's child kind; Playwright makes it lead its group.
    const pid = readdirSync("/proc")
      .filter((n) => /^\d+$/.test(n))
      .find((n) => {
        try {
          const line = readFileSync(`/proc/${n}/cmdline`, "utf8").split("\0");
          return (
            line.includes(`--user-data-dir=${this.profile}`) &&
            !line.some((part) => part.startsWith("--type=")) &&
            /chrom/.test(line[0])
          );
        } catch {
          return false;
        }
      });
    if (!pid) throw new Error("the browser was not found");
    const gone = new Promise((done) => this.context.once("close", done));
    process.kill(-Number(pid), "SIGKILL");
    await gone;
    this.context = undefined;
  }
  app(hash = "") {
    return `${this.office.url}/app/${hash}`;
  }
  async go(hash) {
    await this.page.evaluate((h) => {
      location.hash = h;
    }, hash);
    await later(100);
  }
  tap(text, where = "button") {
    return this.page.locator(`${where}:has-text("${text}")`).first().tap();
  }
  seen(text, ms = 15_000) {
    return this.page.waitForFunction((t) => document.body.innerText.includes(t), text, { timeout: ms });
  }
  text() {
    return this.page.innerText("body");
  }
  async enrol(who) {
    await this.page.goto(this.office.link(`phone ${this.name}`));
    await this.page.waitForSelector("input.field");
    await this.page.locator(".foot .go").tap();
    await this.page.waitForSelector(`.lead:has-text("${who}")`, { timeout: 20_000 }); // people and sites come first
    await this.tap(who, ".lead");
    await this.page.waitForSelector('.lead:has-text("Demo siding")');
    await this.tap("Demo siding", ".lead");
    await this.page.waitForSelector('.go:has-text("New car")');
    await this.page.evaluate(() => navigator.serviceWorker.ready.then(() => true));
  }
  /** Opens a car on the screens and returns its visit. */
  async car(number, spot) {
    await this.go("new//");
    const f = this.page.locator("input.field");
    await f.nth(0).fill("QZQX");
    await f.nth(1).fill(number);
    await f.nth(2).fill(spot);
    await f.nth(3).fill(number);
    await this.tap("Fixed tank");
    await this.tap("Open this car");
    await this.page.waitForSelector(".plan");
    return decodeURIComponent(this.page.url().split("#")[1]).split("/")[1];
  }
  /** Says how a fitting's valve stands, and waits until the screen says it too. */
  async valve(visit, fitting, word) {
    await this.go(`car/${visit}/${fitting}`);
    await this.page.waitForSelector(".plan");
    await this.tap(word, ".keys button");
    await this.page.waitForSelector(`.keys button[aria-pressed="true"]:has-text("${word}")`);
  }
  async remark(visit, text) {
    await this.go(`form/${visit}/${encodeURIComponent("remark|")}`);
    await this.page.fill("textarea", text);
    await this.page.locator(".foot .go").tap();
    await this.page.waitForFunction(() => !location.hash.startsWith("#form"));
  }
  async press(...keys) {
    for (const k of keys) await this.page.locator(`.pad button:text-is("${k}")`).tap();
  }
  figure(visit, purpose = "final") {
    const kept = purpose === "final" ? "reading" : "series";
    return `figure/${visit}/${encodeURIComponent(`${kept}/${purpose}/pressure/car`)}`;
  }
  async sync(ms = 20_000) {
    await this.go("only_here//");
    const answered = this.page.waitForResponse(/\/v1\/sync$/, { timeout: ms }); // what was met before may still be on the screen
    await this.page.locator(".foot .go").tap();
    await answered;
    await this.page.waitForFunction(() => /Met the office/.test(document.body.innerText), null, {
      timeout: ms,
    });
  }
  /** What the history of a visit shows, oldest first. */
  async history(visit) {
    await this.go(`history/${visit}`);
    await this.page.waitForSelector("ol li");
    return (await this.page.locator("ol li .what b").allTextContents()).reverse();
  }
  quota(bytes) {
    return this.side.send("Storage.overrideQuotaForOrigin", {
      origin: this.office.url,
      ...(bytes === null ? {} : { quotaSize: bytes }),
    });
  }
  /** Photographs on this phone: the files' names, which are the digests of what is sealed in them, and how long each is. */
  photoFiles() {
    return this.page.evaluate(async () => {
      const all = {},
        root = await navigator.storage.getDirectory();
      for await (const [folder, handle] of root.entries())
        if (/^photos(-|$)/.test(folder))
          for await (const [name, file] of handle.entries()) all[name] = (await file.getFile()).size;
      return all;
    });
  }
  used() {
    return this.page.evaluate(async () => (await navigator.storage.estimate()).usage);
  }
  /** Leaves the app and opens its book with the app's own worker; `ask(call, ...arguments)` is then there in the page. */
  async book() {
    await this.page.goto(this.app("icon-192.png"));
    await this.page.evaluate(async () => {
      const worker = new Worker("/app/core/book-worker.js", { type: "module" }),
        open = new Map();
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
    });
  }
  async view(visit) {
    await this.book();
    return JSON.parse(await this.page.evaluate((v) => ask("visit", v), visit));
  }
  async back(hash = "#cars//") {
    await this.page.goto(this.app(hash));
    await this.page.waitForSelector(".screen .foot");
  }
}

/** Runs a file of stories: `f({ home, office, phone, test })`. Ends the process with what came out. */
export async function stories(f) {
  const home = mkdtempSync(join(tmpdir(), "farsiding-field-")),
    office = new Office(home),
    phones = [];
  const began = Date.now();
  let fine = false,
    passed = 0;
  const phone = (name) => {
    const one = new Phone(home, name, office);
    phones.push(one);
    return one;
  };
  const test = async (name, story) => {
    const t = Date.now(),
      extra = await story();
    passed++;
    console.log("ok  ", name, extra ?? "", `[${((Date.now() - t) / 1000).toFixed(1)} s]`);
  };
  try {
    await f({ home, office, phone, test });
    const complaints = phones.flatMap((one) => one.complaints);
    if (complaints.length) throw new Error(`pages complained: ${complaints.join("; ")}`);
    fine = true;
    console.log(`${passed} passed, 0 failed, ${((Date.now() - began) / 1000).toFixed(0)} s`);
  } catch (error) {
    console.log("FAILED:", error);
    for (const one of phones)
      for (const page of one.context?.pages() ?? [])
        console.log(
          one.name,
          page.url().split("#")[1] ?? page.url(),
          "|",
          (await page.innerText("body").catch(() => "?")).replace(/\n+/g, " · ").slice(0, 600),
        );
    if (office.said) console.log("office:", office.said.slice(-600));
  } finally {
    for (const one of phones) await one.close().catch(() => {});
    await office.stop();
    rmSync(home, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 });
    process.exit(fine ? 0 : 1);
  }
}
