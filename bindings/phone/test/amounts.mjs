// Amounts and choices as typed and tapped on the real core, in each language of the phone: what says two
// things is asked back, what is no amount is refused in words and kept, and what is chosen is signed as the
// same code. PICTURES names a folder for pictures of that.
import assert from "node:assert/strict";
import { carScreen, figureScreen, formScreen } from "./stage/screens.mjs";
import { setsStage } from "./stage/setting.mjs";
import { chapter } from "./stage/story.mjs";
import { later } from "./stage/waiting.mjs";

const LANGUAGES = {
  "en-US": {
    car: "QZQX 220011",
    which: "Which number do you mean?",
    none: "This is not a number.",
    read: "Read as 32650 gal",
    mark: ".",
    record: "Record 32.650 gal",
  },
  "es-MX": {
    car: "QZQX 220012",
    which: "¿Cuál número quiso decir?",
    none: "Esto no es un número.",
    read: "Leído como 32650 gal (EUA)",
    mark: ".",
    record: "Anotar 32.650 gal (EUA)",
  },
  "fr-CA": {
    car: "QZQX 220013",
    which: "De quel nombre s’agit-il?",
    none: "Ce n’est pas un nombre.",
    read: "Lu\u00a0: 32650 gal US",
    mark: ",",
    record: "Consigner 32,650 gal US",
  },
};
/** What is typed, the number that is then chosen, and the amount that is signed. */
const TYPED = [
  ["32,650", 32650],
  ["32,650", 32.65],
  ["32.650", 32650],
  ["32.650", 32.65],
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
    await ada.speaks(lang);
    visit = await ada.opensVisit({ car: words.car, spot: "1" });
  });

  for (const [typed, value] of TYPED)
    chapter(`${lang}: ${typed} is asked back, and ${value} is signed`, async () => {
      const choice = `${String(value).replace(".", words.mark)} gal`;
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

  chapter(`${lang}: the keypad has the one mark of the language, and says what it understood`, async () => {
    await ada.goesTo(figureScreen(visit, "car/capacity"));
    await ada.page.waitForSelector(".pads");
    const keys = await ada.page.locator(".pads .key").allInnerTexts();
    assert.deepEqual(
      keys.filter((key) => /^[.,]$/.test(key)),
      [words.mark],
    );
    // A second mark would separate thousands: there are none here.
    await ada.types(..."32", words.mark, ..."650", words.mark);
    await ada.page.waitForFunction(
      (text) => document.querySelector(".foot .go").innerText.includes(text),
      words.record,
    );
    assert.equal(await ada.page.locator(".amount .key").count(), 0, "nothing is asked back");
    await records();
    assert.deepEqual((await view()).car.capacity.value, {
      text: `32${words.mark}650`,
      unit: "gal",
      value: 32.65,
    });
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
    assert.equal(weather.value.message, "log-weather");
    assert.match(
      JSON.stringify(weather.value.args),
      /precipitation-dry.*wind_from-nw|wind_from-nw.*precipitation-dry/,
    );
    signed[lang] = JSON.stringify([found.value, told.how, weather.value, car.capacity.value.value]);
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

chapter("all phones signed the same", () => {
  for (const lang of Object.keys(LANGUAGES)) assert.equal(signed[lang], signed["en-US"], lang);
});
