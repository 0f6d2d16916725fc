// Amounts and choices as typed and tapped on the real core, in each language of the phone: what says two
// things is asked back, what is no amount is refused in words and kept, and what is chosen is signed as the
// same code. PICTURES names a folder for pictures of that.
import assert from "node:assert/strict";
import { carScreen, figureScreen, formScreen } from "./stage/screens.mjs";
import { setsStage } from "./stage/setting.mjs";
import { chapter } from "./stage/story.mjs";
import { later } from "./stage/waiting.mjs";

const LANGUAGES = {
  en: {
    key: "English",
    car: "QZQX 220011",
    which: "Which did you mean?",
    none: "This is no number.",
    choose: "Choose which one",
    read: "Read as 32650 gal",
  },
  es: {
    key: "Español",
    car: "QZQX 220012",
    which: "¿Cuál quiso decir?",
    none: "Esto no es un número.",
    choose: "Elija cuál",
    read: "Leído como 32650 gal",
  },
};
/** What is typed, what is then chosen, and the amount that is signed. */
const TYPED = [
  ["32,650", "32650 gal", 32650],
  ["32,650", "32.65 gal", 32.65],
  ["32.650", "32650 gal", 32650],
  ["32.650", "32.65 gal", 32.65],
];

const { office, browser, phoneInWindow } = setsStage({ quotas: [] });
/** What each phone signed of what is chosen, by language. */
const signed = {};

chapter("an office is open", async () => {
  await office.opens();
  office.namesSiteInFull();
});

for (const [lang, words] of Object.entries(LANGUAGES)) {
  const ada = phoneInWindow(lang);
  const foot = () => ada.page.locator(".foot .go").first();
  const view = () => ada.view(visit);
  const billed = async () => (await view()).header.paper?.value.billed;
  const asksBack = () => ada.page.waitForSelector(`.amount:has-text("${words.which}")`);
  let visit = "";

  /** Confirms, once the screen can be confirmed, and waits until what it says is recorded. */
  async function records() {
    await ada.page.waitForFunction(() => !document.querySelector(".foot .go").disabled);
    await foot().tap();
    await later(700);
  }

  /** Types the billed amount into the form of the shipping paper, from an empty field. */
  async function typesBilled(typed) {
    await ada.goesTo("car");
    await later(150);
    await ada.goesTo(`form/${visit}/paper|`);
    const field = ada.page.locator("input[inputmode=decimal]").first();
    await field.waitFor();
    await field.fill("");
    await field.tap();
    await ada.page.keyboard.type(typed);
    return field;
  }

  chapter(`${lang}: a phone speaks the language`, async () => {
    await ada.opens(await browser());
    await ada.enrols("Ada", `phone in ${lang}`);
    await ada.goesTo("setup//");
    await ada.page.waitForSelector(`.key:has-text("${words.key}")`);
    await ada.taps(words.key, ".key");
    visit = await ada.opensVisit({ car: words.car, spot: "1" });
  });

  for (const [typed, choice, value] of TYPED)
    chapter(`${lang}: ${typed} is asked back, and ${choice} is signed`, async () => {
      await typesBilled(typed);
      await asksBack();
      assert.equal(await foot().isDisabled(), true, "nothing is signed before the person chose");
      await ada.page.locator(".amount .key", { hasText: choice }).tap();
      await records();
      assert.deepEqual(await billed(), { text: typed, unit: "gal", value });
    });

  chapter(`${lang}: 32 650 says one thing`, async () => {
    await typesBilled("32 650");
    await ada.page.waitForSelector(`.amount:has-text("${words.read}")`);
    await records();
    assert.deepEqual(await billed(), { text: "32 650", unit: "gal", value: 32650 });
  });

  chapter(`${lang}: what is no number is refused in words, and kept`, async () => {
    const field = await typesBilled("about full");
    await ada.page.waitForSelector(`.amount:has-text("${words.none}")`);
    assert.equal(await foot().isDisabled(), true);
    await ada.goesTo(carScreen(visit));
    await ada.page.waitForSelector(".plan");
    await ada.goesTo(`form/${visit}/paper|`);
    await field.waitFor();
    assert.equal(await field.inputValue(), "about full");
    await field.fill("");
  });

  chapter(`${lang}: the keypad asks back too`, async () => {
    await ada.goesTo(figureScreen(visit, "car/capacity"));
    await ada.page.waitForSelector(".pads");
    for (const typed of "32.650") {
      const hasText = typed === "." ? /^\.$/ : new RegExp(`^${typed}$`);
      await ada.page.locator(".pad .key", { hasText }).tap();
    }
    await asksBack();
    assert.match(await foot().innerText(), new RegExp(words.choose));
    await ada.page.locator(".amount .key", { hasText: "32650 gal" }).tap();
    await ada.page.waitForFunction(() => /32650/.test(document.querySelector(".foot .go").innerText));
    await records();
    assert.deepEqual((await view()).car.capacity.value, { text: "32.650", unit: "gal", value: 32650 });
  });

  chapter(`${lang}: the wind, a seal that is not there and who was told are codes`, async () => {
    await ada.goesTo(formScreen(visit, "weather"));
    await ada.page.waitForSelector(".keys");
    const choices = ada.page.locator(".sink > .keys");
    await choices.nth(0).locator(".key").nth(0).tap();
    await choices.nth(1).locator(".key").nth(7).tap();
    await choices.nth(2).locator(".key").nth(1).tap();
    await records();
    await ada.goesTo(`seal/${visit}/found`);
    await ada.page.waitForSelector(".keys.four");
    await ada.page.locator(".keys.four").nth(1).locator(".key").nth(0).tap();
    await records();
    await ada.goesTo(`defect/${visit}/liquid_a`);
    await ada.page.waitForSelector("textarea");
    await ada.page.locator("textarea").fill("bent");
    await ada.page.locator("input.field").fill("the carrier");
    await records();

    const { seals, defects, weather, car } = await view();
    const { found } = seals[0];
    const [told] = defects[0].forwarded;
    assert.equal(found.value.note, "no_seal_found");
    assert.equal(told.how, "voice");
    assert.equal(weather.value, "Weather: dry, wind NW, light.");
    signed[lang] = JSON.stringify([found.value, told.how, weather.value, car.capacity.value]);
    if (process.env.PICTURES) await takesPictures();
    return found.said.entry.slice(0, 8);
  });

  async function takesPictures() {
    await ada.goesTo(`defects/${visit}/`);
    await later(300);
    await ada.page.screenshot({ path: `${process.env.PICTURES}/defects-${lang}.png` });
    await typesBilled("32,650");
    await ada.page.waitForSelector(".amount .key");
    await ada.page.screenshot({ path: `${process.env.PICTURES}/amount-${lang}.png` });
  }

  chapter(`${lang}: the phone is put away`, () => ada.closes());
}

chapter("both phones signed the same", () => assert.equal(signed.es, signed.en));
