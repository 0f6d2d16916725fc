// Messages become the text of the corpus that the Rust renderer is held to as well
// (`core/words/tests/corpus.rs`), and the phone's own words are filled in by the same rules.
import assert from "node:assert/strict";
import { readFileSync, readdirSync } from "node:fs";
import { test } from "node:test";
import { PSEUDO, Words } from "../src/words/render.ts";
import { sayIn } from "./speech.mjs";

const top = new URL("../../../core/words/locales/", import.meta.url);
const files = (language) =>
  readdirSync(new URL(`${language}/`, top)).map((name) =>
    readFileSync(new URL(`${language}/${name}`, top), "utf8"),
  );
const english = new Words("en-US", files("en-US"));
const others = readdirSync(top).filter((language) => language !== "en-US");
const all = [
  english,
  ...others.map((language) => new Words(language, files(language), english)),
  new Words(PSEUDO, files("en-US")),
];
const corpus = JSON.parse(
  readFileSync(new URL("../../../tests/golden/words/corpus.json", import.meta.url), "utf8"),
);

for (const words of all)
  test(`every message of the corpus is rendered as it stands there: ${words.language}`, () => {
    assert.ok(corpus.length > 20);
    for (const { name, message, text } of corpus)
      assert.equal(words.text(message), text[words.language], name);
  });

test("what a language has no words for is said in English, and else by its id", () => {
  const empty = new Words("fr-CA", [], english);
  assert.equal(empty.say("fitting-vapour"), "vapor valve");
  assert.ok(!empty.has("fitting-vapour") && english.has("fitting-vapour"));
  assert.equal(new Words("fr-CA", []).say("fitting-vapour"), "⟨fitting-vapour⟩");
});

test("what is filled into the phone's own words cannot act outside its place", () => {
  assert.equal(english.say("item-at", { item: "A\u202eda\u0000", fitting: "x" }), "Ada (x)");
  assert.equal(english.say("span-minutes", { minutes: 12500 }), "12500 min");
});

test("the phone says a message of the core in its language, and a text as it is", () => {
  const message = { message: "fitting-liquid_a" };
  assert.equal(sayIn("en-US").of(message), "liquid valve A");
  assert.equal(sayIn("es-MX").of(message), "válvula de líquido A");
  assert.equal(sayIn("es-MX").of("as \u202etyped"), "as typed");
  assert.equal(sayIn("es-MX").of(null), "");
});

test("a word of the trade begins a line with a capital letter, whatever stands before it", () => {
  assert.equal(english.capital("arrival notice"), "Arrival notice");
  assert.equal(english.capital("¿cuál?"), "¿Cuál?");
  assert.equal(english.capital("UN1075 gas"), "UN1075 gas");
  assert.equal(new Words(PSEUDO, files("en-US")).capital("[àà]"), "[Àà]");
});

test("the mark before decimals is the language's, and what is echoed has no thousands", () => {
  const marks = Object.fromEntries(all.map((words) => [words.language, words.decimalMark]));
  assert.deepEqual(marks, { "en-US": ".", "es-MX": ".", "fr-CA": ",", "en-XA": "." });
  assert.equal(english.number("32650"), "32,650");
  assert.equal(english.number("32650", false), "32650");
  assert.equal(new Words("fr-CA", []).number("32.65", false), "32,65");
});
