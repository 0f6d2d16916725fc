// What the phone signs is the same in every language: each form, key and figure is filled alike in all of
// them, and in one that is none, whose words would show. Needs no browser and no core: TypeScript is bundled
// and run here, and the calls are answered by hand.
import assert from "node:assert/strict";
import { mkdtempSync, readFileSync, readdirSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "node:test";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build } from "vite";

const out = mkdtempSync(join(tmpdir(), "languages-"));
const modules = ["ask", "amount", "codes", "figure", "forms", "statements", "strings", "render"];
const source = (name) =>
  fileURLToPath(new URL(`../src/${name === "render" ? "words/render" : name}.ts`, import.meta.url));
await build({
  configFile: false,
  logLevel: "error",
  build: {
    outDir: out,
    minify: false,
    lib: {
      entry: Object.fromEntries(modules.map((name) => [name, source(name)])),
      formats: ["es"],
      fileName: (_, name) => `${name}.mjs`,
    },
  },
});
const load = (name) => import(pathToFileURL(join(out, `${name}.mjs`)).href);
const { doorOf, keysOf, titleOf } = await load("ask");
const { checkShown, itemShown, toldShown } = await load("codes");
const { figureOf } = await load("figure");
const { formFor } = await load("forms");
const { defectSays, sealSays } = await load("statements");
const { speaker } = await load("strings");
const { Words } = await load("render");

const locales = new URL("../../../core/words/locales/", import.meta.url);
const words = Object.fromEntries(
  readdirSync(locales).map((lang) => {
    const files = readdirSync(new URL(`${lang}/`, locales)).map((name) =>
      readFileSync(new URL(`${lang}/${name}`, locales), "utf8"),
    );
    return [lang, new Words(lang, files)];
  }),
);
const LANGUAGES = Object.keys(words);
const mark = (id) => `§${id}§`;
/** The real languages, and one whose every word can be told from a code. */
const speakers = {
  ...Object.fromEntries(LANGUAGES.map((lang) => [lang, speaker(words[lang])])),
  none: Object.assign(mark, {
    capital: mark,
    has: () => true,
    number: (text) => text,
    plain: (text) => text,
    decimalMark: ".",
    of: (message) => mark(message?.message ?? message),
  }),
};

const said = { entry: "e1", name: "Ada", shown: "2026-11-28 09:00 -06" };
const view = {
  header: {
    car: "ZZQX 1",
    opened: { value: { car: "ZZQX 1", site: "s", receiver: "truck", procedure: "p", spot: "1" }, said },
    visits: ["v"],
  },
  history: [{ said, sentence: "A sentence of the core.", slot: "series/remark" }],
  steps: { steps: [{ id: "step_1", title: "A step" }] },
  holds: [{ id: "hold_1", because: "because" }],
  defects: [{ id: "defect_1", what: "what" }],
  blockers: [{ code: "blocker_1", missing: "missing" }],
  disagreements: [{ slot: "slot", entries: ["e1"], claims: [{ said, sentence: "claim" }] }],
  offers: [{ other: "v2", sentence: "offer" }],
  car: { fittings: null },
  fittings: [],
  protections: [],
  empty: { signs: [] },
  tally: { out: [], back: [] },
};
/** Each form with what it is about. */
const FORMS = [
  ["paper", ""],
  ...["notice", "constructive_placement", "actual_placement", "carrier_told", "pulled"].map((event) => [
    "clock",
    event,
  ]),
  ["weather", ""],
  ["car_number_again", ""],
  ["car_fittings", ""],
  ...["tank_qualification", "relief_device", "service_equipment"].map((which) => ["car_test_date", which]),
  ["empty_decision", ""],
  ["check_wrong", "odorant"],
  ["remark", ""],
  ["hold", ""],
  ["lift", "hold_1"],
  ["give", ""],
  ["take", "ben"],
  ["forwarded", "defect_1"],
  ["authority", "defect_1"],
  ["resolved", "defect_1"],
  ["opened_again", ""],
  ["skip", "step_1"],
  ["not_right", "step_1"],
  ["withdraw", "e1"],
  ["pass", "blocker_1"],
  ["keep", "e1"],
  ["join", "v2"],
  ["not_join", "v2"],
];
const amount = (text, unit) => ({ text, unit, value: 12.5 });
/** Whatever a form hands on, in order; random ids are no words. */
function deskThat(hears) {
  const record = async (...what) => {
    hears.push(what);
    return true;
  };
  const call =
    (name) =>
    async (...what) => {
      hears.push([name, ...what]);
      return ["id"];
    };
  return {
    view,
    settings: { operator: "ada", volume: "gal", lang: "" },
    people: [{ operator: "ben", name: "Ben", active: true }],
    site: () => ({ hoses: [{ name: "Hose 2" }], tanks: [{ name: "Tank 1" }] }),
    record,
    say: (visit, ...says) => record(visit, says),
    decide: async (_, act) => {
      await act();
      return true;
    },
    calls: { withdraw: call("withdraw"), passOver: call("passOver"), settle: call("settle") },
  };
}
/** Every way to fill a form: each choice of each field once, the others at their first. */
function fillings(form) {
  const typed = (field) =>
    field.kind === "time" ? "2026-11-28T09:00" : field.kind === "amount" ? "12.5" : "typed by hand";
  const first = Object.fromEntries(
    form.fields.map((field) => [field.key, "choices" in field ? field.choices[0].value : typed(field)]),
  );
  return [
    first,
    ...form.fields
      .filter((field) => "choices" in field)
      .flatMap((field) => field.choices.map(({ value }) => ({ ...first, [field.key]: value }))),
  ];
}
const plain = (heard) => JSON.stringify(heard).replace(/"hold":"[0-9a-f]{32}"/g, '"hold":"id"');
function sameInAll(what, make) {
  const all = Object.entries(make);
  for (const [lang, made] of all) {
    assert.equal(made, all[0][1], `${what} says other things in ${lang} than in ${all[0][0]}`);
    assert.doesNotMatch(made, /§/, `${what} signs a word of the language`);
  }
}

test("the forms make the same statements in every language", async () => {
  let statements = 0;
  for (const [kind, about] of FORMS) {
    const made = {};
    for (const [lang, say] of Object.entries(speakers)) {
      const heard = [];
      const form = formFor(kind, about, deskThat(heard), "v", say);
      assert.ok(form, kind);
      for (const values of fillings(form))
        await form.send(
          values,
          Object.fromEntries(
            form.fields
              .filter((f) => f.kind === "amount")
              .map((f) => [f.key, amount(values[f.key], f.unit(values))]),
          ),
        );
      statements += heard.length;
      made[lang] = plain(heard);
    }
    sameInAll(`the form ${kind}`, made);
  }
  assert.ok(statements > 200, `${statements} statements`);
});

const FITTINGS = [
  "liquid_a",
  "liquid_b",
  "vapour",
  "vapour_two",
  "gauging_device",
  "thermometer_well",
  "sample_line",
  "relief_device",
];
const ASKS = [
  ...["valve", "closure", "listen", "line", "effort", "threads"].flatMap((statement) =>
    FITTINGS.map((fitting) => ({ statement, fitting, part: "valve" })),
  ),
  ...["blue_sign", "hand_brake", "chocks", "track_secured", "emergency_shut_off", "gas_detector"].map(
    (what) => ({ statement: "protection", what }),
  ),
  ...["rod_at_bottom", "vapour_at_liquid_valve", "liquid_at_closure", "frost_ring"].map((sign) => ({
    statement: "empty_sign",
    sign,
  })),
  { statement: "attendance" },
  { statement: "check", what: "odorant" },
  { statement: "item_out", item: "adapter liquid a", fitting: "liquid_a" },
  { statement: "item_in", item: "adapter liquid a" },
  ...["pressure", "temperature", "outage", "level", "relative_density", "volume", "rate"].map((measured) => ({
    statement: "reading",
    measured,
    place: "car",
    purpose: "arrival",
  })),
  { statement: "car_capacity" },
  { statement: "car_diameter" },
];
test("keys and figures make the same statements in every language", () => {
  for (const ask of ASKS) {
    const made = {};
    for (const [lang, say] of Object.entries(speakers)) {
      const keys = keysOf(ask, view, say).map((key) => key.says);
      const figure = figureOf(ask, undefined, { pressure: "psi" }, say);
      assert.ok(keys.length > 0 || figure, `${ask.statement} is answered`);
      made[lang] = JSON.stringify([
        keys,
        figure?.units,
        figure?.build(amount("12.5", figure.units[0]), "Gauge 7", "T-1"),
        doorOf(ask),
      ]);
    }
    sameInAll(ask.statement, made);
  }
});

/** Codes that are words of Spanish as well. */
const CODES = new Set(["cable"]);

test("seals and defects make the same statements in every language", () => {
  const photo = JSON.stringify({ sha256: "ab".repeat(32), length: 3, media: "image/jpeg" });
  const seals = [
    { event: "found", place: "housing_pin", number: "", again: "" },
    { event: "applied", place: "elsewhere", number: "z 1", again: "Z 1", kind: "cable", photo },
    { event: "removed", place: "housing_lug", number: "z1", again: "z1", intact: "no" },
  ];
  const made = [
    ...seals.flatMap(sealSays),
    ...defectSays({ what: "bent", told: "the carrier", approval: "yes", photo }, "liquid_a", "00".repeat(16)),
  ];
  // Codes are English words of the trade; none begins with a capital letter or holds a blank.
  const said = new Set(
    LANGUAGES.flatMap((lang) =>
      readdirSync(new URL(`${lang}/`, locales))
        .flatMap((name) => [
          ...readFileSync(new URL(`${lang}/${name}`, locales), "utf8").matchAll(/^[a-z][\w-]* = (.+)$/gm),
        ])
        .map(([, text]) => text)
        .filter((text) => lang !== "en-US" || /[A-Z ]/.test(text)),
    ),
  );
  assert.ok(said.size > 1000, `${said.size} texts`);
  const texts = (value) =>
    typeof value === "string"
      ? [value]
      : value && typeof value === "object"
        ? Object.values(value).flatMap(texts)
        : [];
  for (const text of texts(made))
    assert.ok(!said.has(text) || CODES.has(text), `"${text}" is a word of a language`);
  assert.equal(made[0].seal.note, "no_seal_found");
  assert.equal(made.at(-1).forwarded.how, "voice");
});

test("codes are shown in the phone's language and what was typed as it was typed", () => {
  const [en, es, fr] = ["en-US", "es-MX", "fr-CA"].map((lang) => speakers[lang]);
  assert.equal(toldShown("voice", en), "by phone or in person");
  assert.equal(toldShown("voice", es), words["es-MX"].say("told-voice"));
  for (const say of [en, es, fr]) assert.equal(toldShown("Por radio", say), "Por radio");
  assert.equal(checkShown("odorant", fr), "Odorisant");
  assert.equal(checkShown("hoses: service and test date", en), "Hoses: service and test date");
  assert.equal(checkShown("something of ours", es), "something of ours");
  assert.equal(itemShown("adapter liquid a", es), "Adaptador (válvula de líquido A)");
  assert.equal(itemShown("a wrench", es), "a wrench");
  assert.equal(titleOf({ statement: "check", what: "placards in place" }, fr), "Plaques en place");
});

test("an amount is the core's reading of what was typed, and two readings are asked back", async () => {
  const { readAmount } = await load("amount");
  const asked = [];
  const reading = (text, value, shown) => ({
    amount: JSON.stringify({ text, unit: "gal", value }),
    value,
    unit: "gal",
    shown,
  });
  const answers = {
    "32,650": {
      readings: [reading("32,650", 32.65, "32.65 gal"), reading("32,650", 32650, "32650 gal")],
      refused: "two_readings",
      why: "",
    },
    "32 650": { readings: [reading("32 650", 32650, "32650 gal")], refused: "", why: "" },
    full: { readings: [], refused: "not_a_number", why: "" },
  };
  const calls = {
    readAmount: async (...what) => {
      asked.push(what);
      return answers[what[0]];
    },
  };
  const two = await readAmount(calls, "32,650", "gal");
  assert.deepEqual(
    [two.amount, two.choices.map((c) => c.value), two.refused],
    [null, [32.65, 32650], "phone-amount-two_readings"],
  );
  assert.deepEqual((await readAmount(calls, "32,650", "gal", "32650")).amount, {
    text: "32,650",
    unit: "gal",
    value: 32650,
  });
  assert.equal((await readAmount(calls, "32 650", "gal")).amount.value, 32650);
  assert.equal((await readAmount(calls, "full", "gal")).refused, "phone-amount-not_a_number");
  assert.deepEqual(asked[0], ["32,650", "gal", undefined], "without a keypad no mark is presumed");
  await readAmount(calls, "32 650", "gal", "", ",");
  assert.deepEqual(asked.at(-1), ["32 650", "gal", ","]);
});
