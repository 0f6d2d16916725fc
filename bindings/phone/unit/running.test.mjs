// When a transfer is shown as one that goes on, and when what comes after it is.
import assert from "node:assert/strict";
import { test } from "node:test";

const { minutesTo, runningAt } = await import("../src/running.ts");

const stages = ["connect", "transfer", "recover", "prove_empty"].map((stage) => ({ stage }));
const read = { id: "transfer_readings", stage: "transfer", status: "recorded", due: 5_000_000 };
const level = { ...read, id: "tank_level", due: 4_000_000 };
const closed = { id: "liquid_closed", stage: "recover", status: "open", due: null };
const at = (steps, next) => runningAt({ steps: { steps, stages, next } });

test("between two readings the transfer goes on, and what ends it comes only by name", () => {
  const running = at([read, level, closed], ["liquid_closed"]);
  assert.equal(running.due, 4_000_000, "the first that is due");
  assert.deepEqual(
    running.steps.map(({ id }) => id),
    ["transfer_readings", "tank_level"],
  );
  assert.equal(running.next, "liquid_closed");
});

test("what is due, what holds the job, and what comes after a transfer are shown themselves", () => {
  assert.equal(at([read, closed], ["transfer_readings", "liquid_closed"]), undefined, "due");
  assert.equal(at([read, { ...closed, status: "held" }], ["liquid_closed"]), undefined, "held");
  assert.equal(at([{ ...read, due: null }, closed], ["liquid_closed"]), undefined, "over");
  assert.equal(at([read, closed], []), undefined, "nothing is next");
});

test("minutes are whole, and never none", () => {
  assert.equal(minutesTo(61_000, 0), 2);
  assert.equal(minutesTo(60_000, 0), 1);
  assert.equal(minutesTo(0, 60_000), 1);
});
