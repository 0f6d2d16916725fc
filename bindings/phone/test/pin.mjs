// People with keys of their own, on the app as built against a real office: a PIN is made (and a weak one, and two that differ,
// refused), signs one act, is wrong, waits, is skipped in one tap, changed, forgotten; the office confirms, sets the shift and ends
// a key. Looks at each screen at 360x640 and 390x844; pictures in OUT. FARSIDING names the server's program.
import assert from "node:assert/strict";
import { mkdirSync, readFileSync } from "node:fs";
import { measure } from "./measure.mjs";
import { openOffice, phoneOf } from "./siding.mjs";
import { folder, launch } from "./stage.mjs";

const out = process.env.OUT ?? folder("dist-look/");
mkdirSync(out, { recursive: true });
const axe = readFileSync(new URL("../node_modules/axe-core/axe.min.js", import.meta.url), "utf8");
const browser = await launch(),
  office = await openOffice();
const phone = await phoneOf(browser),
  { page, at, key, call } = phone;
const told = [];
page.on("pageerror", (error) => told.push(error.message));
let passed = 0,
  bad = 0;
const test = async (name, act) => {
  const extra = await act();
  passed++;
  console.log("ok  ", name, extra ?? "");
};
const SIZES = [
  [360, 640],
  [390, 844],
];

/** Pictures and measures the screen as it stands, in both sizes. */
async function look(name) {
  for (const [width, height] of SIZES) {
    await page.setViewportSize({ width, height });
    await page.evaluate(
      () => new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn))),
    );
    await page.screenshot({ path: `${out}pin-${name}-${width}.png` });
    const m = await measure(page);
    bad += m.found.length;
    for (const found of m.found) console.log("   ", name, width, found);
    if (m.scrolls > 1) console.log(`    ${name} ${width} scrolls ${m.scrolls}px`);
  }
  if (!(await page.evaluate(() => "axe" in window))) await page.evaluate(axe);
  const found = await page.evaluate(async () =>
    (await window.axe.run(document, { resultTypes: ["violations"] })).violations.map(
      (v) => `axe ${v.id}: ${v.nodes.map((n) => n.target.join(" ")).slice(0, 3)}`,
    ),
  );
  bad += found.length;
  for (const one of found) console.log("   ", name, one);
}
const digits = async (pin) => {
  for (const d of pin) await page.locator(`.pad button:text-is("${d}")`).last().tap();
};
const says = (text) => page.waitForFunction((t) => new RegExp(t).test(document.body.innerText), text);
const history = async (visit) => JSON.parse(await call("visit", visit)).history;
const here = async () => JSON.parse(await call("peopleHere"));
const hold = async (visit) => {
  const id = [...crypto.getRandomValues(new Uint8Array(16))]
    .map((b) => b.toString(16).padStart(2, "0"))
    .join("");
  await call(
    "append",
    `visit:${visit}`,
    JSON.stringify([{ says: { hold: { hold: id, because: "rehearsal" } } }]),
    "ada",
  );
  return id;
};
const lift = async (visit, id) => {
  await at(`form/${visit}/${encodeURIComponent(`lift|${id}`)}`);
  await page.waitForSelector("textarea");
  await page.fill("textarea", "It is over");
};
const lifted = async (visit, id) =>
  JSON.parse(await call("visit", visit)).holds.find((h) => h.id === id).lifted !== null;
const go = () => page.locator(".under .foot .go").last().tap();

let fine = false;
try {
  await page.goto(`${office.app}#${office.link("pin phone").split("#")[1]}`);
  await page.waitForSelector("input.field");
  await page.locator(".foot .go").tap();
  await page.waitForSelector('.lead:has-text("Ada")');
  await key("Ada", ".lead");
  await page.waitForSelector('.lead:has-text("Demo siding")');
  await key("Demo siding", ".lead");
  await page.waitForSelector('.go:has-text("New car")');
  const site = Object.keys(JSON.parse(await call("sites")))[0];
  const visit = await call(
    "openVisit",
    JSON.stringify({ car: "QZQX 104417", site, receiver: "fixed_tank", spot: "Track 1" }),
    "ada",
  );

  await test("without a PIN nothing is in the way, and the screen says who names the person", async () => {
    const id = await hold(visit);
    await lift(visit, id);
    await says("Named by the phone, not signed by you");
    await look("unsigned");
    await go();
    await page.waitForFunction(() => !location.hash.startsWith("#form"));
    assert.equal(await lifted(visit, id), true);
    assert.deepEqual((await here()).keys, []);
  });
  await test("a PIN is offered, made twice, and refused when weak or when the two differ", async () => {
    await at("cars");
    await page.waitForSelector('.lead:has-text("Make your PIN")');
    await look("cars-offer");
    await key("Make your PIN", ".lead");
    await says("Not signed by you");
    await look("none");
    await key("Make your PIN", ".go");
    await says("Six digits that nobody guesses");
    await look("make");
    await digits("123456");
    await says("Once more");
    await digits("123456");
    await says("Anybody would try that first");
    await digits("294611");
    await says("Once more");
    await digits("294612");
    await says("not the same");
    await digits("294611");
    await says("Once more");
    await look("again");
    const began = Date.now();
    await digits("294611");
    await says("The office will ask you by telephone");
    await look("have");
    assert.equal((await here()).keys.length, 1);
    return `(made in ${Date.now() - began} ms)`;
  });
  await test("what it was unlocked for is signed; the next act asks, and what was typed waits", async () => {
    const first = await hold(visit);
    await lift(visit, first);
    await go();
    await page.waitForFunction(() => !location.hash.startsWith("#form"));
    assert.equal((await here()).holder, null, "one act");
    const second = await hold(visit);
    await lift(visit, second);
    await go();
    await page.waitForSelector(".over");
    await says("It signs what you are about to record");
    await look("ask");
    await digits("111222");
    await says("Wrong PIN. 9 tries left");
    await look("wrong");
    await page.locator(".over .back").tap();
    await page.waitForSelector(".over", { state: "detached" });
    assert.equal(await page.inputValue("textarea"), "It is over");
    assert.equal(await lifted(visit, second), false, "turning back records nothing");
    await go();
    await page.waitForSelector(".over");
    const began = Date.now();
    await digits("294611");
    await page.waitForFunction(() => !location.hash.startsWith("#form"));
    const took = Date.now() - began;
    assert.equal(await lifted(visit, second), true);
    return `(six digits, unlocked and recorded in ${took} ms)`;
  });
  await test("in the rain it is skipped with one tap", async () => {
    const id = await hold(visit);
    await lift(visit, id);
    await go();
    await page.waitForSelector(".over");
    await page.locator(".over .go").tap();
    await page.waitForFunction(() => !location.hash.startsWith("#form"));
    assert.equal(await lifted(visit, id), true);
  });
  await test("wrong tries wait longer, and another tab or a reload gives none back", async () => {
    const id = await hold(visit);
    await lift(visit, id);
    await go();
    await page.waitForSelector(".over");
    for (let left = 9; left >= 5; left--) {
      await digits("111222");
      await says(`${left} tries left`);
    }
    await digits("294611");
    await says("Too many wrong tries");
    await look("waits");
    await page.reload();
    await page.waitForSelector("textarea");
    await go();
    await page.waitForSelector(".over");
    await digits("294611");
    await says("Too many wrong tries");
    await key("Forgotten", ".over button");
    await says("PIN forgotten");
    await look("forgotten");
    await key("Throw it away", ".go");
    await says("Six digits that nobody guesses");
    await digits("830274");
    await says("Once more");
    await digits("830274");
    await says("The office will ask");
    assert.equal((await here()).keys[0].tries_left, 10);
  });
  await test("a PIN is changed", async () => {
    await at("pin//");
    await key("Change the PIN", ".lead");
    await says("Your PIN so far");
    await look("change");
    await digits("830274");
    await says("Six digits that nobody guesses");
    await digits("573920");
    await says("Once more");
    await digits("573920");
    await page.waitForSelector(".digits");
    await assert.rejects(call("unlockPerson", "ada", "830274"), /WrongPin/);
    await call("unlockPerson", "ada", "573920");
    await call("lockPeople");
  });
  await test("the office confirms by the sixteen digits, sets the shift, and the phone says who holds it", async () => {
    const clerk = office.device("clerk", "office"),
      spoken = (await here()).keys[0].fingerprint;
    const meet = async () => {
      await at("only_here//");
      await page.locator(".foot .go").tap();
      await says("Met the office");
    };
    await meet();
    clerk("sync");
    assert.throws(() => clerk("confirm-key", "ada", "0000", "0000", "0000", "0000"));
    clerk("confirm-key", "ada", ...spoken.split(" "));
    clerk("rules", "shift");
    clerk("sync");
    await meet();
    await at("pin//");
    await says("The office has confirmed your key");
    await at("cars//");
    const id = await hold(visit);
    await lift(visit, id);
    await go();
    await page.waitForSelector(".over");
    await says("until the shift is over");
    await digits("573920");
    await page.waitForFunction(() => !location.hash.startsWith("#form"));
    const again = await hold(visit);
    await lift(visit, again);
    await go();
    await page.waitForFunction(() => !location.hash.startsWith("#form"));
    assert.equal((await history(visit)).filter((h) => h.slot === "series/held_by").length, 1);
    await at(`car/${visit}/`);
    await says("held by Ada");
    await at(`history/${visit}/`);
    await page.waitForSelector("ol.sink li");
    await says("held by Ada");
    await look("held");
    await at("cars//");
    await page.waitForSelector('.lead:has-text("holds this phone")');
    await look("holder");
    await key("holds this phone", ".lead");
    await page.waitForSelector('.lead:has-text("holds this phone")', { state: "detached" });
    clerk("end-key", "ada", spoken.slice(0, 9), "--why", "left");
    clerk("sync");
    await meet();
    await at("pin//");
    await says("The office ended your key");
    await look("ended");
  });
  assert.deepEqual(told, []);
  assert.equal(bad, 0, "what was measured falls short");
  fine = true;
  console.log(`${passed} passed, 0 failed`);
} catch (error) {
  console.log(
    "FAILED:",
    error,
    (await page.innerText("body").catch(() => "?")).replace(/\n+/g, " · ").slice(0, 500),
    told,
  );
} finally {
  await browser.close();
  await office.close();
  process.exit(fine ? 0 : 1);
}
