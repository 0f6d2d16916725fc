// Axes and points: few, round, and the same whatever numbers a record holds.
import assert from "node:assert/strict";
import { test } from "node:test";
import { MOST_POINTS, clamped, drawable, frameOf, marksOf, roundStep } from "../src/look/axis.ts";

const at = (minute, value = 40) => ({ minute, value, plus_minus: 1 });

test("a number outside is drawn at the nearest end, and what is no number at the lower end", () => {
  assert.deepEqual(
    [-5, 3, 99, NaN, Infinity].map((v) => clamped(v, 0, 10)),
    [0, 3, 10, 0, 10],
  );
});

test("marks have both ends among them", () => {
  assert.deepEqual(marksOf(0, 60, 15), [0, 15, 30, 45, 60]);
  assert.deepEqual(marksOf(-10, 10, 10), [-10, 0, 10]);
});

test("what is no scale has no marks", () => {
  for (const [min, max, step] of [
    [0, 60, 0],
    [0, 60, -1],
    [60, 0, 1],
    [0, 1e15, 1e14],
    [0, 1, 0.001],
    [NaN, 1, 1],
  ])
    assert.deepEqual(marksOf(min, max, step), [], `${min} to ${max} by ${step}`);
  assert.equal(marksOf(0, 60, 1, 64).length, 61, "more marks where the caller has room for them");
});

test("steps are 1, 2 or 5 of their power of ten, and never less than asked", () => {
  assert.deepEqual([0.3, 1, 1.2, 3, 7, 40, 1200].map(roundStep), [0.5, 1, 2, 5, 10, 50, 2000]);
  assert.deepEqual([0, -1, NaN, Infinity].map(roundStep), [1, 1, 1, 1]);
});

test("a chart begins at its first point and ends on a round step above the highest", () => {
  const frame = frameOf([at(10, 38), at(42, 41)]);
  assert.deepEqual([frame.first, frame.minutes, frame.minute_step, frame.top], [10, 40, 10, 60]);
  assert.deepEqual(
    frame.points.map((p) => p.minute),
    [0, 32],
  );
});

test("a chart of nothing is still a chart", () => {
  const frame = frameOf([]);
  assert.deepEqual([frame.points.length, frame.minutes, frame.top], [0, 10, 20]);
});

test("points without a number are left out, and so is a clock that was never set", () => {
  assert.deepEqual(drawable([at(0), at(NaN), at(3, Infinity), at(-30_000_000), at(5)]), [at(0), at(5)]);
});

test("of very many points the first, the last and the extremes stay", () => {
  const many = Array.from({ length: 10_000 }, (_, n) => at(n / 60, n % 7));
  many[5_000].value = 99;
  many[7_000].value = -99;
  const kept = drawable(many);
  assert.ok(kept.length <= MOST_POINTS, `${kept.length} points`);
  for (const one of [many[0], many[5_000], many[7_000], many.at(-1)]) assert.ok(kept.includes(one));
});
