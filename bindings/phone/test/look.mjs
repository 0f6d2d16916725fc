// Every screen at 390x844, on the app as built with its real worker, disk and office: day and night with axe
// (and its enhanced contrast rule), at the largest text, and in each language: there at 360x640 and at the
// largest text as well, with every word translated. Measures every target, word and shape, takes pictures,
// and writes the README's. SCREEN names one screen, or the beginning of some; PASS=day,night,large,es,fr,xa
// names passes; SHEETS=1 keeps a picture of every screen in OUT.
import assert from "node:assert/strict";
import { leavesHalfTyped } from "./look/half-typed.mjs";
import { PICTURES, keepsPictures, makesSheets } from "./look/readme-pictures.mjs";
import { SCREENS_OF_A_FRESH_PHONE, screensOf } from "./look/screens.mjs";
import { tokensFallingShort } from "./look/tokens.mjs";
import { axeFinds, isDrawn, picturesGoTo } from "./stage/looking.mjs";
import { untranslated } from "./look/translated.mjs";
import { measure } from "./stage/measure/whole-screen.mjs";
import { playsSiding } from "./stage/siding/played.mjs";
import { setsStage } from "./stage/setting.mjs";
import { chapter } from "./stage/story.mjs";

const PASSES = {
  day: { look: "day" },
  night: { look: "night" },
  large: { look: "day", scale: 1.3 },
  es: { look: "day", lang: "es-MX" },
  fr: { look: "day", lang: "fr-CA" },
  xa: { look: "day", lang: "en-XA" },
};
/** How a screen is looked at in another language, beside as the phone has it. */
const AS_WELL = [
  { name: "small", width: 360, height: 640, scale: 1 },
  { name: "largest", width: 390, height: 844, scale: 1.3 },
];
/** What a small phone makes of a screen in any language: a smaller scale, less room above the keypad. */
const OF_ANY_LANGUAGE = /^(small text|only \d+px between head and foot)/;
const ONLY = process.env.SCREEN ?? "";
const wanted = (process.env.PASS ?? Object.keys(PASSES).join(",")).split(",");
const out = picturesGoTo();

const { office, browser, phoneInWindow } = setsStage({ quotas: [] });
/** The phone of the played siding. */
const ada = phoneInWindow("siding");
/** A phone before anybody enrolled it, and the three ways in which nothing can be recorded. */
const fresh = phoneInWindow("fresh", { mayComplain: true });
const torn = phoneInWindow("torn", { mayComplain: true });
const broken = phoneInWindow("broken", { mayComplain: true });
const holder = phoneInWindow("holder", { mayComplain: true });
/** A second window of the holder's phone, which waits for the records. */
let waiting;

let screens = {};
/** What each car's screens say of it: `[visit, { number, spot }]`. */
let cars = [];
/** What people typed into the records, in the order in which it is looked for. */
let typed = [];
const shots = {};
const fallingShort = [];
let seen = 0;
let worst = 99;
const began = Date.now();

chapter("six cars stand at a siding, and four phones can record nothing", async () => {
  await office.opens();
  office.namesSiteInFull();
  await opensPhonesThatRecordNothing();
  await ada.opens(await browser());
  const visits = await playsSiding(office, ada);
  const view = await ada.view(visits.main);
  const readyBlockers = (await ada.view(visits.ready)).blockers;
  screens = screensOf(visits, {
    line: view.history.findLast((line) => line.slot === "fitting/liquid_b/closure").said.entry,
    claim: view.disagreements[0].entries[0],
    figure: view.disagreements.find(({ slot }) => slot.startsWith("reading")).slot,
    passed: readyBlockers.find((blocker) => blocker.passed_over)?.code ?? "none",
  });
  await leavesHalfTyped(ada, visits);
  typed = typedIn(await Promise.all(Object.values(visits).map((visit) => ada.view(visit))));
  // Cars stand on two tracks, so a spot is told by both numbers.
  cars = (await ada.asksFor("visits")).flatMap((row) => {
    const spot = (row.spot.match(/\d+/g) ?? []).join("·");
    return row.visits.map((visit) => [visit, { number: row.car, spot }]);
  });
  return `staged in ${((Date.now() - began) / 1000).toFixed(0)} s`;
});

/** Under these names people's own texts stand in a view. */
const BY_HAND = new Set(
  "typed because what note why grounds to by reference item number name spot value truck product".split(" "),
);
/** Every text in a view that a person typed, longest first. */
function typedIn(views) {
  const texts = new Set();
  JSON.stringify(views, (key, value) => {
    if (typeof value === "string" && BY_HAND.has(key) && value.length > 2) texts.add(value);
    return value;
  });
  return [...texts].sort((a, b) => b.length - a.length);
}

async function opensPhonesThatRecordNothing() {
  const start = "#cars";
  const noFiles = `navigator.storage.getDirectory = () => Promise.reject(new Error("no file system"));\n`;
  const noModule = `throw new Error("the module does not start");\n`;
  await fresh.opens(await browser());
  await torn.opens(await browser(), { worker: noFiles });
  await broken.opens(await browser(), { worker: noModule });
  await holder.opens(await browser());
  await fresh.page.goto(fresh.appAt(start));
  await fresh.page.waitForSelector(".screen .foot .help");
  await torn.page.goto(torn.appAt(start));
  await broken.page.goto(broken.appAt(start));
  await holder.page.goto(holder.appAt(start));
  await holder.page.waitForSelector(".screen .foot .help");
  // The help key is there before the records are: only who has them keeps others out.
  await holder.page.waitForFunction(async () => (await navigator.locks.query()).held.length > 0);
  waiting = await holder.context.newPage();
  await waiting.goto(holder.appAt(start));
  for (const page of [torn.page, broken.page, waiting])
    await page.waitForFunction(() => document.querySelector(".why h1"));
}

chapter("a word that nobody translated is found", async () => {
  const { page } = ada;
  const planted = "Close the valve before you leave";
  for (const lang of ["es-MX", "fr-CA", "en-XA"]) {
    await ada.changesSettings({ lang });
    await page.goto("about:blank");
    await page.goto(ada.appAt("#setup"));
    await page.waitForFunction((tag) => document.documentElement.lang === tag, lang);
    await page.waitForSelector("main .sizes");
    assert.deepEqual(await saysNothingElse(page, lang), []);
    await page.evaluate((text) => {
      document.querySelector("main .sizes").textContent = text;
    }, planted);
    const [found = ""] = await saysNothingElse(page, lang);
    assert.match(found, /not translated .*Close the valve/, lang);
  }
});

for (const pass of wanted)
  chapter(`${pass}: on every screen nothing falls short`, () => looksAtEveryScreen(pass), {
    othersGoOn: true,
  });

async function looksAtEveryScreen(pass) {
  const before = fallingShort.length;
  for (const phone of [fresh, torn, broken, holder, ada]) {
    await phone.changesSettings({ look: "day", lang: "en-US", scale: 1, ...PASSES[pass] });
    await phone.page.goto("about:blank");
    await phone.page.goto(phone.appAt("#cars"));
  }
  await ada.page.waitForSelector(".car");
  await fresh.page.waitForSelector(".screen .foot .help");
  for (const [name, screen] of Object.entries(screens)) await looksAt(ada.page, pass, name, screen);
  for (const name of SCREENS_OF_A_FRESH_PHONE) await looksAt(fresh.page, pass, `fresh_${name}`, [name]);
  await waiting.goto("about:blank");
  await waiting.goto(holder.appAt("#cars"));
  await looksAt(torn.page, pass, "refused_storage", ["cars//"]);
  await looksAt(broken.page, pass, "refused_broken", ["cars//"]);
  await looksAt(waiting, pass, "refused_waiting", ["cars//"]);
  assert.deepEqual(fallingShort.slice(before), []);
}

/**
 * Goes to one screen, does what is to be done there, and measures it. A screen that cannot be reached falls
 * short, and others go on.
 */
async function looksAt(page, pass, name, [hash, act, after]) {
  if (!name.startsWith(ONLY)) return;
  try {
    await settlesOn(page, hash);
    if (act) {
      await act(page);
      await page.waitForTimeout(80);
    }
    if (process.env.SHEETS || PICTURES[name]?.includes(pass))
      shots[`${name}-${pass}`] = await page.screenshot({ path: `${out}${name}-${pass}.png` });
    const { lang } = PASSES[pass];
    if (lang === "en-XA") await leavesOutDrawing(page);
    const measured = await measure(page, carOn(name, hash));
    const found = pass === "large" ? [] : await axeFindsMore(page);
    if (lang) found.push(...(await saysNothingElse(page, lang)));
    tells(`${pass} ${name}`, measured, [...measured.found, ...found]);
    if (lang) for (const as of AS_WELL) await looksAgain(page, pass, name, carOn(name, hash), as);
    await after?.(page);
  } catch (error) {
    fallingShort.push(`${pass} ${name}: ${error}`);
    const text = await page.innerText("body").catch(() => "");
    console.log(`${pass} ${name}: ${error}`, text.replace(/\n+/g, " · ").slice(0, 300));
  }
}

/** The drawing of the housing has room for short words alone: what it says is measured in real languages. */
const leavesOutDrawing = (page) =>
  page.evaluate(() => {
    for (const text of document.querySelectorAll(".plan text")) text.style.visibility = "hidden";
  });

/** What stands on a screen in another language than the one that is spoken. */
async function saysNothingElse(page, lang) {
  const said = await page.evaluate(() => document.documentElement.lang);
  const found = await untranslated(page, lang, typed);
  return said === lang ? found : [...found, `the page says that it is in ${said}`];
}

/** Measures a screen that stands there once more, on a smaller phone or at another size of text. */
async function looksAgain(page, pass, name, car, { name: as, width, height, scale }) {
  const size = page.viewportSize();
  const sets = (scale) =>
    page.evaluate((to) => {
      document.documentElement.style.setProperty("--scale", to);
      document.documentElement.dataset.scale = to;
    }, String(scale));
  await page.setViewportSize({ width, height });
  await sets(scale);
  await isDrawn(page);
  if (process.env.SHEETS) await page.screenshot({ path: `${out}${name}-${pass}-${as}.png` });
  const measured = await measure(page, car);
  const found = measured.found.filter((one) => !OF_ANY_LANGUAGE.test(one));
  tells(`${pass} ${name} (${as})`, measured, found);
  await page.setViewportSize(size);
  await sets(1);
  await isDrawn(page);
}

/** The car a screen is bound to; the screen of a car that is not there yet is bound to none. */
function carOn(name, hash) {
  if (name === "opening") return null;
  return cars.find(([visit]) => hash.includes(visit))?.[1] ?? null;
}

const axeFindsMore = (page) => axeFinds(page, { rules: { "color-contrast-enhanced": { enabled: true } } });

/**
 * Goes to a screen and waits until all of it is there: what it shows, what a typed figure means, what a
 * search found.
 */
async function settlesOn(page, hash) {
  await page.evaluate((hash) => {
    location.hash = hash;
  }, hash);
  await page.waitForFunction(() => {
    const isThere = document.querySelector(".screen .foot") && document.querySelector("h1.sink") === null;
    return isThere || location.hash.includes("/000000");
  });
  await isDrawn(page);
  // The card itself waits for nothing.
  if (hash.startsWith("help/")) await page.waitForSelector(".carline");
  if (hash.startsWith("figure"))
    await page.waitForFunction(() => document.querySelector(".mean")?.getAttribute("aria-busy") === "false");
  if (hash === "find") await page.waitForTimeout(400);
  await page.waitForFunction(() => !document.querySelector(".told span"));
}

function tells(name, measured, found) {
  fallingShort.push(...found.map((one) => `${name}: ${one}`));
  seen++;
  worst = Math.min(worst, measured.worst);
  if (!found.length && !ONLY) return;
  const scrolls = measured.scrolls > 1 ? `, scrolls ${measured.scrolls}px` : "";
  console.log(
    `${name}: text >= ${measured.worst.toFixed(2)}:1${scrolls}${found.length ? "" : ", nothing found"}`,
  );
  for (const one of found.slice(0, 12)) console.log("   ", one);
  if (found.length > 12) console.log(`    and ${found.length - 12} more`);
}

chapter("token against token, the colours have the contrast they need", () =>
  assert.deepEqual(tokensFallingShort(), []),
);

chapter("the README's pictures are small", async () => {
  if (!ONLY) assert.deepEqual(await keepsPictures(ada.page, shots), []);
  if (process.env.SHEETS) await makesSheets(await browser(), shots, wanted, out);
});

chapter("all screens were measured", () => {
  const things = fallingShort.length ? `${fallingShort.length} things found` : "nothing found";
  const took = ((Date.now() - began) / 1000).toFixed(0);
  console.log(`${seen} screens measured in ${took} s, ${things}; lowest text contrast ${worst.toFixed(2)}:1`);
});
