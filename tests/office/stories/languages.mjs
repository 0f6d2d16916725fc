// Every page in every language, and in one that is made up: longer, accented and in brackets. In that one a
// text without brackets is one that no catalogue has; in Spanish and French English words are looked for.
import assert from "node:assert/strict";
import { chapter, measured } from "../../../bindings/phone/test/stage/story.mjs";
import { LAPTOP, givesPassword, opensPage } from "../stage/browser.mjs";
import { inspects, tellsWhatWasSeen } from "../stage/inspect.mjs";
import { pagesOf, pagesOfStranger } from "../stage/paths.mjs";
import { office, played, timeAtOffice } from "../stage/played.mjs";
import { SHOTS } from "../stage/programs.mjs";
import { CLERK, addsAccount } from "../stage/server.mjs";
import { clipped, english, textsOf, typedOn, untranslated } from "../stage/words.mjs";

const PSEUDO = "en-XA";
const LANGUAGES = [PSEUDO, "en-US", "es-MX", "fr-CA"];
/** A telephone's window, beside the laptop's. Every page is loaded once and looked at in both. */
const PHONE = { width: 390, height: 844 };
/** One account for each language, so that two languages can be read at a time. */
const readerOf = (language) => `Reader of ${language} (invented)`;

/**
 * What was typed beside the scenario: names of accounts and links, what the other stories wrote, and the name
 * that the certificate of the office's own signer bears.
 */
const TYPED = [
  ...LANGUAGES.map(readerOf),
  CLERK,
  "An inspector (invented)",
  "unused",
  // The first edition has its sentences in its own text; and codes of what was changed, as the audit log
  // keeps them.
  "Unloading a pressure tank car of liquefied petroleum gas",
  "procedures",
  "procedure-draft",
  "procedure",
  "papers.csv",
  "november (invented).csv",
  "winter (invented).csv",
  "phone-1",
  "phone-2",
  "phone-3",
  "phone-9",
  "Office desk",
  "Second (invented)",
  "zzqx30551",
  "frost ring low on the shell",
  "Read together once more; PG-11 stands low on its scale.",
  "written down after the phone was lost",
  "Lantern 1 (invented)",
  "wheel stops are built into the track (invented)",
  "Yard gate locked (invented)",
  "Lock the yard gate (invented).",
  "Nobody walks in (invented).",
  "The gate of the yard (invented)",
  "the gate was moved (invented)",
  // The procedure that the demonstration's organisation publishes.
  "Thimble 1 (invented)",
  "One person works there alone",
  "says that all is well, tells somebody before the first plug comes out, and holds the pressure",
  "for a set time (invented)",
  "Somebody knows (invented)",
  "Way out: by the ramp or by the gap in the fence (invented)",
];

/** What was typed on each page, as the made-up language shows it. */
const typed = new Map();
const wrong = [];

/** Looks at a page in both windows. The other stories look at the English pages with axe. */
async function looksAt(page, what, language) {
  const tag = await page.getAttribute("html", "lang");
  if (tag !== language) wrong.push(`${what}: is in ${tag} and not in ${language}`);
  await page.evaluate(opensFolded);
  for (const [window, size] of Object.entries({ laptop: LAPTOP.viewport, phone: PHONE })) {
    await page.setViewportSize(size);
    const name = `${language}-${window}`;
    const note = (said) => wrong.push(...said.map((text) => `${what} ${name}: ${text}`));
    const texts = await textsOf(page);
    if (language === PSEUDO) {
      note(untranslated(texts, TYPED));
      typed.set(what, [...(typed.get(what) ?? []), ...typedOn(texts)]);
    } else if (language !== "en-US") {
      note(english(texts, [...(typed.get(what) ?? []), ...TYPED]));
    }
    note(await clipped(page));
    const byAxe = window === "phone" && language !== "en-US";
    await inspects(page, what, name, { byAxe, pictured: byAxe }).catch((error) =>
      note([error.message.split("\n").slice(0, 12).join(" ")]),
    );
  }
}

/** Runs in the page: opens all that is folded away. */
function opensFolded() {
  for (const folded of document.querySelectorAll("details")) folded.open = true;
}

async function looksAtAll(language) {
  const { base } = played;
  const page = await opensPage(LAPTOP);
  await page.context().addCookies([{ name: "farsiding-language", value: language, url: base }]);
  for (const [what, path] of Object.entries(pagesOfStranger(played))) {
    await page.goto(base + path);
    await looksAt(page, what, language);
  }
  await page.goto(`${base}/office/sign-in`);
  await givesPassword(page, base, readerOf(language));
  await page.waitForURL(`${base}/office/`);
  await page.goto(`${base}/office/inquiry?q=K400107`);
  const whole = await page.getAttribute(".found a.num", "href");
  await page.goto(`${base}/office/devices`);
  const device = await page.getAttribute("#devices th a", "href");
  const more = { "whole-visit": whole, device, revoke: `${device}/revoke` };
  for (const [what, path] of Object.entries({ ...pagesOf(played), ...more })) {
    await page.goto(base + path);
    await looksAt(page, what, language);
  }
  await looksAtAnswers(page, language);
  await page.context().close();
}

/** Looks at pages that answer a form: refusals, and what is shown once. */
async function looksAtAnswers(page, language) {
  const { base } = played;
  const sends = async (what, path, fills) => {
    await page.goto(base + path);
    await page.evaluate(opensFolded);
    const answered = page.waitForEvent("load");
    await fills();
    await answered;
    await looksAt(page, what, language);
  };
  await sends("enrol", "/office/devices", async () => {
    await page.fill("#name", "unused");
    await page.click("form[action$=enrol] button.go");
  });
  await sends("bad-password", "/office/own", async () => {
    await page.fill("#set-up-password", "not the password at all");
    await page.click("form[action$=second-factor] button.go");
  });
  await sends("second-factor", "/office/own", async () => {
    await page.fill("#set-up-password", "invented words for a test");
    await page.click("form[action$=second-factor] button.go");
  });
  await sends("bad-file", "/office/papers", async () => {
    await page.fill("#text", "x");
    await page.click("form:has(#text) button");
  });
}

chapter("the scan sees a word that no catalogue has", async () => {
  const now = new Date(timeAtOffice()).toISOString();
  for (const language of LANGUAGES) addsAccount(office, readerOf(language), now, "--language", language);
  const page = await opensPage(LAPTOP);
  await page.context().addCookies([{ name: "farsiding-language", value: PSEUDO, url: played.base }]);
  await page.goto(`${played.base}/office/sign-in`);
  assert.deepEqual(untranslated(await textsOf(page), TYPED), []);
  const plants = (text) => page.evaluate((words) => document.querySelector("main").append(words), text);
  await plants("Take another look");
  assert.deepEqual(untranslated(await textsOf(page), TYPED), ["Take another look"]);
  assert.deepEqual(english(["Le carro with the seal"], []), ["Le carro with the seal"]);
  await page.evaluate(() => {
    const long = document.createElement("p");
    long.style.cssText = "width: 40px; overflow: hidden; white-space: nowrap";
    long.append("longer than its place");
    document.querySelector("main").append(long);
  });
  assert.deepEqual(await clipped(page), ["cut off: longer than its place"]);
  await page.context().close();
});
chapter("every page speaks the language of the account, whole and without a word of another", async () => {
  const begun = Date.now();
  // What the made-up language shows as typed is what the others leave out.
  await Promise.all([looksAtAll(PSEUDO), looksAtAll("en-US")]);
  await Promise.all([looksAtAll("es-MX"), looksAtAll("fr-CA")]);
  assert.ok(wrong.length === 0, `pictures are in ${SHOTS}\n${[...new Set(wrong)].join("\n")}`);
  tellsWhatWasSeen("pages in every language and a made-up one, on laptop and phone");
  measured(`pages in every language took ${Math.round((Date.now() - begun) / 1000)} s (aim < 120 s)`);
});
