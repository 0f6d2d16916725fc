// One stay, three languages: it is recorded on a phone that speaks Spanish, continued on one that speaks
// French, and what they differ about is settled at an office that reads English. Both phones and the office
// hold the very same entries and view; each person reads them in their own language, and a packet has one
// verdict whatever language its pages have. A chosen language is there without a network, from a cold start.
import assert from "node:assert/strict";
import { join } from "node:path";
import { untranslated } from "./look/translated.mjs";
import { carScreen, formScreen, pressureScreen } from "./stage/screens.mjs";
import { setsStage } from "./stage/setting.mjs";
import { chapter } from "./stage/story.mjs";

const { office, phoneOnDisk } = setsStage();
const ana = phoneOnDisk("a");
const benoit = phoneOnDisk("b");
let visit = "";

const languageOf = (phone) => phone.page.evaluate(() => document.documentElement.lang);

chapter("both enrol, and each chooses a language; words of the other are not fetched", async () => {
  await office.opens();
  office.namesSiteAndPeople();
  for (const [phone, who, language] of [
    [ana, "Ada", "es-MX"],
    [benoit, "Ben", "fr-CA"],
  ]) {
    await phone.opens();
    await phone.enrols(who);
    assert.equal(await languageOf(phone), "en-US");
    const keptWords = () =>
      phone.page.evaluate(async () =>
        (await (await caches.open("farsiding-words")).keys()).map(({ url }) => url.split("/").pop()),
      );
    assert.deepEqual(await keptWords(), [], "nothing but English before somebody chose");
    await phone.speaks(language);
    const kept = await keptWords();
    assert.equal(kept.length, 1, `${kept}`);
    assert.match(kept[0], new RegExp(`^${language}-`));
    await phone.isReadyWithoutNetwork();
  }
});

chapter("a stay is opened and recorded in Spanish", async () => {
  await ana.goesTo("new//");
  const fields = ana.page.locator("input.field");
  await fields.nth(0).fill("QZQX");
  await fields.nth(1).fill("104417");
  await fields.nth(2).fill("Track 2, spot 2");
  await fields.nth(3).fill("104417");
  await ana.taps("Tanque fijo");
  await ana.taps("Abrir este carro");
  visit = await ana.visitOnScreen();
  await ana.setsValve(visit, "vapour", "Cerrada");
  await ana.goesTo(pressureScreen(visit));
  await ana.types("1", "0", "4", ".", "5");
  await ana.sees("Anotar 104.5 psi (man.)");
  await ana.confirmsAndLeaves("figure");
  await ana.remarks(visit, "Hielo en la escalera");
  await ana.meetsOffice();
});

chapter("without a network, from a cold start, the other phone goes on in French", async () => {
  await benoit.meetsOffice();
  await benoit.context.setOffline(true);
  await benoit.page.goto("about:blank");
  await benoit.returnsToApp("#cars//");
  assert.equal(await languageOf(benoit), "fr-CA");
  await benoit.seesCar("104417");
  await benoit.goesTo(carScreen(visit, "vapour"));
  await benoit.seesMarked("Fermé");
  await benoit.setsValve(visit, "liquid_a", "Ouvert");
  await benoit.goesTo(pressureScreen(visit, "hold_test"));
  await benoit.types("1", "0", "3", ",", "5");
  await benoit.sees("Consigner 103,5 lb/po² (man.)");
  await benoit.confirmsAndLeaves("figure");
  await benoit.goesTo(formScreen(visit, "remark"));
  await benoit.page.fill("textarea", "Échelle déglacée");
  await benoit.confirmsAndLeaves("form");
  const lines = await benoit.history(visit);
  assert.ok(
    lines.some((line) => line.includes("104,5 lb/po²")),
    lines.join(" | "),
  );
  assert.ok(
    lines.some((line) => line.includes("Hielo en la escalera")),
    "what was typed stays as it is",
  );
  await benoit.context.setOffline(false);
  await benoit.meetsOffice();
});

/** The pressure that was typed in Spanish, as each language writes it. */
const PRESSURE = { "en-US": "104.5 psig", "es-MX": "104.5 psi (man.)", "fr-CA": "104,5 lb/po² (man.)" };

/** Labels of a packet's first page. */
const FIRST = {
  "en-US": ["Organization", "Disagreements", "Completeness"],
  "es-MX": ["Organización", "Discrepancias"],
  "fr-CA": ["Organisation", "Divergences"],
};

/** The command line adds the English text beside each message; a phone has the messages alone. */
const withoutTexts = (view) =>
  JSON.parse(JSON.stringify(view), (_, value) => {
    if (typeof value?.message === "string") delete value.text;
    return value;
  });

const [SETTLED, ICE, THAWED] = ["Looked together: shut", "Hielo en la escalera", "Échelle déglacée"];

/** What was typed at this siding, beside what every story's siding has. */
const TYPED = [SETTLED, ICE, THAWED, "Ana", "Benoit"];

/** A screen has no word that nobody translated. */
const speaks = async (phone, language) =>
  assert.deepEqual(await untranslated(phone.page, language, TYPED), [], language);

chapter("each says something else of one valve, and reads both accounts in their own language", async () => {
  for (const phone of [ana, benoit]) {
    await phone.meetsOffice();
    await phone.context.setOffline(true);
  }
  await ana.setsValve(visit, "liquid_b", "Cerrada");
  await benoit.setsValve(visit, "liquid_b", "Ouvert");
  for (const phone of [ana, benoit]) await phone.context.setOffline(false);
  for (const phone of [ana, benoit, ana]) await phone.meetsOffice();
  for (const [phone, language, closed, open] of [
    [ana, "es-MX", /: cerrada\.$/, /: abierta\.$/],
    [benoit, "fr-CA", /: fermé\.$/, /: ouvert\.$/],
  ]) {
    await phone.goesTo(`differ/${visit}`);
    await phone.page.waitForSelector(".sides section:nth-child(2)");
    const accounts = await phone.page.locator(".sides .word").allTextContents();
    for (const account of [closed, open])
      assert.equal(accounts.filter((said) => account.test(said)).length, 1, accounts.join(" | "));
    await speaks(phone, language);
  }
});

chapter("an office that reads English settles it, and both phones read how", async () => {
  const [differ] = office.view(visit).disagreements;
  const kept = differ.claims.find((claim) => claim.sentence.text.endsWith(": closed."));
  office.device("settle", visit, "--keep", kept.said.entry, "--why", SETTLED);
  office.device("sync");
  for (const [phone, language, none, settled] of [
    [ana, "es-MX", "Ninguna entrada difiere", /^Resuelta.*Válvula \(válvula de líquido B\): cerrada/],
    [benoit, "fr-CA", "Aucune divergence", /^Réglée.*Robinet \(robinet de liquide B\)\s: fermé/],
  ]) {
    await phone.meetsOffice();
    await phone.goesTo(`differ/${visit}`);
    await phone.sees(none);
    const lines = await phone.history(visit);
    assert.match(lines.at(-1), settled, lines.join(" | "));
    await speaks(phone, language);
  }
});

chapter("both phones and the office have the same view, and each reads it in its language", async () => {
  await ana.meetsOffice();
  const views = [withoutTexts(office.view(visit)), await ana.view(visit), await benoit.view(visit)];
  // What is rightly another on each device: the moment of looking, and the guide of a phone's screens.
  for (const view of views) {
    view.brief.until = null;
    delete view.guide;
  }
  const [atOffice, onAnas, onBenoits] = views;
  assert.deepEqual(onAnas, atOffice);
  assert.deepEqual(onBenoits, atOffice);
  for (const phone of [ana, benoit]) await phone.returnsToApp();
  const [spanish, french] = [await ana.history(visit), await benoit.history(visit)];
  assert.equal(spanish.length, french.length);
  assert.ok(
    spanish.some((line) => line.includes("103,5 psi (man.)")),
    spanish.join(" | "),
  );
  assert.notDeepEqual(spanish, french);
});

chapter("a visit printed in each language says the same, and what was typed stays", () => {
  const printed = Object.fromEntries(
    Object.keys(PRESSURE).map((language) => [language, office.device("show", visit, "--lang", language)]),
  );
  const lines = (text) => text.trim().split("\n").length;
  for (const [language, page] of Object.entries(printed)) {
    assert.equal(lines(page), lines(printed["en-US"]), language);
    for (const says of [PRESSURE[language], SETTLED, ICE, THAWED])
      assert.ok(page.includes(says), `${language}: ${says} is not in\n${page}`);
  }
});

chapter("the packet has one verdict in whichever language its pages are, and reads right in each", () => {
  const key = office.run("key", "show", "--data", office.data, "--json");
  const verdicts = Object.keys(PRESSURE).map((language) => {
    const file = join(office.home, `packet-${language}.pdf`);
    const from = ["--data", office.data, "--visit", visit];
    office.run("export", "packet", ...from, "--out", file, "--lang", language);
    const answer = office.run(
      ...["verify", file, "--key", JSON.parse(key).organisation_key],
      ...["--lang", language, "--json"],
    );
    const { ok, lines, first_page } = JSON.parse(answer);
    const first = first_page.map(({ label, text }) => `${label.text} ${text.text}`).join("\n");
    for (const label of FIRST[language]) assert.ok(first.includes(label), `${label} is not in\n${first}`);
    return { ok, lines: lines.map(({ code, outcome }) => [code, outcome]) };
  });
  assert.equal(verdicts[0].ok, true);
  for (const verdict of verdicts) assert.deepEqual(verdict, verdicts[0]);
});

chapter("the language is the person's: another person on the same phone has the phone's own", async () => {
  await ana.goesTo("who//");
  await ana.page.locator('.lead:has-text("Ben")').tap();
  await ana.page.waitForFunction(() => document.documentElement.lang === "en-US");
  await ana.goesTo("who//");
  await ana.page.locator('.lead:has-text("Ada")').tap();
  await ana.page.waitForFunction(() => document.documentElement.lang === "es-MX");
});

chapter("a language that is not here and cannot be fetched leaves the one that is spoken", async () => {
  await ana.context.setOffline(true);
  await ana.goesTo("language//");
  await ana.page.locator('.lead:has(b[lang="fr-CA"])').tap();
  await ana.sees("Este idioma necesita señal una vez");
  assert.equal(await languageOf(ana), "es-MX");
  await ana.context.setOffline(false);
  return ana.page
    .reload()
    .then(() => ana.page.waitForFunction(() => document.documentElement.lang === "es-MX"));
});
