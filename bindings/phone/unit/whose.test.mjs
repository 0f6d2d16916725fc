// Which language is spoken: the person's, else the phone's, else the browser's, else English.
import assert from "node:assert/strict";
import { test } from "node:test";
import { languageOf } from "../src/words/kept.ts";

globalThis.__WORD_FILES__ = {
  "en-US": "words/en-US-0.ftl",
  "es-MX": "words/es-MX-1.ftl",
  "fr-CA": "words/fr-CA-2.ftl",
};
const { choosing, languageFor } = await import("../src/words/whose.ts");
const { nameOf } = await import("../src/words/catalogue.ts");

const nobody = { lang: "", languages: {}, operator: "" };

test("until somebody chooses, the browser's list decides, by main language where there is no other", () => {
  assert.equal(languageFor(nobody, ["fr-CA", "en"]), "fr-CA");
  assert.equal(languageFor(nobody, ["de", "es-ES", "en"]), "es-MX");
  assert.equal(languageFor(nobody, ["de"]), "en-US");
  assert.equal(languageFor(nobody, []), "en-US");
});

test("the phone's language goes before the browser's, and the person's before the phone's", () => {
  const phone = { ...nobody, ...choosing("es-MX", nobody) };
  assert.equal(languageFor(phone, ["fr-CA"]), "es-MX");
  const ben = { ...phone, operator: "ben" };
  assert.equal(languageFor(ben, ["en-US"]), "es-MX", "who chose nothing has the phone's");
  const chosen = { ...ben, ...choosing("fr-CA", ben) };
  assert.equal(languageFor(chosen, ["en-US"]), "fr-CA");
  assert.equal(languageFor({ ...chosen, operator: "ada" }, ["en-US"]), "es-MX", "what Ben chose is Ben's");
});

test("what a version of before kept is still understood", () => {
  assert.equal(languageFor({ ...nobody, lang: "es" }, ["en-US"]), "es-MX");
  assert.equal(languageFor({ ...nobody, lang: "en" }, ["fr-CA"]), "en-US");
});

test("a language is called as it calls itself, and a file of words is known by its address", () => {
  assert.match(nameOf("fr-CA"), /^Fran\u00e7ais/);
  assert.match(nameOf("es-MX"), /^Espa\u00f1ol/);
  assert.equal(languageOf("https://office.test/app/words/fr-CA-0123abcd.ftl"), "fr-CA");
  assert.equal(languageOf("https://office.test/app/core/book-worker.js"), "");
});
