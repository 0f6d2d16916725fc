// Every screen that is looked at, by a name, and where it is: `[hash, act, after]`, where `act` is what is
// done there before it is measured and `after` what is done once it was. A screen whose act needs a disk that
// is full is full in earnest.
import {
  formScreen as form,
  carScreen as car,
  figureScreen as figure,
  photoScreen as photo,
  pressureAsked,
} from "../stage/screens.mjs";
import { DEFECT, EXPECTED, HOLD, INCIDENT, LEAK } from "../stage/siding/played.mjs";

const encoded = encodeURIComponent;
const ask = (visit, slot) => `ask/${visit}/${encoded(slot)}`;

/** What the keypad is asked for on the screens that are looked at, by the slot it is answered in. */
export const ASKED = {
  final: pressureAsked("final"),
  outage: "reading/arrival/outage/car",
  cold: "series/empty_proof/temperature/car_low",
  effort: "series/effort/liquid_b/valve",
  threads: "fitting/liquid_b/threads",
};

/** The screens of a phone at the played siding. `said` names entries, slots and blockers of the main car. */
export const screensOf = (visits, said) => ({
  ...ofTheYard(visits),
  ...ofSteps(visits),
  ...ofFigures(visits),
  ...ofForms(visits, said),
  ...ofWhatWasSaid(visits, said),
  ...ofThePhone(visits),
});

const ofTheYard = ({ main, held, twin, gone, moving }) => ({
  cars: ["cars"],
  cars_gone: ["cars", (page) => page.locator("summary").tap()],
  new: ["new"],
  new_near: ["new", typesNearNumber, clearsNumber],
  new_expected: ["cars", opensExpected],
  car: [car(main, "liquid_b")],
  car_cap: [car(main, "thermometer_well")],
  car_hiss: [car(main, "vapour")],
  car_cover: [car(main, "cover")],
  car_relief: [car(main, "relief_device")],
  car_moving: [car(moving, "liquid_a")],
  car_held: [car(held, "liquid_b")],
  car_released: [car(gone, "liquid_a")],
  car_joined: [car(twin, "vapour")],
});

/** The number that is typed is one character away from one that is expected. */
async function typesNearNumber(page) {
  const fields = page.locator("input.field");
  await fields.nth(0).fill("QZQX");
  await fields.nth(1).fill("500607");
  await page.waitForSelector(".near");
}

async function clearsNumber(page) {
  await page.locator("input.field").nth(0).fill("");
  await page.locator("input.field").nth(1).fill("");
}

async function opensExpected(page) {
  await page.locator(`.expected .lead:has-text("${EXPECTED}")`).tap();
  await page.waitForSelector(".look");
}

const ofSteps = ({ main, held, twin, gone, moving }) => ({
  step: [`step/${main}`],
  step_moving: [`step/${moving}`],
  step_at_once: [`step/${twin}`],
  step_found: [`step/${held}/line_as_found.liquid_a`],
  step_paper: [`step/${twin}/paper`],
  step_tight: [`step/${main}/closure_tight.liquid_b`],
  step_valve: [`step/${moving}/open_valve.liquid_a`],
  step_sign: [`step/${twin}/blue_sign_up`],
  step_done: [`step/${gone}/hand_brake`],
  steps: [`steps/${main}`],
  strip: [`strip/${main}`],
  more: [`more/${main}`],
  more_all: [`more/${main}`, (page) => page.evaluate(() => document.querySelector(".list").scrollIntoView())],
  more_joined: [`more/${twin}`],
  more_near: [`more/${moving}`],
});

const ofFigures = ({ main, ready, moving }) => ({
  figure: [figure(main, ASKED.final)],
  figure_empty: [figure(ready, ASKED.final)],
  figure_beyond: [figure(moving, ASKED.final)],
  figure_outage: [figure(moving, ASKED.outage)],
  figure_cold: [figure(main, ASKED.cold)],
  effort: [figure(main, ASKED.effort)],
  threads: [figure(main, ASKED.threads)],
  ask_protections: [`ask/${main}/protections`],
  ask_readings: [`ask/${main}/readings`],
  ask_attendance: [ask(main, "series/attendance")],
});

const ofForms = ({ main, held, twin }, said) => ({
  form_paper: [form(main, "paper")],
  form_paper_sent: [form(twin, "paper", "office")],
  paper: [`paper/${twin}`],
  form_weather: [form(main, "weather")],
  form_pass: [form(main, "pass", "closure_not_tool_tight.liquid_b")],
  form_decision: [form(main, "empty_decision")],
  form_hold: [form(main, "hold")],
  form_lift: [form(held, "lift", HOLD)],
  form_fittings: [form(main, "car_fittings")],
  form_again: [form(main, "car_number_again")],
  form_placed: [form(main, "clock", "actual_placement")],
  form_tank_test: [form(main, "car_test_date", "tank_qualification")],
  form_remark: [form(main, "remark")],
  form_give: [form(main, "give")],
  form_take: [form(main, "take", "ben")],
  form_told: [form(held, "forwarded", DEFECT)],
  form_approval: [form(held, "authority", DEFECT)],
  form_resolved: [form(held, "resolved", DEFECT)],
  form_skip: [form(main, "skip", "closure_tight.liquid_b")],
  form_not_right: [form(main, "not_right", "closure_tight.liquid_b")],
  form_wrong: [form(main, "check_wrong", "relief device")],
  form_withdraw: [form(main, "withdraw", said.line)],
  form_keep: [form(main, "keep", said.claim)],
  form_opened: [form(main, "opened_again")],
  else: [`else/${main}/liquid_b`],
  form_leak: [form(main, "leak", "liquid_b")],
  form_leak_checked: [form(held, "leak_checked", LEAK)],
  form_incident: [form(main, "incident")],
  form_stopped: [form(held, "incident_stopped", INCIDENT)],
  form_call: [form(held, "incident_call", INCIDENT)],
  form_closed: [form(held, "incident_closed", INCIDENT)],
  form_left: [form(main, "car_left")],
  form_moved: [form(main, "car_moved")],
  form_outcome: [form(main, "outcome")],
  form_truck: [form(main, "truck_load")],
  form_tank: [form(main, "tank_gauged")],
  form_plan: [form(main, "recovery_planned")],
  form_inspection: [form(main, "inspection")],
  form_next_time: [form(main, "next_time", "liquid_b")],
  form_feel: [form(main, "valve_feel", "liquid_b")],
  form_plug: [form(main, "plug_condition", "liquid_b")],
  form_part: [form(main, "cover_condition")],
  form_hose: [form(main, "hose", "liquid_b")],
  form_hose_left: [form(main, "hose_pressure", "liquid_b")],
  carried: [`carried/${main}`],
  form_earlier: [form(main, "earlier")],
  earlier: [form(main, "earlier"), entersEarlier, backToNow],
});

/** What is entered now was done earlier: said at the top of every screen of this car. */
async function entersEarlier(page) {
  await page.locator(".foot .go").tap();
  await page.waitForSelector(".earlier");
}

const backToNow = (page) => page.locator(".earlier .key").last().tap();

const ofWhatWasSaid = ({ main, held, ready, twin, gone }, said) => ({
  proof: [`proof/${main}`],
  proof_first: [`proof/${twin}`],
  tally: [`tally/${main}`],
  tally_none: [`tally/${ready}`],
  seal: [`seal/${main}/applied`],
  seal_typed: [`seal/${ready}/found`],
  defect: [`defect/${main}/liquid_b`],
  defect_car: [`defect/${main}`],
  defects: [`defects/${held}`],
  defects_none: [`defects/${ready}`],
  holds: [`holds/${held}`],
  holds_none: [`holds/${ready}`],
  differ: [`differ/${main}`],
  differ_figure: [`differ/${main}/${encoded(said.figure)}`],
  differ_none: [`differ/${ready}`],
  gate: [`gate/${main}`],
  gate_ready: [`gate/${ready}`],
  gate_taps: [`gate/${ready}`, releasesWithTaps],
  gate_held: [`gate/${held}`],
  gate_released: [`gate/${gone}`],
  blocker: [`blocker/${main}/closure_not_tool_tight.liquid_b`],
  blocker_passed: [`blocker/${ready}/${encoded(said.passed)}`],
  blocker_gone: [`blocker/${main}/none`],
  history: [`history/${main}/liquid_b`],
  history_all: [`history/${main}`],
  history_none: [`history/${twin}/vapour`],
  entry: [`entry/${main}/${said.line}`],
  entry_instead: [`entry/${main}/${said.line}`, (page) => page.locator(".keys .key").last().tap()],
  photo: [photo(main)],
  photo_none: [photo(ready, "seal")],
});

const ofThePhone = ({ main, held }) => ({
  only_here: ["only_here"],
  find: ["find"],
  find_none: ["find", findsNothing, (page) => page.fill("input.field", "104")],
  help: ["help"],
  help_car: [`help/${main}`],
  setup: ["setup"],
  guard: ["guard"],
  guard_make: ["guard//make"],
  enrol: ["enrol"],
  who: ["who"],
  where: ["where"],
  carry: ["carry"],
  refused: ["refused"],
  trouble: [form(held, "remark"), fillsTheDisk, makesRoomAgain],
  opening: [`car/${"0".repeat(32)}`],
});

/** The screens of a phone that nobody has enrolled yet. */
export const SCREENS_OF_A_FRESH_PHONE = ["cars", "enrol", "who", "where", "help", "setup", "only_here"];

async function releasesWithTaps(page) {
  await page.locator(".foot .quietly").tap();
  await page.locator(".hold").tap();
}

async function findsNothing(page) {
  await page.fill("input.field", "99887766");
  await page.waitForTimeout(400);
}

/** A bound is taken away by the session that set it. */
const sessions = new WeakMap();

/** Bounds what the page's origin may keep; without a bound it may keep what the browser allows. */
async function boundsRoom(page, bound = {}) {
  if (!sessions.has(page)) sessions.set(page, await page.context().newCDPSession(page));
  const origin = new URL(page.url()).origin;
  await sessions.get(page).send("Storage.overrideQuotaForOrigin", { origin, ...bound });
}

/**
 * The disk is full in earnest: the browser's quota is used up, and the record is refused by the store itself.
 */
async function fillsTheDisk(page) {
  await boundsRoom(page, { quotaSize: 1024 });
  await page.fill("textarea", "Rain turned to ice on the ladder. ".repeat(700));
  await page.locator(".foot .go").tap();
  await page.waitForSelector(".trouble");
}

async function makesRoomAgain(page) {
  await page.locator(".trouble .key").tap();
  await boundsRoom(page);
  await page.fill("textarea", "");
}
