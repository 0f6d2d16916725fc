// What a phone reminds of, and that it rings once.
import assert from "node:assert/strict";
import { test } from "node:test";

globalThis.document = { addEventListener() {}, visibilityState: "visible" };
const { Reminders, dueAt, looksAfter, remindersOf } = await import("../src/state/reminders.ts");

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const car = (more = {}) => ({
  header: { visits: ["v1"], car: "QZQX 204117" },
  release: { released: null },
  steps: { steps: [], next: [] },
  series: [],
  guide: { hold_minutes: 20 },
  attendance: { gaps: [] },
  ...more,
});
const read = (due, next = ["reading"]) =>
  car({ steps: { steps: [{ id: "reading", status: "recorded", due }], next } });
const hold = (...times) => {
  const points = times.map((claimed) => ({ said: { claimed } }));
  return car({ series: [{ purpose: "hold_test", measured: "pressure", points }] });
};

test("a reading is due when the core names its step again, and not before", () => {
  assert.deepEqual(dueAt(read(HOUR), 5 * HOUR), [`reading@${HOUR}`]);
  assert.deepEqual(dueAt(read(HOUR, ["another"]), 5 * HOUR), []);
  const open = car({ steps: { steps: [{ id: "reading", status: "open", due: null }], next: ["reading"] } });
  assert.deepEqual(dueAt(open, HOUR), [], "a step that was never done is no reminder");
});

test("a pressure hold is over after the minutes of the procedure, until it is read again", () => {
  assert.deepEqual(dueAt(hold(HOUR), HOUR + 19 * MINUTE), []);
  assert.deepEqual(dueAt(hold(HOUR), HOUR + 20 * MINUTE), [`hold@${HOUR}`]);
  assert.deepEqual(dueAt(hold(HOUR, 2 * HOUR), 3 * HOUR), []);
  assert.deepEqual(dueAt({ ...hold(HOUR), guide: {} }, 3 * HOUR), [], "the procedure sets none");
});

test("a connected car that nobody has reminds; one that somebody has, or said to leave, does not", () => {
  const gap = { from: HOUR, open: true, declared: false, said_away: false };
  const at = (more) => dueAt(car({ attendance: { gaps: [{ ...gap, ...more }] } }), 5 * HOUR);
  assert.deepEqual(at({}), [`watch@${HOUR}`]);
  assert.deepEqual(at({ open: false }), [], "it ended");
  assert.deepEqual(at({ declared: true }), [], "somebody has it");
  assert.deepEqual(at({ said_away: true }), [], "somebody left it, and said so");
});

test("a car that left reminds of nothing", () => {
  assert.deepEqual(dueAt({ ...read(HOUR), release: { released: {} } }, 5 * HOUR), []);
});

test("it rings once for each thing at each car, and again when that is due once more", (t) => {
  t.mock.timers.enable({ apis: ["setInterval"] });
  let rung = 0;
  const reminders = new Reminders({ looks: async () => {}, alerts: () => (rung += 1) });
  const other = { ...read(HOUR), header: { visits: ["v2"], car: "QZQX 204118" } };
  for (const views of [[read(HOUR)], [read(HOUR)], [], [read(HOUR)], [read(2 * HOUR)]])
    reminders.watches(views);
  assert.equal(rung, 2);
  reminders.watches([read(2 * HOUR), other]);
  assert.equal(rung, 3, "what is due at another car is another thing");
});

test("each car is named with what it reminds of, a missing word first", () => {
  const word = car({
    header: { visits: ["v2"], car: "QZQX 204118" },
    check_in: { last: HOUR },
    guide: { check_in: "overdue" },
  });
  assert.deepEqual(remindersOf([read(HOUR), car(), word], 5 * HOUR), [
    { visit: "v2", car: "QZQX 204118", what: "word" },
    { visit: "v1", car: "QZQX 204117", what: "reading" },
  ]);
  assert.equal(remindersOf([hold(HOUR)], 5 * HOUR)[0].what, "hold");
});

test("a car is looked after with the device that records there, until another one takes it over", () => {
  const by = (device, slot = "series/attendance") => ({ slot, said: { device } });
  const taken = by("theirs", "series/handover");
  assert.ok(looksAfter("mine", car({ history: [by("mine"), by("theirs")] })));
  assert.ok(!looksAfter("mine", car({ history: [by("theirs")] })));
  assert.ok(!looksAfter("mine", car({ history: [by("mine"), taken] })));
  assert.ok(looksAfter("mine", car({ history: [by("mine"), taken, by("mine")] })));
});
