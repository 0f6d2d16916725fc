// The office of the demonstration, played on: its records, one more car at each of two sidings, and two
// people who differ about the last pressure of one of them. Everything is invented. All stories of
// `pages.mjs` share this one office and go on with it.
import { readFileSync, renameSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { run } from "../../../bindings/phone/test/stage/programs.mjs";
import { DEMO, FARSIDING, folderFor, withClock } from "./programs.mjs";
import { CLERK, addsAccount, serves } from "./server.mjs";

/** The stories' folder. DEMO_DATA names one where the demonstration was played before. */
export const folder = folderFor("pages", process.env.DEMO_DATA);
const data = join(folder, "demo");
export const office = join(data, "office");
const clockFile = join(data, "office-clock");
export const MORNING = "2026-11-18T13:00:00Z";

/** What the stories learn from one another: the server's address, the disputed visit, and so on. */
export const played = {};

/** A time of the day of the stories, at the siding where the disputed car stands and at the other one. */
export const day = (time) => `2026-11-18T${time}:00-06:00`;
const there = (time) => `2026-11-18T${time}:00-07:00`;

/** Sets the office's clock. It goes with the phones': it is never earlier than what they say they did. */
export function itIs(time) {
  writeFileSync(`${clockFile}.next`, new Date(time).toISOString().replace(/\.\d+Z/, "Z"));
  renameSync(`${clockFile}.next`, clockFile);
}

/** What the office's clock shows. */
export const timeAtOffice = () => Date.parse(readFileSync(clockFile, "utf8").trim());

/** Where a phone without a screen keeps its records. */
export const phoneFolder = (name) => join(data, name);

/** Runs a command of a phone without a screen, at a time; returns its answer. */
export function phone(name, time, ...args) {
  itIs(time);
  const words = ["device", "--dir", phoneFolder(name), "--json", ...args];
  return JSON.parse(run(FARSIDING, words, { env: withClock(time) }));
}

/** A one-time code that enrols a phone, with the office's public key. */
export const enrolment = () =>
  JSON.parse(run(FARSIDING, ["enrol", "--data", office, "--name", "unused", "--json"]));

/** Plays the demonstration, opens the office over it, and says what the stories begin with. */
export async function playsDemonstration() {
  const told = join(folder, "told");
  if (!process.env.DEMO_DATA) writeFileSync(told, run(DEMO, ["--once", "--data", data, "--port", "0"]));
  played.base = /http:\/\/127\.0\.0\.1:\d+/.exec(readFileSync(told, "utf8"))[0];
  itIs(MORNING);
  await serves(office, played.base, `@${clockFile}`);
  addsAccount(office, CLERK, MORNING);
  receivesCarAtOtherSiding();
  twoDifferAboutPressure();
}

function receivesCarAtOtherSiding() {
  const at = (time, ...words) => phone("phone-3", there(time), ...words);
  const car = ["--car", "ZZQX 20415", "--site", "thimble siding (invented)"];
  const { visit } = at("06:20", "open", ...car, "--spot", "stub", "--receiver", "truck");
  const paper = [
    "number=INV-4020",
    "car=ZZQX 20415",
    "shipper=Invented Terminal",
    "un_number=UN1978",
    "product=Propane",
    "billed=29 410 gal",
    "relative_density=0.508",
    "odorised=yes",
  ];
  at("06:24", "add", visit, "paper", ...paper);
  at("06:26", "add", visit, "clock", "actual_placement", "05:10");
  at("06:30", "add", visit, "protection", "hand_brake", "set");
  at("06:31", "add", visit, "protection", "chocks", "set");
  at("06:32", "add", visit, "protection", "blue_sign", "set");
  at("06:41", "add", visit, "seal", "found", "housing_pin", "number=P881702", "kind=plastic");
  at("06:50", "sync");
}

/** Two people read the last pressure of one car on different gauges. */
function twoDifferAboutPressure() {
  const one = (time, ...words) => phone("phone-1", day(time), ...words);
  const other = (time, ...words) => phone("phone-2", day(time), ...words);
  const car = ["--car", "ZZQX 70412", "--site", "lantern spur (invented)", "--spot", "track 1"];
  const { visit } = one("08:00", "open", ...car);
  const reads = ["add", visit, "reading", "pressure", "car", "final"];
  one("08:01", "add", visit, "clock", "actual_placement", "07:10");
  one("08:05", "add", visit, "seal", "found", "housing_pin", "number=P881550", "kind=plastic");
  one("08:06", "sync");
  other("08:10", "sync");
  one("09:30", ...reads, "31 psi", "PG-11");
  const [kept] = other("09:31", ...reads, "27.5 psi", "LG-12").entries;
  one("09:40", "sync");
  other("09:41", "sync");
  Object.assign(played, { visit, kept });
}
