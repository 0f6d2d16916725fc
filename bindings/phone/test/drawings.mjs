// The phone's drawings, with whatever numbers and times a record may hold: few marks, few bytes, at once.
// Needs no browser: the modules are pure, and TypeScript is taken out of them here.
import assert from "node:assert/strict";
import { mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "node:test";
import { pathToFileURL } from "node:url";
import ts from "typescript";

const folder = mkdtempSync(join(tmpdir(), "drawings-"));
for (const name of ["look/axis", "look/gauge-scale", "look/housing-plan", "own-text"]) {
  const source = readFileSync(new URL(`../src/${name}.ts`, import.meta.url), "utf8");
  const options = { module: ts.ModuleKind.ESNext, target: ts.ScriptTarget.ES2022 };
  const plain = ts.transpileModule(source, { compilerOptions: options }).outputText;
  const file = join(folder, `${name.split("/").pop()}.mjs`);
  writeFileSync(file, plain.replace(/from "\.\/([\w-]+)"/g, 'from "./$1.mjs"'));
}
const load = (name) => import(pathToFileURL(join(folder, `${name}.mjs`)).href);
const { drawable, frameOf, marksOf, MOST_POINTS } = await load("axis");
const { gaugeScale, proofChart, threadsDrawing } = await load("gauge-scale");
const { housingPlan, targetsOf } = await load("housing-plan");
const { own } = await load("own-text");

const LONGEST_MS = 10;
// From one seed, so that what fails once fails again.
let seed = 4417;
const dice = () => (seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0) / 2 ** 32;
const most = Number.MAX_VALUE;
const odd = [0, -0, 1, -1, 1e17, -1e17, most, -most, 5e-324, 1e-20, NaN, Infinity, -Infinity];
const any = () => (dice() - 0.5) * 10 ** Math.floor(dice() * 40 - 15);
const number = () => (dice() < 0.3 ? odd[Math.floor(dice() * odd.length)] : any());
const dated = () => ({ minute: number(), value: number(), plus_minus: number() });

/**
 * Draws; fails when it took long, grew large or wrote what is no number. Of some times the shortest counts.
 */
function drawn(draw, most) {
  let svg = "";
  let took = Infinity;
  for (let round = 0; round < 20 && took > LONGEST_MS; round++) {
    const began = performance.now();
    svg = draw();
    took = Math.min(took, performance.now() - began);
  }
  assert.ok(took < LONGEST_MS, `${took} ms`);
  assert.ok(svg.length < most, `${svg.length} bytes`);
  assert.ok(!/NaN|Infinity/.test(svg), svg.slice(0, 400));
}

function chart(points) {
  const f = frameOf(points);
  return proofChart({ ...f, min: 0, max: f.top, step: f.top / 4, unit: "psi", minute_word: "min" });
}

test("a reading dated 1970 stretches nothing", () => {
  const today = 29_900_000;
  const at = (minute, value) => ({ minute, value, plus_minus: 1 });
  const f = frameOf([at(-today, 40), at(0, 40), at(30, 41), at(55, 42)]);
  assert.deepEqual([f.points.length, f.first, f.minutes, f.top], [3, 0, 60, 60]);
  assert.ok(chart([at(-today, 40), at(0, 40), at(30, 41)]).length < 4_000);
});

test("an ordinary proof is drawn in tens of minutes and twenties of pressure", () => {
  const f = frameOf([
    { minute: 0, value: 38, plus_minus: 1 },
    { minute: 32, value: 41, plus_minus: 1 },
  ]);
  assert.deepEqual([f.minutes, f.minute_step, f.top, f.first], [40, 10, 60, 0]);
});

test("any points are drawn at once and small", () => {
  for (let round = 0; round < 400; round++) {
    const points = Array.from({ length: Math.floor(dice() * 1500) }, dated);
    drawn(() => chart(points), 120_000);
    const frame = { minutes: number(), minute_step: number(), min: number(), max: number(), step: number() };
    drawn(() => proofChart({ ...frame, points, unit: "psi", minute_word: "min" }), 120_000);
  }
});

test("any span of a gauge is drawn at once and small", () => {
  for (let round = 0; round < 2_000; round++) {
    const face = { min: number(), max: number(), step: number(), major: 5 };
    drawn(() => gaugeScale({ ...face, value: number(), plus_minus: number() }), 20_000);
  }
  assert.equal(gaugeScale({ min: 0, max: 400, step: 10, major: 5 }).match(/<text/g).length, 9);
  assert.equal(gaugeScale({ min: 0, max: 1e-20, step: 1e-30, major: 5 }), "");
});

test("the core's plan is stroked with its words, and no word makes a mark", () => {
  const text = (id, narrow) => ({ at: [1, 2], anchor: "start", words: [{ says: id, pen: "state" }], narrow });
  const target = { at: [0, 0], radius: 2, chosen: "M0 0" };
  const fitting = {
    fitting: "vapour",
    at: [0, -8.8],
    turned: -90,
    shapes: [{ pen: "solid", path: "M0 0H1" }],
    chosen: "M1 1",
    next: "M2 2",
    words: [text("<b>", false), text("Relief valve", true)],
    target,
  };
  const plan = { bounds: [-1, -1, 2, 2], ground: [], fittings: [fitting], words: [], cover: target };
  const svg = housingPlan(plan, (says) => says, { selected: "vapour", next: "vapour" });
  assert.deepEqual(svg.match(/p-(solid|select|needle)/g), ["p-select", "p-solid", "p-needle"]);
  assert.ok(svg.includes("&lt;b&gt;") && !svg.includes("<b>"), svg);
  assert.deepEqual(svg.match(/>(Relief|valve)</g), [">Relief<", ">valve<"]);
  assert.ok(!/p-(select|needle)/.test(housingPlan(plan, String, { selected: "", next: "" })));
  assert.deepEqual(
    targetsOf(plan).map(({ id }) => id),
    ["vapour", "cover"],
  );
});

test("sixty-five thousand turns are not drawn", () => {
  for (const engaged of odd) drawn(() => threadsDrawing(engaged, 65_535), 20_000);
});

test("of very many points the extremes are kept", () => {
  const points = Array.from({ length: 50_000 }, (_, n) => ({ minute: n / 10, value: n % 10, plus_minus: 0 }));
  points[33_333].value = 99;
  points[44_444].value = -99;
  const kept = drawable(points);
  assert.ok(kept.length <= MOST_POINTS);
  for (const extreme of [99, -99]) assert.ok(kept.some((p) => p.value === extreme));
  assert.deepEqual(marksOf(0, 60, 20), [0, 20, 40, 60]);
});

test("no mark in a text acts outside it", () => {
  assert.equal(own("A\u202e.fdp\u202c\u0000 b\nc"), "A.fdp b c");
  assert.equal(own("Ana María 車 دانا"), "Ana María 車 دانا");
});
