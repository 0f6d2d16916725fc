// The phone's own words: said in the chosen language, filled in, and never let out of their place by what was
// typed.
import assert from "node:assert/strict";
import { test } from "node:test";
import { clockWords } from "../src/field/clock.ts";
import { own } from "../src/own-text.ts";
import { hourAndMinute, pinWords } from "../src/pin-words.ts";
import { stopwatch } from "../src/stopwatch.ts";
import { has, languages, speaker } from "../src/strings.ts";

const en = speaker("en");
const es = speaker("es");
const MINUTE = 60_000;
const DAY = 24 * 60 * MINUTE;

test("a word is said in the phone's language, with what is filled in", () => {
  assert.equal(en("cars.more", { n: 3 }), "3 more");
  assert.equal(es("cars.more", { n: 3 }), "3 más");
  assert.equal(en("cars.more"), "{n} more", "what nobody filled in is seen");
});

test("what is filled in cannot act outside its place", () => {
  assert.equal(en("handover.from", { name: "A\u202eda\u0000\n{n}" }), "From Ada {n}");
});

test("every language fills in the same", () => {
  const holes = (text) => [...text.matchAll(/\{(\w+)\}/g)].map((m) => m[1]).sort();
  for (const key of Object.keys(languages.en))
    for (const [lang, table] of Object.entries(languages))
      assert.deepEqual(holes(table[key]), holes(languages.en[key]), `${key} in ${lang}`);
});

test("a word is known by its whole name", () => {
  assert.ok(has("nav.back"));
  for (const none of ["nav", "nav.", "toString", "__proto__"]) assert.ok(!has(none), none);
});

test("marks that act outside a text are taken out, and letters of any script stay", () => {
  assert.equal(own("A\u202e.fdp\u202c\u0000 b\r\nc\u2028d"), "A.fdp b c d");
  assert.equal(own("\u2066x\u2069\u200f\u061c\u{e0041}y"), "xy");
  assert.equal(own("Ana María 車 دانا 👷🏽"), "Ana María 車 دانا 👷🏽");
});

test("a clock is off from half a minute on, and in the largest unit that says enough", () => {
  assert.equal(clockWords(null, en), "");
  assert.equal(clockWords(29_000, en), "");
  assert.equal(clockWords(3 * MINUTE, en), "clock 3 min fast");
  assert.equal(clockWords(-119 * MINUTE, en), "clock 119 min slow");
  assert.equal(clockWords(120 * MINUTE, en), "clock 2 hours fast");
  assert.equal(clockWords(-3 * DAY, en), "clock 3 days slow");
  assert.equal(clockWords(3 * 365.25 * DAY, es), "reloj adelantado 3 años");
});

test("what came of a PIN says what can be done now", () => {
  assert.equal(pinWords(null, en), "");
  assert.equal(pinWords({ is: "right" }, en), "");
  assert.equal(pinWords({ is: "wrong", left: 4 }, en), "Wrong PIN. 4 tries left.");
  assert.equal(pinWords({ is: "wrong", left: 1 }, en), en("pin.wrong_one"));
  const until = new Date(2026, 10, 28, 7, 5).getTime();
  assert.equal(pinWords({ is: "waits", until }, en), en("pin.waits", { at: "07:05" }));
  for (const is of ["locked", "ended", "weak"]) assert.equal(pinWords({ is }, es), es(`pin.${is}`));
  assert.equal(pinWords({ is: "failed", why: "no room" }, en), "no room");
});

test("an hour is two figures and two figures", () => {
  assert.equal(hourAndMinute(new Date(2026, 0, 2, 0, 0).getTime()), "00:00");
  assert.equal(hourAndMinute(new Date(2026, 0, 2, 23, 9).getTime()), "23:09");
});

test("a stopwatch shows hours once there are any, and never less than nothing", () => {
  const second = 1000;
  assert.deepEqual([-5 * second, 0, 59 * second, 61 * second].map(stopwatch), [
    "0:00",
    "0:00",
    "0:59",
    "1:01",
  ]);
  assert.deepEqual([3599 * second, 3600 * second, 36_061_999].map(stopwatch), [
    "59:59",
    "1:00:00",
    "10:01:01",
  ]);
});
