// A siding at work, INVENTED, for looking at screens: a real office server, the app as built on the real worker and disk, six cars at
// different places in the job, and a second person's device that says other things of one of them. Played once; whatever measures the
// screens only looks. What was recorded hours ago is recorded so: the worker's clock is set back while the phone is without a network.
import { execFileSync, spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { end, folder } from "./stage.mjs";

export const PROGRAM =
  process.env.FARSIDING ?? new URL("../../../target/debug/farsiding", import.meta.url).pathname;

/** Starts an office with the demo site, its people, and one more device. */
export async function openOffice() {
  const home = mkdtempSync(join(tmpdir(), "farsiding-look-")),
    data = join(home, "data");
  const server = spawn(
    PROGRAM,
    ["serve", "--data", data, "--listen", "127.0.0.1:0", "--app", folder("dist")],
    { stdio: ["ignore", "pipe", "ignore"] },
  );
  const url = await new Promise((heard, silent) => {
    let said = "";
    server.stdout.on("data", (text) => {
      said += text;
      const at = /listening on (\S+)/.exec(said);
      if (at) heard(at[1]);
    });
    server.on("error", silent).on("exit", () => silent(new Error(`${PROGRAM} ended: ${said}`)));
  });
  const run = (...args) =>
    execFileSync(PROGRAM, args, { encoding: "utf8", stdio: ["ignore", "pipe", "pipe"] });
  const link = (name, role = "operator") =>
    /All in one:\s+(\S+)/.exec(run("enrol", "--data", data, "--name", name, "--role", role, "--url", url))[1];
  const device = (name, role) => {
    const dir = join(home, name),
      does = (...args) =>
        run("device", "--dir", dir, "--operator", role === "office" ? "office" : name, ...args);
    does("init", "--name", name);
    does("enrol", link(`${name}'s device`, role));
    return does;
  };
  const office = device("office", "office");
  office(
    "site",
    "new",
    "Demo siding",
    "Etc/GMT+6",
    "900 ft",
    "30",
    "local_rules=Demo rule: radio on channel 4.",
  );
  const site = (kind, ...fields) => office("site", "set", "Demo siding", kind, ...fields);
  const due = `${new Date().getFullYear() + 1}-03-01`;
  site("instrument", "Gauge 7", "pressure", "30 psi", "2A", due);
  site("instrument", "Gauge 2", "pressure", "300 psi", "B", due);
  site("instrument", "Thermometer 1", "temperature", "160 °F", `calibration_due=${due}`);
  site("contact", "emergency", "Fire and rescue", "911", "Panel button: left of the gate, red cover");
  site(
    "contact",
    "office",
    "Demo terminal, duty",
    "555-0142",
    "Liquid line valve: foot of the tower, yellow wheel",
  );
  site("contact", "carrier", "Demo carrier, dispatch", "555-0177");
  office("person", "ada", "Ada (demo)");
  office("person", "ben", "Ben (demo)");
  office("sync");
  const close = async () => {
    await end(server);
    rmSync(home, { recursive: true, force: true });
  };
  return { url, app: `${url}/app/`, link, device, close };
}

/** Runs in the worker before anything of ours: a clock that can be set back. */
const CLOCK = `{ const Real = Date; let back = 0;
addEventListener("message", (event) => { if (event.data.back !== undefined) { back = event.data.back; event.stopImmediatePropagation(); } });
self.Date = class extends Real { constructor(...given) { if (given.length) super(...given); else super(Real.now() - back); } static now() { return Real.now() - back; } }; }\n`;

/** A phone-sized context with the app, whose worker also answers the story. */
export async function phoneOf(browser, { worker = CLOCK, ...more } = {}) {
  const context = await browser.newContext({
    viewport: { width: 390, height: 844 },
    deviceScaleFactor: 1,
    hasTouch: true,
    isMobile: true,
    timezoneId: "Etc/GMT+6",
    locale: "en-US",
    colorScheme: "light",
    serviceWorkers: "block",
    ...more,
  });
  await context.addInitScript(() => {
    delete Navigator.prototype.serviceWorker; // the app, not its cache
    const Was = Worker;
    window.Worker = class extends Was {
      constructor(url, options) {
        super(url, options);
        if (options?.name === "book") window.theBook = this;
      }
    };
  });
  await context.route("**/core/book-worker.js", async (route) => {
    const answer = await route.fetch();
    await route.fulfill({ response: answer, body: worker + (await answer.text()) });
  });
  const page = await context.newPage();
  page.setDefaultTimeout(20_000);
  const call = (name, ...args) =>
    page.evaluate(
      ([call, args]) =>
        new Promise((yes, no) => {
          const id = 1e9 + Math.floor(Math.random() * 1e9),
            book = window.theBook;
          const heard = ({ data }) => {
            if (data.id !== id) return;
            book.removeEventListener("message", heard);
            if (data.kind === "answer") yes(data.value);
            else no(new Error(`${call}: ${JSON.stringify(data.failure)}`));
          };
          book.addEventListener("message", heard);
          book.postMessage({ kind: "ask", id, call, args });
        }),
      [name, args],
    );
  const minutesAgo = (minutes) =>
    page.evaluate((back) => window.theBook.postMessage({ back }), minutes * 60_000);
  const at = (hash) =>
    page.evaluate((h) => {
      location.hash = h;
    }, hash);
  const key = (text, where = "button") => page.locator(`${where}:has-text("${text}")`).first().tap();
  return { context, page, call, minutesAgo, at, key };
}

const amount = (value, unit) => ({ text: String(value), unit, value });
const reading = (measured, place, purpose, value, unit, instrument) => ({
  reading: { measured, place, purpose, amount: amount(value, unit), ...(instrument ? { instrument } : {}) },
});
const psi = (purpose, value, gauge = "Gauge 7") => reading("pressure", "car", purpose, value, "psi", gauge);
const fitted = (fitting, ...says) => says.map(([kind, more]) => ({ [kind]: { fitting, ...more } }));
const shut = (f) =>
  fitted(
    f,
    ["valve", { position: "shut" }],
    ["listen", { heard: "quiet" }],
    ["line", { connected: false }],
    ["closure", { state: "tool_tight" }],
    ["effort", { part: "valve", amount: amount(31, "ft·lbf") }],
    ["threads", { engaged: amount(5.5, "turns") }],
  );
const opened = (...all) =>
  all.flatMap((f) =>
    fitted(f, ["closure", { state: "open" }], ["line", { connected: true }], ["valve", { position: "open" }]),
  );
const LINES = ["liquid_a", "liquid_b", "vapour"];
const paper = (car) => ({
  paper: {
    car,
    un_number: "UN1978",
    product: "Propane",
    billed: amount(32650, "gal"),
    relative_density: amount(0.508, "1"),
    odorised: true,
    shipper: "Demo shipper",
  },
});
const arrived = (car) => [
  paper(car),
  { car_number_again: { car } },
  { car_capacity: { capacity: amount(33700, "gal") } },
  { car_fittings: { fittings: [...LINES, "gauging_device", "thermometer_well", "sample_line"] } },
  { protection: { what: "blue_sign", set: true } },
  { protection: { what: "hand_brake", set: true } },
  psi("arrival", 118, "Gauge 2"),
  reading("temperature", "car", "arrival", 61, "°F", "Thermometer 1"),
  reading("outage", "car", "arrival", 14.25, "in"),
  { car_diameter: { diameter: amount(119, "in") } },
  reading("temperature", "air", "arrival", 64, "°F", "Thermometer 1"),
];
const proven = [
  reading("temperature", "car", "final", 58, "°F", "Thermometer 1"),
  { empty_sign: { sign: "rod_at_bottom", seen: true } },
  { empty_sign: { sign: "vapour_at_liquid_valve", seen: true } },
  { empty_sign: { sign: "frost_ring", seen: false } },
  reading("temperature", "car_low", "empty_proof", 58, "°F", "Thermometer 1"),
  psi("empty_proof", 29.4),
];
const closed = [
  ...LINES.flatMap(shut),
  ...fitted(
    "sample_line",
    ["valve", { position: "shut" }],
    ["listen", { heard: "quiet" }],
    ["closure", { state: "tool_tight" }],
  ),
  ...["gauging_device", "thermometer_well"].flatMap((f) =>
    fitted(f, ["closure", { state: "tool_tight" }], ["threads", { engaged: amount(5, "turns") }]),
  ),
  psi("final", 4.2),
  { cover: { closed: true, pinned: true, bolts_in_place: 4, bolts_required: 4 } },
  { seal: { event: "applied", place: "housing_pin", number: "0042913", kind: "cable", intact: true } },
  { protection: { what: "blue_sign", set: false } },
];

/** Enrols by the code as a person does, and says who and where. */
export async function enrol(phone, office, name = "Ada's phone", who = "Ada (demo)") {
  await phone.page.goto(`${office.app}#enrol//`);
  const fields = phone.page.locator("input.field");
  await fields.nth(0).fill(/enrol=([^&]+)/.exec(office.link(name))[1]);
  await fields.nth(1).fill(name);
  await phone.page.locator(".foot .go").tap();
  await phone.key(who, ".lead");
  await phone.key("Demo siding", ".lead");
  await phone.page.waitForSelector('.go:has-text("New car")');
}

/** A small drawn picture, as a camera would hand one over. */
const picture = async (page, words, ground) =>
  Buffer.from(
    await page.evaluate(
      async ([words, ground]) => {
        const canvas = new OffscreenCanvas(1200, 900),
          pen = canvas.getContext("2d");
        pen.fillStyle = ground;
        pen.fillRect(0, 0, 1200, 900);
        pen.fillStyle = "#d9d5c8";
        pen.font = "800 150px sans-serif";
        pen.textAlign = "center";
        words.forEach((w, i) => pen.fillText(w, 600, 380 + i * 190));
        return [
          ...new Uint8Array(
            await (await canvas.convertToBlob({ type: "image/jpeg", quality: 0.8 })).arrayBuffer(),
          ),
        ];
      },
      [words, ground],
    ),
  );

/** Plays the whole story. Returns the visits by what they are good for. */
export async function play(office, phone) {
  const { page, call, context } = phone;
  const say = async (visit, minutes, ...says) => {
    await phone.minutesAgo(minutes);
    await call("append", `visit:${visit}`, JSON.stringify(says.map((s) => ({ says: s }))), "ada");
  };
  await enrol(phone, office);
  const [site] = Object.keys(JSON.parse(await call("sites")));
  const come = async (minutes, number, spot, receiver = "fixed_tank") => {
    await phone.minutesAgo(minutes);
    return call(
      "openVisit",
      JSON.stringify({ car: `QZQX ${number}`, site, receiver, spot: `Track 2, spot ${spot}` }),
      "ada",
    );
  };
  /** Ticks off every open step before `upto`, as one who had done them. */
  const done = async (visit, minutes, upto) => {
    const { steps } = JSON.parse(await call("visit", visit)),
      place = (stage) => steps.stages.findIndex((x) => x.stage === stage);
    const open = steps.steps.filter(
      (s) => ["open", "partly"].includes(s.status) && place(s.stage) < (upto ? place(upto) : 99),
    );
    await say(visit, minutes, ...open.map((s) => ({ step: { step: s.id, outcome: "done" } })));
  };
  const passAll = async (visit, why) => {
    for (let n = 0; n < 40; n++) {
      const next = JSON.parse(await call("visit", visit)).blockers.find((b) => !b.passed_over);
      if (!next) return;
      await call("passOver", visit, next.code, why, "ada");
    }
  };
  await context.setOffline(true);

  const gone = await come(1500, "300498", 1),
    moving = await come(200, "104471", 1),
    main = await come(260, "104417", 2),
    held = await come(90, "220086", 3, "truck"),
    ready = await come(400, "300512", 4),
    twin = await come(150, "415020", 5);
  for (const [visit, car] of [
    [gone, "QZQX 300498"],
    [ready, "QZQX 300512"],
  ]) {
    const t = visit === gone ? 1450 : 380;
    await say(visit, t, ...arrived(car));
    await say(visit, t - 40, ...opened(...LINES));
    await say(visit, t - 250, psi("hold_test", 29), ...proven, {
      empty_decision: { accepted: true, grounds: "Rod at bottom, only vapour" },
    });
    await say(visit, t - 300, ...closed);
    await done(visit, t - 310);
    await passAll(visit, "Looked at again, stays so");
  }
  await call("release", gone, true, "ada");
  await say(moving, 190, ...arrived("QZQX 104471"));
  await say(moving, 150, ...opened("liquid_a", "vapour"), {
    item_out: { item: "Adapter 1", fitting: "liquid_a" },
  });
  await done(moving, 140, "transfer");
  await say(moving, 60, psi("transfer", 121, "Gauge 2"));
  await say(moving, 20, psi("transfer", 119, "Gauge 2"));

  await say(
    main,
    255,
    ...arrived("QZQX 104417"),
    { seal: { event: "found", place: "housing_pin", number: "0031187", kind: "cable", intact: true } },
    { weather: { precipitation: "freezing_rain", wind: "NW, fresh" } },
  );
  await say(
    main,
    240,
    ...opened(...LINES),
    { item_out: { item: "Adapter 2", fitting: "liquid_b" } },
    { item_out: { item: "Thermo well cap", fitting: "thermometer_well" } },
  );
  await done(main, 235, "prove_empty");
  for (const [minutes, value] of [
    [58, 28.2],
    [52, 28.9],
    [46, 29.2],
    [38, 29.4],
    [30, 29.4],
  ])
    await say(main, minutes, psi("hold_test", value));
  await say(main, 28, ...proven, {
    empty_decision: { accepted: true, grounds: "Rod at bottom, vapour, far below saturation" },
  });
  await done(main, 27, "disconnect");
  await say(main, 24, ...shut("liquid_a"));
  await say(
    main,
    20,
    ...fitted(
      "liquid_b",
      ["valve", { position: "shut" }],
      ["effort", { part: "valve", amount: amount(46, "ft·lbf") }],
      ["listen", { heard: "quiet" }],
      ["line", { connected: false }],
      ["closure", { state: "hand_tight" }],
    ),
  );
  await say(
    main,
    16,
    ...fitted("sample_line", ["valve", { position: "shut" }], ["closure", { state: "tool_tight" }]),
    ...fitted("gauging_device", ["closure", { state: "tool_tight" }]),
    ...fitted("thermometer_well", ["closure", { state: "open" }]),
    ...fitted("vapour", ["listen", { heard: "hiss" }]),
  );
  await say(main, 14, { cover: { closed: false, pinned: false, bolts_in_place: 2, bolts_required: 4 } });

  const hold = "a".repeat(32),
    defect = "b".repeat(32);
  await say(
    held,
    80,
    paper("QZQX 220086"),
    { defect: { defect, fitting: "liquid_b", what: "Plug bottoms after one thread", needs_authority: true } },
    { forwarded: { defect, to: "Demo carrier, mechanical", how: "voice" } },
    { threads: { fitting: "liquid_b", engaged: amount(1, "turns") } },
  );
  await say(
    held,
    70,
    { hold: { hold, because: "One thread engaged at liquid B" } },
    { hold: { hold: "c".repeat(32), because: "Chock missing on the west side" } },
    { hold_lifted: { hold: "c".repeat(32), because: "Chock set again" } },
  );
  await say(held, 69, {
    authority: { defect, by: "Demo authority", reference: "DA-1", spoken_at: Date.now() - 60 * 60_000 },
  });
  await say(twin, 149, paper("QZQX 415020"), psi("arrival", 104, "Gauge 2"));

  // photographs through the app itself
  await phone.minutesAgo(0);
  await context.setOffline(false);
  for (const [words, of, ground] of [
    [["QZQX", "104417"], "Number", "#20262b"],
    [["0031187"], "Seal", "#5a3a22"],
    [["4 1/2", "turns"], "Threads", "#3a4148"],
    [["demo"], "Housing", "#28302c"],
  ]) {
    const before = await page.locator("figure").count();
    await phone.at(`photo/${main}/other%7C`);
    await phone.key(of, ".keys.four .key");
    await page.setInputFiles('input[type="file"]', {
      name: "camera.jpg",
      mimeType: "image/jpeg",
      buffer: await picture(page, words, ground),
    });
    await page.waitForFunction(
      (n) => document.querySelectorAll("figure canvas[data-drawn]").length > n,
      before,
    );
  }
  const sync = async (done) => {
    await phone.at("only_here//");
    for (let n = 0; !(await done()); n++) {
      if (n > 60) throw new Error("the office was not met");
      if (n % 8 === 0) await page.locator(".foot .go").tap();
      await page.waitForTimeout(250);
    }
  };
  const allThere = async () => JSON.parse(await call("status")).without_receipt === 0;
  await sync(allThere);

  // Ben, at the same cars with a device of his own
  const ben = office.device("ben");
  ben("sync", "--no-photos");
  ben("add", main, "closure", "thermometer_well", "hand_tight");
  const differing = async () => JSON.parse(await call("visit", main)).disagreements.length;
  const before = await differing();
  await context.setOffline(true);
  await say(main, 0, ...fitted("thermometer_well", ["closure", { state: "tool_tight" }])); // Ada, who has not heard of Ben's word
  await say(main, 0, reading("outage", "car", "arrival", 14.5, "in"));
  ben("add", main, "reading", "outage", "car", "arrival", "15.25 in");
  ben("add", main, "handover_given", "to=ada");
  const his = JSON.parse(
    ben("--json", "open", "--car", "QZQX 415020", "--site", "Demo siding", "--spot", "Track 2, spot 5"),
  ).visit;
  ben("add", his, "reading", "temperature", "car", "arrival", "58 °F", "Thermometer 1");
  ben("open", "--car", "QZQX 415002", "--site", "Demo siding", "--spot", "Track 3, spot 1"); // one slip of the hand away
  ben("sync", "--no-photos");
  await context.setOffline(false);
  await sync(async () => (await differing()) >= before + 2);
  await say(twin, 0, { joined: { other: his } });
  await sync(allThere);
  await say(moving, 0, psi("transfer", 118, "Gauge 2")); // one thing the office has not
  return { site, gone, moving, main, held, ready, twin };
}
