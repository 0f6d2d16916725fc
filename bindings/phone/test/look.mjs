// Every screen at 390x844, on the app as built with its real worker, disk and office: day and night with axe (and its enhanced contrast
// rule), then in Spanish, then at the largest text. Measures every target, word and shape, takes pictures, and writes the README's.
// Exits 1 if anything falls short.   node test/look.mjs [screen]     SHEETS=1 keeps a picture of every screen in OUT; PASS=day,night,es,large
import { mkdirSync, readFileSync, writeFileSync, existsSync } from "node:fs";
import { measure } from "./measure.mjs";
import { enrol, openOffice, phoneOf, play } from "./siding.mjs";
import { folder, launch } from "./stage.mjs";

const out = process.env.OUT ?? folder("dist-look/"),
  only = process.argv[2],
  began = Date.now();
const PASSES = {
  day: { look: "day" },
  night: { look: "night" },
  es: { look: "day", lang: "es" },
  large: { look: "day", scale: 1.3 },
};
const wanted = (process.env.PASS ?? Object.keys(PASSES).join(",")).split(",");
const PICTURES = {
  cars: ["day", "night"],
  car: ["day", "night"],
  gate: ["day", "night"],
  help_car: ["day", "night"],
  step: ["day"],
  figure: ["day"],
  differ: ["day"],
  proof: ["day"],
};
const axe = readFileSync(new URL("../node_modules/axe-core/axe.min.js", import.meta.url), "utf8");
const e = encodeURIComponent;
// What is asked, by the slot it is answered in.
const FINAL = "reading/final/pressure/car",
  OUTAGE = "reading/arrival/outage/car",
  COLD = "series/empty_proof/temperature/car_low",
  EFFORT = "series/effort/liquid_b/valve",
  THREADS = "fitting/liquid_b/threads",
  TRUCK_LOAD = "series/truck_load";

/** Where each screen is. `[hash, act]`: what is tapped there before it is measured. */
const screensOf = ({ main, held, ready, twin, gone, moving }, said) => {
  const form = (visit, kind, about = "") => `form/${visit}/${e(`${kind}|${about}`)}`;
  return {
    cars: ["cars"],
    cars_gone: ["cars", (p) => p.locator("summary").tap()],
    new: ["new"],
    car: [`car/${main}/liquid_b`],
    car_cap: [`car/${main}/thermometer_well`],
    car_hiss: [`car/${main}/vapour`],
    car_cover: [`car/${main}/cover`],
    car_relief: [`car/${main}/relief_device`],
    car_moving: [`car/${moving}/liquid_a`],
    car_held: [`car/${held}/liquid_b`],
    car_released: [`car/${gone}/liquid_a`],
    car_joined: [`car/${twin}/vapour`],
    step: [`step/${main}`],
    step_moving: [`step/${moving}`],
    step_found: [`step/${held}/line_as_found.liquid_a`],
    step_paper: [`step/${twin}/paper`],
    step_tight: [`step/${main}/closure_tight.liquid_b`],
    step_valve: [`step/${moving}/open_valve.liquid_a`],
    step_sign: [`step/${twin}/blue_sign_up`],
    step_done: [`step/${gone}/hand_brake`],
    steps: [`steps/${main}`],
    more: [`more/${main}`],
    more_all: [`more/${main}`, (p) => p.evaluate(() => document.querySelector(".list").scrollIntoView())],
    more_joined: [`more/${twin}`],
    more_near: [`more/${moving}`],
    figure: [`figure/${main}/${e(FINAL)}`],
    figure_empty: [`figure/${ready}/${e(FINAL)}`],
    figure_beyond: [`figure/${moving}/${e(FINAL)}`],
    figure_outage: [`figure/${moving}/${e(OUTAGE)}`],
    figure_cold: [`figure/${main}/${e(COLD)}`],
    effort: [`figure/${main}/${e(EFFORT)}`],
    threads: [`figure/${main}/${e(THREADS)}`],
    truck_load: [`figure/${held}/${e(TRUCK_LOAD)}`],
    ask_protections: [`ask/${main}/protections`],
    ask_readings: [`ask/${main}/readings`],
    ask_attendance: [`ask/${main}/${e("series/attendance")}`],
    form_paper: [form(main, "paper")],
    form_weather: [form(main, "weather")],
    form_pass: [form(main, "pass", "closure_not_tool_tight.liquid_b")],
    form_decision: [form(main, "empty_decision")],
    form_hold: [form(main, "hold")],
    form_lift: [form(held, "lift", "a".repeat(32))],
    form_fittings: [form(main, "car_fittings")],
    form_again: [form(main, "car_number_again")],
    form_placed: [form(main, "clock", "actual_placement")],
    form_tank_test: [form(main, "car_test_date", "tank_qualification")],
    form_remark: [form(main, "remark")],
    form_give: [form(main, "give")],
    form_take: [form(main, "take", "ben")],
    form_told: [form(held, "forwarded", "b".repeat(32))],
    form_approval: [form(held, "authority", "b".repeat(32))],
    form_resolved: [form(held, "resolved", "b".repeat(32))],
    form_skip: [form(main, "skip", "closure_tight.liquid_b")],
    form_not_right: [form(main, "not_right", "closure_tight.liquid_b")],
    form_wrong: [form(main, "check_wrong", "relief device")],
    form_withdraw: [form(main, "withdraw", said.line)],
    form_keep: [form(main, "keep", said.claim)],
    form_opened: [form(main, "opened_again")],
    proof: [`proof/${main}`],
    proof_first: [`proof/${twin}`],
    tally: [`tally/${main}`],
    tally_none: [`tally/${ready}`],
    seal: [`seal/${main}/applied`],
    seal_typed: [`seal/${ready}/found`],
    defect: [`defect/${main}/liquid_b`],
    defect_car: [`defect/${main}`],
    defects: [`defects/${held}`],
    defects_none: [`defects/${ready}`],
    holds: [`holds/${held}`],
    holds_none: [`holds/${ready}`],
    differ: [`differ/${main}`],
    differ_figure: [`differ/${main}/${e(said.figure)}`],
    differ_none: [`differ/${ready}`],
    gate: [`gate/${main}`],
    gate_ready: [`gate/${ready}`],
    gate_taps: [
      `gate/${ready}`,
      async (p) => {
        await p.locator(".foot .quietly").tap();
        await p.locator(".hold").tap();
      },
    ],
    gate_held: [`gate/${held}`],
    gate_released: [`gate/${gone}`],
    blocker: [`blocker/${main}/closure_not_tool_tight.liquid_b`],
    blocker_passed: [`blocker/${ready}/${e(said.passed)}`],
    blocker_gone: [`blocker/${main}/none`],
    history: [`history/${main}/liquid_b`],
    history_all: [`history/${main}`],
    history_none: [`history/${twin}/vapour`],
    entry: [`entry/${main}/${said.line}`],
    entry_instead: [`entry/${main}/${said.line}`, (p) => p.locator(".keys .key").last().tap()],
    photo: [`photo/${main}/${e("other|")}`],
    photo_none: [`photo/${ready}/${e("seal|")}`],
    only_here: ["only_here"],
    find: ["find"],
    find_none: [
      "find",
      (p) => p.fill("input.field", "99887766").then(() => p.waitForTimeout(400)),
      (p) => p.fill("input.field", "104"),
    ],
    help: ["help"],
    help_car: [`help/${main}`],
    setup: ["setup"],
    guard: ["guard"],
    guard_make: ["guard//make"],
    enrol: ["enrol"],
    who: ["who"],
    where: ["where"],
    carry: ["carry"],
    refused: ["refused"],
    trouble: [`form/${held}/${e("remark|")}`, (p) => tooFull(p), (p) => roomAgain(p)],
    opening: [`car/${"0".repeat(32)}`],
  };
};
/** The disk is full in earnest: the browser's quota is used up, and the record is refused by the store itself. */
let quota;
async function tooFull(page) {
  quota = await page.context().newCDPSession(page);
  await quota.send("Storage.overrideQuotaForOrigin", { origin: new URL(page.url()).origin, quotaSize: 1024 });
  await page.fill("textarea", "Rain turned to ice on the ladder. ".repeat(700));
  await page.locator(".foot .go").tap();
  await page.waitForSelector(".trouble");
}
async function roomAgain(page) {
  await page.locator(".trouble .key").tap();
  await quota.send("Storage.overrideQuotaForOrigin", { origin: new URL(page.url()).origin });
  await page.fill("textarea", "");
}

const browser = await launch();
const office = await openOffice();
let bad = 0,
  seen = 0,
  worst = 99;
const shots = {};
const tell = (name, m, extra = []) => {
  const all = [...m.found, ...extra];
  bad += all.length;
  seen++;
  worst = Math.min(worst, m.worst);
  if (all.length || only)
    console.log(
      `${name}: text >= ${m.worst.toFixed(2)}:1${m.scrolls > 1 ? `, scrolls ${m.scrolls}px` : ""}${all.length ? "" : ", nothing found"}`,
    );
  for (const x of all.slice(0, 12)) console.log("   ", x);
  if (all.length > 12) console.log(`    and ${all.length - 12} more`);
};
const withAxe = async (page) => {
  if (!(await page.evaluate(() => "axe" in window))) await page.evaluate(axe);
  return page.evaluate(async () =>
    (
      await window.axe.run(document, {
        resultTypes: ["violations"],
        rules: { "color-contrast-enhanced": { enabled: true } },
      })
    ).violations.map(
      (v) =>
        `axe ${v.id}: ${v.nodes
          .map((n) => n.target.join(" "))
          .slice(0, 3)
          .join(" | ")}`,
    ),
  );
};
async function settle(page, hash) {
  await page.evaluate((h) => {
    location.hash = h;
  }, hash);
  await page.waitForFunction(
    () =>
      (document.querySelector(".screen .foot") && !/Opening the|Abriendo/.test(document.body.innerText)) ||
      location.hash.includes("/000000"),
  );
  await page.evaluate(
    () => new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn))),
  );
  if (hash.startsWith("help/")) await page.waitForSelector(".carline"); // the card itself waits for nothing
  if (hash.startsWith("figure"))
    await page.waitForFunction(() => document.querySelector(".mean")?.getAttribute("aria-busy") === "false"); // what it means is asked as it is typed
  if (hash === "find") await page.waitForTimeout(400);
  await page.waitForFunction(() => !document.querySelector(".told span"));
}
async function look(page, pass, name, hash, car, act, after) {
  if (only && !name.startsWith(only)) return;
  try {
    await settle(page, hash);
    if (act) {
      await act(page);
      await page.waitForTimeout(80);
    }
    if (process.env.SHEETS || PICTURES[name]?.includes(pass))
      shots[`${name}-${pass}`] = await page.screenshot({ path: `${out}${name}-${pass}.png` });
    tell(
      `${pass} ${name}`,
      await measure(page, car),
      pass === "day" || pass === "night" ? await withAxe(page) : [],
    );
    await after?.(page);
  } catch (error) {
    bad++;
    console.log(
      `${pass} ${name}: ${error}`,
      (await page.innerText("body").catch(() => "")).replace(/\n+/g, " · ").slice(0, 300),
    );
  }
}
const dress = (phone, settings) =>
  phone.page.evaluate(
    (more) =>
      localStorage.setItem(
        "farsiding.settings",
        JSON.stringify({ ...JSON.parse(localStorage.getItem("farsiding.settings") ?? "{}"), ...more }),
      ),
    { look: "day", lang: "en", scale: 1, ...settings },
  );

mkdirSync(out, { recursive: true });
try {
  // a phone before anybody enrolled it, and the three ways in which nothing can be recorded
  const fresh = await phoneOf(browser);
  await fresh.page.goto(`${office.app}#cars`);
  await fresh.page.waitForSelector(".screen .foot .help");
  const torn = await phoneOf(browser, {
    worker: 'navigator.storage.getDirectory = () => Promise.reject(new Error("no private file system")); ',
  });
  await torn.page.goto(`${office.app}#cars`);
  const broke = await phoneOf(browser, { worker: 'throw new Error("the module does not start"); ' });
  await broke.page.goto(`${office.app}#cars`);
  const holder = await phoneOf(browser),
    second = await holder.context.newPage();
  await holder.page.goto(`${office.app}#cars`);
  await holder.page.waitForSelector(".screen .foot .help");
  // The help key is there before the records are: only who has them keeps others out.
  await holder.page.waitForFunction(async () => (await navigator.locks.query()).held.length > 0);
  await second.goto(`${office.app}#cars`);
  for (const p of [torn.page, broke.page, second])
    await p.waitForFunction(() => document.querySelector(".why h1"));

  const phone = await phoneOf(browser);
  phone.page.on("pageerror", (error) => {
    console.log("PAGE ERROR", error.message);
    bad++;
  });
  const visits = await play(office, phone);
  const view = JSON.parse(await phone.call("visit", visits.main));
  const said = {
    line: view.history.findLast((h) => h.slot === "fitting/liquid_b/closure").said.entry,
    claim: view.disagreements[0].entries[0],
    figure: view.disagreements.find((d) => d.slot.startsWith("reading")).slot,
    passed:
      JSON.parse(await phone.call("visit", visits.ready)).blockers.find((b) => b.passed_over)?.code ?? "none",
  };
  const half = {
    // half typed, as a call, a reload or a flat battery would leave it
    [`${visits.main}/figure/${FINAL}`]: { typed: "4.2" },
    [`${visits.moving}/figure/${FINAL}`]: { typed: "38", instrument: "Gauge 7" },
    [`${visits.moving}/figure/${OUTAGE}`]: { typed: "16.5" },
    [`${visits.main}/figure/${COLD}`]: { typed: "-12.5" },
    [`${visits.main}/figure/${EFFORT}`]: { typed: "72" },
    [`${visits.main}/figure/${THREADS}`]: { typed: "1" },
    [`${visits.held}/figure/${TRUCK_LOAD}`]: { typed: "8750", word: "Truck 4" },
    [`${visits.main}/seal`]: { number: "0042913", again: "0042918", kind: "cable" },
    [`${visits.ready}/seal`]: { number: "0042913", again: "0042913", kind: "cable", place: "housing_pin" },
    "/new": { mark: "QZQX", number: "104417", again: "104417", spot: "Track 2, spot 6", receiver: "truck" },
    [`${visits.main}/defect/liquid_b`]: { what: "Valve stem bent, wheel rubs on the wall", approval: "yes" },
    [`${visits.main}/form/pass|closure_not_tool_tight.liquid_b`]: {
      why: "Plug seats by hand only; the owner knows",
    },
  };
  for (const [key, fields] of Object.entries(half)) await phone.call("setDraft", key, JSON.stringify(fields));
  await phone.call("setDraft", "/find", "104");
  await phone.call("setDraft", `${visits.main}/tally`, "Adapter 3");
  console.log(`staged in ${((Date.now() - began) / 1000).toFixed(0)} s`);

  const cars = JSON.parse(await phone.call("visits")).flatMap((row) =>
    row.visits.map((visit) => [visit, { number: row.car, spot: (row.spot.match(/\d+/g) ?? []).join("·") }]),
  ); // cars stand on two tracks
  const all = screensOf(visits, said);
  for (const pass of wanted) {
    const settings = PASSES[pass];
    for (const one of [fresh, torn, broke, holder, phone]) {
      await dress(one, settings);
      await one.page.goto("about:blank");
      await one.page.goto(`${office.app}#cars`);
    }
    await phone.page.waitForSelector(".car");
    await fresh.page.waitForSelector(".screen .foot .help");
    for (const [name, [hash, act, after]] of Object.entries(all))
      await look(
        phone.page,
        pass,
        name,
        hash,
        name === "opening" ? null : (cars.find(([visit]) => hash.includes(visit))?.[1] ?? null),
        act,
        after,
      );
    for (const [name, hash] of Object.entries({
      cars: "cars",
      enrol: "enrol",
      who: "who",
      where: "where",
      help: "help",
      setup: "setup",
      only_here: "only_here",
    }))
      await look(fresh.page, pass, `fresh_${name}`, hash, null);
    await second.goto("about:blank");
    await second.goto(`${office.app}#cars`);
    for (const [name, page] of [
      ["refused_storage", torn.page],
      ["refused_broken", broke.page],
      ["refused_waiting", second],
    ])
      await look(page, pass, name, "cars//", null);
  }
  // token against token
  const css = readFileSync(new URL("../src/look/tokens.css", import.meta.url), "utf8").split(
    '[data-look="night"]',
  );
  const lum = (h) =>
    [1, 3, 5]
      .map((i) => parseInt(h.slice(i, i + 2), 16) / 255)
      .map((v) => (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4))
      .reduce((s, v, i) => s + v * [0.2126, 0.7152, 0.0722][i], 0);
  css.forEach((block, night) => {
    const t = Object.fromEntries(
      [...block.matchAll(/--([a-z0-9-]+):\s*(#[0-9a-f]{6})/g)].map((m) => [m[1], m[2]]),
    );
    for (const [f, g, need] of [
      ["ink", "ground", 7],
      ["ink", "plate", 7],
      ["ink-2", "ground", 7],
      ["ink-2", "plate", 7],
      ["ink", "press", 7],
      ["needle", "ground", 7],
      ["needle", "plate", 7],
      ["on-needle", "needle", 7],
      ["on-ink", "ink", 7],
      ["on-caution", "caution", 7],
      ["caution-edge", "ground", 3],
      ["rule", "ground", 3],
      ["rule", "plate", 3],
    ]) {
      const [x, y] = [lum(t[f]), lum(t[g])].sort((p, r) => r - p),
        is = (x + 0.05) / (y + 0.05);
      if (is < need) {
        bad++;
        console.log(`${night ? "night" : "day"} ${f} on ${g}: ${is.toFixed(2)}:1, needs ${need}`);
      }
    }
  });
  if (!only) await keepPictures(phone.page);
  if (process.env.SHEETS) await sheets();
} catch (error) {
  bad++;
  console.log("FAILED:", error);
} finally {
  await browser.close();
  await office.close();
}
console.log(
  `${seen} screens measured in ${((Date.now() - began) / 1000).toFixed(0)} s, ${bad ? `${bad} things found` : "nothing found"}; lowest text contrast ${worst.toFixed(2)}:1`,
);
process.exit(bad ? 1 : 0);

/** The README's pictures. One that differs from the kept one only in a clock is left as it is. */
async function keepPictures(page) {
  for (const [name, looks] of Object.entries(PICTURES))
    for (const look of looks) {
      const fresh = shots[`${name}-${look}`],
        file = folder(`pictures/${name.replace("_car", "")}-${look}.png`);
      if (!fresh) continue;
      if (fresh.length > 120_000) {
        bad++;
        console.log(`picture ${name}-${look}: ${fresh.length} bytes`);
      }
      const differs = !existsSync(file)
        ? 1
        : await page.evaluate(
            async (both) => {
              const [a, b] = await Promise.all(
                both.map(async (text) => {
                  const bitmap = await createImageBitmap(
                      new Blob([Uint8Array.from(atob(text), (c) => c.charCodeAt(0))]),
                    ),
                    pen = new OffscreenCanvas(bitmap.width, bitmap.height).getContext("2d");
                  pen.drawImage(bitmap, 0, 0);
                  return pen.getImageData(0, 0, bitmap.width, bitmap.height);
                }),
              );
              if (a.width !== b.width || a.height !== b.height) return 1;
              let other = 0;
              for (let i = 0; i < a.data.length; i += 4)
                if (
                  Math.abs(a.data[i] - b.data[i]) +
                    Math.abs(a.data[i + 1] - b.data[i + 1]) +
                    Math.abs(a.data[i + 2] - b.data[i + 2]) >
                  60
                )
                  other++;
              return other / (a.data.length / 4);
            },
            [fresh, readFileSync(file)].map((bytes) => bytes.toString("base64")),
          );
      if (differs > 0.015) {
        writeFileSync(file, fresh);
        console.log(`picture ${name}-${look}: ${fresh.length} bytes`);
      }
    }
}
/** Five screens on a sheet, to be looked at side by side. */
async function sheets() {
  const page = await browser.newPage({ viewport: { width: 1976, height: 844 } });
  for (const pass of wanted) {
    const names = Object.keys(shots).filter((file) => file.endsWith(`-${pass}`));
    for (let i = 0; i < names.length; i += 5) {
      await page.setContent(
        `<body style="margin:0;display:flex;gap:6px;background:#777">${names
          .slice(i, i + 5)
          .map((file) => `<img width=390 src="data:image/png;base64,${shots[file].toString("base64")}">`)
          .join("")}</body>`,
      );
      await page.screenshot({ path: `${out}sheet-${pass}-${String(1 + i / 5).padStart(2, "0")}.png` });
    }
  }
}
