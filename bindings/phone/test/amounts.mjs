// Amounts and choices as typed and tapped on the real core, in each language of the phone: what says two things is asked back, what is
// none is refused in words and kept, and what is chosen is signed as the same code. FARSIDING names the server's program.
import assert from "node:assert/strict";
import { openOffice, phoneOf } from "./siding.mjs";
import { launch } from "./stage.mjs";

const LANGUAGES = {
  en: {
    key: "English",
    which: "Which did you mean?",
    none: "This is no number.",
    choose: "Choose which one",
    read: "Read as 32650 gal",
  },
  es: {
    key: "Español",
    which: "¿Cuál quiso decir?",
    none: "Esto no es un número.",
    choose: "Elija cuál",
    read: "Leído como 32650 gal",
  },
};
const office = await openOffice(),
  browser = await launch();
const signed = {};
let fine = false,
  passed = 0,
  broken = "";
const test = async (name, f) => {
  const extra = await f();
  passed++;
  console.log("ok  ", name, extra ?? "");
};
try {
  for (const [lang, words] of Object.entries(LANGUAGES)) {
    const { page, call, at, key } = await phoneOf(browser);
    page.on("pageerror", (error) => {
      console.log("PAGE ERROR", lang, error.message);
      process.exitCode = 1;
      broken = error.message;
    });
    await page.goto(`${office.app}#${office.link(`phone in ${lang}`).split("#")[1]}`);
    await page.waitForSelector("input.field");
    await page.locator(".foot .go").tap();
    await page.waitForSelector('.lead:has-text("Ada")');
    await key("Ada", ".lead");
    await page.waitForSelector('.lead:has-text("Demo siding")');
    await key("Demo siding", ".lead");
    await page.waitForSelector(".foot .go");
    await at("setup//");
    await page.waitForSelector(`.key:has-text("${words.key}")`);
    await key(words.key, ".key");
    const procedure = { car: `QZQX ${lang === "en" ? 220011 : 220012}`, receiver: "fixed_tank", spot: "1" };
    const site = Object.keys(JSON.parse(await call("sites")))[0];
    const visit = await call("openVisit", JSON.stringify({ ...procedure, site }), "ada");
    const view = async () => JSON.parse(await call("visit", visit));
    const foot = page.locator(".foot .go").first();
    const record = async () => {
      await page.waitForFunction(() => !document.querySelector(".foot .go").disabled);
      await foot.tap();
      await page.waitForTimeout(700);
    };
    const paper = async (typed) => {
      await at("car");
      await page.waitForTimeout(150);
      await at(`form/${visit}/paper|`);
      const field = page.locator("input[inputmode=decimal]").first();
      await field.waitFor();
      await field.fill("");
      await field.tap();
      await page.keyboard.type(typed);
      return field;
    };
    const billed = async () => (await view()).header.paper?.value.billed;

    for (const [typed, choice, value] of [
      ["32,650", "32650 gal", 32650],
      ["32,650", "32.65 gal", 32.65],
      ["32.650", "32650 gal", 32650],
      ["32.650", "32.65 gal", 32.65],
    ]) {
      await test(`${lang}: ${typed} is asked back, and ${choice} is signed`, async () => {
        await paper(typed);
        await page.waitForSelector(`.amount:has-text("${words.which}")`);
        assert.equal(await foot.isDisabled(), true, "nothing is signed before the person chose");
        await page.locator(".amount .key", { hasText: choice }).tap();
        await record();
        assert.deepEqual(await billed(), { text: typed, unit: "gal", value });
      });
    }
    await test(`${lang}: 32 650 says one thing`, async () => {
      await paper("32 650");
      await page.waitForSelector(`.amount:has-text("${words.read}")`);
      await record();
      assert.deepEqual(await billed(), { text: "32 650", unit: "gal", value: 32650 });
    });
    await test(`${lang}: what is no number is refused in words, and kept`, async () => {
      const field = await paper("about full");
      await page.waitForSelector(`.amount:has-text("${words.none}")`);
      assert.equal(await foot.isDisabled(), true);
      await at(`car/${visit}/`);
      await page.waitForSelector(".plan");
      await at(`form/${visit}/paper|`);
      await field.waitFor();
      assert.equal(await field.inputValue(), "about full");
      await field.fill("");
    });
    await test(`${lang}: the keypad asks back too`, async () => {
      await at(`figure/${visit}/${encodeURIComponent("car/capacity")}`);
      await page.waitForSelector(".pads");
      for (const digit of "32.650")
        await page.locator(".pad .key", { hasText: digit === "." ? /^\.$/ : new RegExp(`^${digit}$`) }).tap();
      await page.waitForSelector(`.amount:has-text("${words.which}")`);
      assert.match(await foot.innerText(), new RegExp(words.choose));
      await page.locator(".amount .key", { hasText: "32650 gal" }).tap();
      await page.waitForFunction(() => /32650/.test(document.querySelector(".foot .go").innerText));
      await record();
      assert.deepEqual((await view()).car.capacity.value, { text: "32.650", unit: "gal", value: 32650 });
    });
    await test(`${lang}: the wind, a seal that is not there and who was told are codes`, async () => {
      await at(`form/${visit}/weather|`);
      await page.waitForSelector(".keys");
      const fields = page.locator(".sink > .keys");
      await fields.nth(0).locator(".key").nth(0).tap();
      await fields.nth(1).locator(".key").nth(7).tap();
      await fields.nth(2).locator(".key").nth(1).tap();
      await record();
      await at(`seal/${visit}/found`);
      await page.waitForSelector(".keys.four");
      await page.locator(".keys.four").nth(1).locator(".key").nth(0).tap();
      await record();
      await at(`defect/${visit}/liquid_a`);
      await page.waitForSelector("textarea");
      await page.locator("textarea").fill("bent");
      await page.locator("input.field").fill("the carrier");
      await record();
      const now = await view();
      assert.equal(now.seals[0].found.value.note, "no_seal_found");
      assert.equal(now.defects[0].forwarded[0].how, "voice");
      assert.equal(now.weather.value, "Weather: dry, wind NW, light.");
      signed[lang] = JSON.stringify([
        now.seals[0].found.value,
        now.defects[0].forwarded[0].how,
        now.weather.value,
        now.car.capacity.value,
      ]);
      if (process.env.PICTURES) {
        await at(`defects/${visit}/`);
        await page.waitForTimeout(300);
        await page.screenshot({ path: `${process.env.PICTURES}/defects-${lang}.png` });
        await paper("32,650");
        await page.waitForSelector(".amount .key");
        await page.screenshot({ path: `${process.env.PICTURES}/amount-${lang}.png` });
      }
      return now.seals[0].found.said.entry.slice(0, 8);
    });
    await page.context().close();
  }
  await test("both phones signed the same", () => assert.equal(signed.es, signed.en));
  assert.equal(broken, "", "no page broke");
  fine = true;
} finally {
  console.log(`${passed} held`);
  await browser.close();
  await office.close();
  process.exitCode = fine ? 0 : 1;
}
