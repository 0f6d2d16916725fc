// INVENTED data for pictures and tests: a demo site, people and cars that exist nowhere. Made by real calls of the core, whatever
// carries them (`call(name, ...args)`), so that what screens show is what the core says of it.
export const SITE = "5".repeat(32), ROSTER = "7".repeat(32);
const amount = (value, unit) => ({ text: String(value), unit, value });
const d = (...says) => JSON.stringify(says.map((s) => ({ says: s })));

/** The site, its instruments, contacts and people. */
export async function seedSite(call) {
  await call("append", `site:${SITE}`, d(
    { site: { name: "Demo siding", zone: "Etc/GMT+6", elevation: amount(900, "ft"), attendance_gap_minutes: 30, local_rules: "Demo rule: radio on channel 4." } },
    { instrument: { name: "Gauge 7", measures: "pressure", span: amount(30, "psi"), grade: "2A", calibration_due: "2027-03-01" } },
    { instrument: { name: "Gauge 2", measures: "pressure", span: amount(300, "psi"), grade: "B", calibration_due: "2026-10-01" } },
    { instrument: { name: "Thermometer 1", measures: "temperature", span: amount(160, "°F"), calibration_due: "2027-01-15" } },
    { contact: { role: "emergency", name: "Fire and rescue", telephone: "911", note: "Panel button: left of the gate, red cover" } },
    { contact: { role: "office", name: "Demo terminal, duty", telephone: "555-0142", note: "Liquid line valve: foot of the tower, yellow wheel" } },
    { contact: { role: "carrier", name: "Demo carrier, dispatch", telephone: "555-0177" } }), "office");
  await call("append", `roster:${ROSTER}`, d({ operator: { operator: "ada", name: "Ada (demo)", active: true } }, { operator: { operator: "ben", name: "Ben (demo)", active: true } }), "office");
}

const open = (call, number, spot, receiver = "fixed_tank") => call("openVisit", JSON.stringify({ car: `QZQX ${number}`, site: SITE, receiver, spot }), "ada");
const say = (call, visit, ...says) => call("append", `visit:${visit}`, d(...says), "ada");
const reading = (measured, place, purpose, value, unit, instrument) => ({ reading: { measured, place, purpose, amount: amount(value, unit), ...(instrument ? { instrument } : {}) } });
/** Acknowledges every open step before stage `upto`, once, as a person would who had done them. */
const done = async (call, visit, upto) => {
  const { steps } = JSON.parse(await call("visit", visit));
  const at = (stage) => steps.stages.findIndex((x) => x.stage === stage);
  const open = steps.steps.filter((s) => ["open", "partly"].includes(s.status) && at(s.stage) < at(upto));
  await call("append", `visit:${visit}`, JSON.stringify(open.map((s) => ({ says: { step: { step: s.id, outcome: "done" } } }))), "ada");
};

/** Four cars on one track, each somewhere else in the job. Returns their visits. */
export async function seedCars(call) {
  const v1 = await open(call, "104471", "Track 2, spot 1"), v2 = await open(call, "104417", "Track 2, spot 2"), v3 = await open(call, "220086", "Track 2, spot 3", "truck"), v4 = await open(call, "300512", "Track 2, spot 4");
  for (const v of [v1, v2, v4]) await say(call, v, { paper: { car: "QZQX", un_number: "UN1075", product: "Demo LPG", billed: amount(32650, "gal"), relative_density: amount(0.508, "1"), odorised: true } }, { car_capacity: { capacity: amount(33700, "gal") } },
    reading("pressure", "car", "arrival", 118, "psi", "Gauge 2"), reading("temperature", "car", "arrival", 61, "°F", "Thermometer 1"), reading("outage", "car", "arrival", 14.25, "in"));
  await say(call, v1, { line: { fitting: "liquid_a", connected: true } }, { line: { fitting: "vapour", connected: true } }, { valve: { fitting: "liquid_a", position: "open" } }, { valve: { fitting: "vapour", position: "open" } });
  await done(call, v1, "transfer");
  await say(call, v2, { seal: { event: "found", place: "housing_pin", number: "0031187", kind: "cable", intact: true, note: "demo" } },
    ...["liquid_a", "liquid_b", "vapour"].flatMap((f) => [{ line: { fitting: f, connected: true } }, { valve: { fitting: f, position: "open" } }]), { item_out: { item: "Adapter 2", fitting: "liquid_b" } }, { item_out: { item: "Thermo well cap", fitting: "thermometer_well" } });
  await done(call, v2, "prove_empty");
  await say(call, v2, reading("pressure", "car", "hold_test", 40, "psi", "Gauge 7"), reading("pressure", "car", "hold_test", 41, "psi", "Gauge 7"), { empty_sign: { sign: "rod_at_bottom", seen: true } }, { empty_sign: { sign: "vapour_at_liquid_valve", seen: true } }, { empty_sign: { sign: "frost_ring", seen: false } },
    reading("temperature", "car_low", "empty_proof", 58, "°F", "Thermometer 1"), reading("pressure", "car", "empty_proof", 40, "psi", "Gauge 7"), { empty_decision: { accepted: true, grounds: "Rod at bottom, vapour, far below saturation" } });
  await say(call, v2, { valve: { fitting: "liquid_a", position: "shut" } }, { listen: { fitting: "liquid_a", heard: "quiet" } }, { line: { fitting: "liquid_a", connected: false } }, { closure: { fitting: "liquid_a", state: "tool_tight" } }, { effort: { fitting: "liquid_a", part: "valve", amount: amount(31, "ft·lbf") } }, { threads: { fitting: "liquid_a", engaged: amount(5.5, "turns") } });
  await say(call, v2, { valve: { fitting: "liquid_b", position: "shut" } }, { effort: { fitting: "liquid_b", part: "valve", amount: amount(46, "ft·lbf") } }, { listen: { fitting: "liquid_b", heard: "quiet" } }, { line: { fitting: "liquid_b", connected: false } }, { closure: { fitting: "liquid_b", state: "hand_tight" } },
    { valve: { fitting: "sample_line", position: "shut" } }, { closure: { fitting: "sample_line", state: "tool_tight" } }, { closure: { fitting: "gauging_device", state: "tool_tight" } }, { closure: { fitting: "thermometer_well", state: "open" } });
  await say(call, v3, { hold: { hold: "a".repeat(32), because: "One thread engaged at liquid B" } }, { defect: { defect: "b".repeat(32), fitting: "liquid_b", what: "Plug bottoms after one thread", needs_authority: true } }, { forwarded: { defect: "b".repeat(32), to: "Demo carrier, mechanical", how: "by voice" } });
  await done(call, v4, "close");
  return [v1, v2, v3, v4];
}
export { amount, reading, say, done, open, d };
