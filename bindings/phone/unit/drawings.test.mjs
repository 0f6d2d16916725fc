// Scales, charts, threads, cut fittings and icons: what is drawn of a state, by the marks that say it.
import assert from "node:assert/strict";
import { test } from "node:test";
import { fittingSection } from "../src/look/fitting-section.ts";
import { gaugeScale, proofChart, threadsDrawing } from "../src/look/gauge-scale.ts";
import { icons } from "../src/look/icons.ts";

const count = (svg, what) => svg.split(what).length - 1;
const face = { min: 0, max: 100, step: 10, major: 5 };

test("a scale numbers its major marks alone", () => {
  const svg = gaugeScale(face);
  assert.equal(count(svg, 's-thin"'), 11);
  assert.deepEqual(
    [...svg.matchAll(/>(\d+)<\/text>/g)].map((m) => m[1]),
    ["0", "50", "100"],
  );
  assert.doesNotMatch(svg, /s-needle/, "without a value there is no needle");
});

test("the needle is as wide as the uncertainty, and a cross says that the value is off the scale", () => {
  const width = (plus_minus) => {
    const [, left, right] = /s-needle" d="M([\d.]+) 48.*L([\d.]+) 26V48z/.exec(
      gaugeScale({ ...face, value: 50, plus_minus }),
    );
    return right - left;
  };
  assert.ok(width(10) > 2 * width(1), `${width(10)} and ${width(1)}`);
  assert.doesNotMatch(gaugeScale({ ...face, value: 100 }), /s-hot"/);
  assert.match(gaugeScale({ ...face, value: 101 }), /s-hot"/);
});

test("a chart draws each point with its uncertainty, and the band of liquid with its word", () => {
  const state = { minutes: 60, min: 0, max: 60, step: 15, unit: "psi", minute_word: "min" };
  const points = [0, 20, 40].map((minute) => ({ minute, value: 40, plus_minus: 2 }));
  const svg = proofChart({ ...state, points, liquid_band: { low: 10, high: 20, word: "liquid" } });
  assert.equal(count(svg, "s-dot"), 3);
  assert.equal(count(svg, "s-curve"), 1 + 3, "one line through the points, one upright for each");
  assert.match(svg, />liquid<\/text>/);
  assert.match(svg, />60 min<\/text>/);
  assert.doesNotMatch(proofChart({ ...state, points }), /s-band/);
});

test("threads that are engaged are filled, half a turn by half, and one or less stands out", () => {
  assert.equal(count(threadsDrawing(0, 6), "s-line"), 6);
  assert.equal(count(threadsDrawing(0, 6), "s-solid"), 0);
  assert.equal(count(threadsDrawing(2.5, 6), "s-solid"), 3);
  assert.equal(count(threadsDrawing(1, 6), "s-hotfill"), 1);
});

const calm = { valve: "shut", closure: "tool_tight", line_connected: false, hiss: false };

test("a shut valve with a tight plug is drawn without anything hot", () => {
  assert.doesNotMatch(fittingSection(calm), /s-hot|s-hollow|s-dash|s-needle|s-flow/);
});

test("each state of a fitting is drawn by its own marks", () => {
  const marks = (state) => [...new Set(fittingSection({ ...calm, ...state }).match(/s-[a-z]+/g))];
  assert.ok(marks({ valve: "open" }).includes("s-flow"));
  assert.ok(marks({ valve: "unknown" }).includes("s-dash"));
  assert.ok(marks({ closure: "hand_tight" }).includes("s-hollow"));
  assert.ok(marks({ closure: "open" }).includes("s-hot"));
  assert.ok(marks({ closure: "unknown" }).includes("s-dash"));
  assert.ok(marks({ hiss: true }).includes("s-hot"));
  assert.ok(marks({ point: "valve" }).includes("s-needle"));
});

test("a hose hides the plug, and a narrow drawing has less of it", () => {
  const hose = fittingSection({ ...calm, closure: "open", line_connected: true });
  assert.doesNotMatch(hose, /s-hot/);
  const narrow = fittingSection({ ...calm, line_connected: true, narrow: true });
  assert.ok(count(narrow, "s-thin") < count(hose, "s-thin"));
});

test("every drawing is hidden from what reads the page aloud, since words stand beside it", () => {
  const drawings = [gaugeScale(face), threadsDrawing(3, 6), fittingSection(calm), ...Object.values(icons)];
  for (const svg of drawings) assert.match(svg, /^<svg [^>]*aria-hidden="true"/);
});
