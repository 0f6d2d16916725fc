// Two phones on one car with nothing between them but a file: both open a record, say different things, one
// corrects and withdraws, the other skips a step, they are joined, they settle, hand over; photographs travel
// along; and in the end both phones and the office fold the very same view.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { aPicture } from "../stage/pictures.mjs";
import { formScreen, photoScreen, pressureScreen } from "../stage/screens.mjs";
import { setsStage } from "../stage/setting.mjs";
import { chapter } from "../stage/story.mjs";
import { until } from "../stage/waiting.mjs";

const { home, office, phoneOnDisk } = setsStage();
const ada = phoneOnDisk("a");
const ben = phoneOnDisk("b");
let adasVisit = "";
let bensVisit = "";

let files = 0;
/**
 * One phone makes a file on its screen, the other takes the file in on its own. Returns what the taker says.
 */
async function carries(from, to) {
  await from.goesTo("carry//");
  const saved = from.page.waitForEvent("download");
  await from.taps("Export a transfer file");
  const file = join(home, `${++files}.carry`);
  await (await saved).saveAs(file);
  await to.goesTo("carry//");
  await to.page.setInputFiles('input[type="file"]', file);
  const said = await until(
    "it says what it took",
    async () => (await to.page.locator(".said").textContent()) ?? false,
  );
  await to.goesTo("cars//");
  return said;
}

/** Opens the newest line of a history that holds a sentence. */
async function opensEntry(phone, visit, sentence) {
  await phone.goesTo(`history/${visit}`);
  await phone.page.locator(`ol li button:has-text("${sentence}")`).first().tap();
  await phone.page.waitForFunction(() => location.hash.startsWith("#entry"));
}

/** Gives the reason a form waits for: before it is given, the form takes no confirmation. */
async function givesReason(phone, why) {
  await phone.page.waitForSelector("textarea");
  assert.equal(await phone.page.getAttribute(".foot .go", "aria-disabled"), "true");
  await phone.page.fill("textarea", why);
  await phone.confirmsAndLeaves("form");
}

chapter("both enrol; from then on they have each other and nobody else", async () => {
  await office.opens();
  office.namesSiteAndPeople();
  await ada.opens();
  await ada.enrols("Ada");
  await ben.opens();
  await ben.enrols("Ben");
  await office.closes();
});

chapter("both open a record of one car, and a photograph travels in the file", async () => {
  adasVisit = await ada.opensCar("104417", "Track 2, spot 2");
  bensVisit = await ben.opensCar("104417", "Track 2, spot 2");
  await ada.setsValve(adasVisit, "vapour", "Closed");
  const picture = await aPicture(ada.page);
  await ada.photographs(adasVisit, picture, "housing");
  await ada.sees("1 photo");
  const said = await carries(ada, ben);
  assert.match(said, /, 1 photo$/);
  assert.ok(picture.sha256 in (await ben.photoFiles()), "kept under the digest of what came, byte for byte");
  await ben.goesTo(photoScreen(adasVisit, "housing"));
  await ben.page.waitForSelector(".grid canvas[data-drawn]");
  return `(${said.trim()}; ${readFileSync(join(home, "1.carry")).length} bytes)`;
});

chapter("the other record of the same stay is offered, and one word joins them on both", async () => {
  await ben.goesTo(`more/${bensVisit}/`);
  await ben.sees("Is it the same stay?");
  await ben.taps("Same stay");
  await ben.page.waitForSelector("textarea");
  await ben.confirmsAndLeaves("form");
  await ben.goesTo("cars//");
  assert.equal(await ben.page.locator(".car").count(), 1);
  await carries(ben, ada);
  await ada.page.waitForFunction(() => document.querySelectorAll(".car").length === 1);
});

chapter(
  "apart they say different things; together both accounts stand, and one word with a reason settles it",
  async () => {
    await ben.setsValve(bensVisit, "liquid_a", "Open");
    await ada.setsValve(adasVisit, "liquid_a", "Closed");
    await carries(ada, ben);
    await carries(ben, ada);
    for (const phone of [ada, ben]) {
      await phone.goesTo(`differ/${adasVisit}`);
      await phone.page.waitForFunction(() => document.querySelectorAll(".sides section").length === 2);
    }
    await ben.page.locator(".sides section:has-text('closed') .key").first().tap();
    await ben.page.waitForSelector("textarea");
    await ben.page.fill("textarea", "Looked together");
    await ben.confirms();
    await ben.sees("No entries differ");
    await carries(ben, ada);
    await ada.goesTo(`differ/${adasVisit}`);
    await ada.sees("No entries differ");
  },
);

chapter(
  "an entry is put right and another taken back, each with its reason; the first words stay readable",
  async () => {
    await ada.goesTo(pressureScreen(adasVisit));
    await ada.types("4", "2");
    await ada.confirmsAndLeaves("figure");
    await opensEntry(ada, adasVisit, "42");
    await ada.taps("Correct", ".keys .key");
    await ada.page.waitForSelector(".instead");
    await ada.types("4", ".", "2");
    await ada.confirms();
    await ada.sees("First say why");
    await ada.taps("OK", ".trouble button");
    await ada.page.fill(".instead input", "Slipped on the key");
    await ada.confirmsAndLeaves("figure");

    await ada.remarks(adasVisit, "wrong car, sorry");
    await opensEntry(ada, adasVisit, "wrong car, sorry");
    await ada.page.locator(".keys .key").first().tap();
    await givesReason(ada, "Meant for the next car");

    await ada.goesTo(`history/${adasVisit}`);
    await ada.page.waitForFunction(() => document.querySelectorAll("ol .struck").length === 2);
    const struck = await ada.page.locator("ol .struck").allTextContents();
    const isStruck = (words) => struck.some((line) => words.test(line));
    assert.ok(isStruck(/42 psi/) && isStruck(/wrong car/), struck.join(" | "));
  },
);

chapter("a step is skipped with a reason, and the car handed over and taken", async () => {
  await ben.goesTo(`step/${bensVisit}/`);
  const title = await ben.page.locator("h1").first().textContent();
  // The photograph is asked for at once; the step itself is behind it.
  await ben.page.locator('.foot .key:has-text("Other answer")').tap();
  await ben.page.locator('.key:has-text("Skip")').first().tap();
  await givesReason(ben, "No second person today");
  await ben.goesTo(`step/${bensVisit}/`);
  await ben.page.waitForFunction((was) => document.querySelector("h1")?.textContent !== was, title);

  await ben.goesTo(formScreen(bensVisit, "give"));
  await ben.taps("Ada", ".key");
  await ben.confirmsAndLeaves("form");
  await carries(ben, ada);
  await ada.goesTo(`more/${adasVisit}/`);
  await ada.page.locator(".lead.hot").first().tap();
  await ada.page.waitForFunction(() => location.hash.startsWith("#form"));
  await ada.confirmsAndLeaves("form");
  await carries(ada, ben);
  for (const phone of [ada, ben]) {
    const lines = await phone.history(adasVisit);
    assert.ok(
      lines.some((line) => /took over|taken|hand/i.test(line)),
      lines.join(" | "),
    );
  }
});

/** The command line adds the English text beside each message; a phone has the messages alone. */
const withoutTexts = (view) =>
  JSON.parse(JSON.stringify(view), (_, value) => {
    if (typeof value?.message === "string") delete value.text;
    return value;
  });

chapter("through the office both phones and the office fold the very same view", async () => {
  await office.opens();
  for (const phone of [ada, ben, ada, ben]) await phone.meetsOffice();
  const views = [withoutTexts(office.view(adasVisit)), await ada.view(adasVisit), await ben.view(adasVisit)];
  // What is rightly another on each device, by name: `brief.until` of a car that still stands is the moment
  // of looking.
  for (const view of views) view.brief.until = null;
  const [atOffice, onAdas, onBens] = views;
  // The guide to what is asked is for a phone's screens; the command line at the office has none of its own.
  assert.deepEqual(onAdas.guide, onBens.guide);
  for (const view of [onAdas, onBens]) delete view.guide;
  assert.equal(atOffice.unreceipted, 0, "everything has its receipt everywhere");
  assert.deepEqual(onAdas, atOffice);
  assert.deepEqual(onBens, atOffice);
  const bytes = JSON.stringify(atOffice).length;
  return `(${atOffice.entries} entries, ${bytes} bytes of view, nothing left out but the moment of looking)`;
});

chapter("the photograph is at the office once, whoever sent it", async () => {
  for (const phone of [ada, ben]) {
    await phone.returnsToApp("#only_here//");
    await phone.meetsOffice();
    await phone.seesNothingLeftHere();
  }
});
