// The phone's own words: said in the chosen language, filled in, and never let out of their place by what was
// typed.
import assert from "node:assert/strict";
import { test } from "node:test";
import { clockWords } from "../src/field/clock.ts";
import { own } from "../src/own-text.ts";
import { hourAndMinute, pinWords } from "../src/pin-words.ts";
import { stopwatch } from "../src/stopwatch.ts";
import { LANGUAGES, sayIn } from "./speech.mjs";

const en = sayIn("en-US");
const es = sayIn("es-MX");
const fr = sayIn("fr-CA");
const MINUTE = 60_000;
const DAY = 24 * 60 * MINUTE;

test("a word is said in the language that is spoken, with what is filled in", () => {
  assert.equal(en("phone-cars-more", { n: 3 }), "3 more");
  assert.equal(es("phone-cars-more", { n: 3 }), "3 más");
  assert.equal(fr("phone-cars-more", { n: 3 }), "3 de plus");
});

test("one thing is one thing in every language", () => {
  assert.deepEqual(
    [0, 1, 2].map((n) => en("phone-photo-many", { n })),
    ["0 photos", "1 photo", "2 photos"],
  );
  assert.deepEqual(
    [0, 1, 2].map((n) => es("phone-photo-many", { n })),
    ["0 fotos", "1 foto", "2 fotos"],
  );
  // French has one of nothing.
  assert.deepEqual(
    [0, 1, 2].map((n) => fr("phone-photo-many", { n })),
    ["0 photo", "1 photo", "2 photos"],
  );
  assert.equal(en("phone-carry-made", { n: 1, photos: 2 }), "1 car, 2 photos in the file");
});

test("what is filled in cannot act outside its place", () => {
  assert.equal(en("phone-handover-from", { name: "A\u202eda\u0000\n{$n}" }), "From Ada\n{$n}");
});

test("a word is known by its whole name", () => {
  for (const lang of LANGUAGES) assert.ok(sayIn(lang).has("phone-nav-back"), lang);
  for (const none of ["phone", "phone-nav-", "toString", "__proto__"]) assert.ok(!en.has(none), none);
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
  assert.equal(clockWords(-130 * MINUTE, fr), "horloge en retard de 2 heures");
});

test("what came of a PIN says what can be done now", () => {
  assert.equal(pinWords(null, en), "");
  assert.equal(pinWords({ is: "right" }, en), "");
  assert.equal(pinWords({ is: "wrong", left: 4 }, en), "Wrong PIN. 4 tries left.");
  assert.match(pinWords({ is: "wrong", left: 1 }, en), /1 try left; then the key on this phone is deleted/);
  const until = new Date(2026, 10, 28, 7, 5).getTime();
  assert.equal(pinWords({ is: "waits", until }, en), en("phone-pin-waits", { at: "07:05" }));
  for (const is of ["locked", "ended", "weak"]) assert.equal(pinWords({ is }, es), es(`phone-pin-${is}`));
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
