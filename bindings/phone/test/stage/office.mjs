// An office for a story: the real server on a free port with a folder of its own, serving the app as built,
// and the devices without a screen that people at the office use. Everybody and everything in its records is
// invented.
import { spawn } from "node:child_process";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { PROGRAM, endOf, inPhone, run } from "./programs.mjs";
import { freePort, until } from "./waiting.mjs";

/** A phone of a story records in a minute what takes a siding years: more than one may bring in a day. */
const MORE_THAN_A_DAY = ["visits=5000", "entries=100000"];

export class Office {
  /** The server's last words, printed when a story fails. */
  said = "";

  constructor(home, { quotas = MORE_THAN_A_DAY } = {}) {
    this.home = home;
    this.data = join(home, "data");
    this.quotas = quotas;
  }

  /**
   * Starts the server with an app to hand out; started again, it has the same address and, unless told
   * otherwise, the same app.
   */
  async opens(app = this.app ?? inPhone("dist")) {
    this.app = app;
    this.port ??= await freePort();
    const listens = `127.0.0.1:${this.port}`;
    this.url = `http://${listens}`;
    const bounds = this.quotas.flatMap((quota) => ["--quota", quota]);
    this.server = spawn(
      PROGRAM,
      ["serve", "--data", this.data, "--listen", listens, "--url", this.url, "--app", app, ...bounds],
      { stdio: ["ignore", "ignore", "pipe"] },
    );
    this.said = "";
    this.server.stderr.on("data", (text) => (this.said = (this.said + text).slice(-4000)));
    await until("the office answers", async () => (await fetch(`${this.url}/healthz`)).ok);
  }

  /** Stops the server and waits until it has ended. */
  closes(signal = "SIGTERM") {
    return endOf(this.server, signal);
  }

  /** Runs a command of the server's program. */
  run(...args) {
    return run(PROGRAM, args, { stdio: ["ignore", "pipe", "pipe"] });
  }

  /** A link by which a phone enrols, under the name the office has for it. */
  link(name, role = "operator") {
    const told = this.run("enrol", "--data", this.data, "--name", name, "--role", role);
    return /All in one:\s+(\S+)/.exec(told)[1];
  }

  /** A device without a screen, enrolled; returns a function that runs one of its commands. */
  enrolsDevice(name, role) {
    const operator = role === "office" ? "office" : name;
    const does = (...args) =>
      this.run("device", "--dir", join(this.home, name), "--operator", operator, ...args);
    does("init", "--name", name);
    does("enrol", this.link(`${name}'s device`, role));
    return does;
  }

  /** Runs a command of the office's own device. */
  device(...args) {
    this.own ??= this.enrolsDevice("office", "office");
    return this.own(...args);
  }

  /** Says an invented site and two invented people, and brings them to the server. */
  namesSiteAndPeople(...moreOfTheSite) {
    this.device("site", "new", "Demo siding", "Etc/GMT+6", "900 ft", "30", ...moreOfTheSite);
    this.device("person", "ada", "Ada (demo)");
    this.device("person", "ben", "Ben (demo)");
    this.device("sync");
  }

  /** Says all a phone shows of a site: its rules, its instruments and whom to call. */
  namesSiteInFull() {
    const of = (kind, ...fields) => this.device("site", "set", "Demo siding", kind, ...fields);
    const due = `${new Date().getFullYear() + 1}-03-01`;
    this.namesSiteAndPeople("local_rules=Demo rule: radio on channel 4.");
    of("instrument", "Gauge 7", "pressure", "30 psi", "2A", due);
    of("instrument", "Gauge 2", "pressure", "300 psi", "B", due);
    of("instrument", "Thermometer 1", "temperature", "160 °F", `calibration_due=${due}`);
    of("contact", "emergency", "Fire and rescue", "911", "Panel button: left of the gate, red cover");
    const valve = "Liquid line valve: foot of the tower, yellow wheel";
    of("contact", "office", "Demo terminal, duty", "555-0142", valve);
    of("contact", "carrier", "Demo carrier, dispatch", "555-0177");
    this.device("sync");
  }

  /** The id of the invented site. */
  site() {
    const { sites } = JSON.parse(this.device("--json", "site", "list"));
    return sites.find((site) => site.name === "Demo siding").site;
  }

  /**
   * Imports shipping papers from a table and sends them to the invented site, as somebody at the office does.
   * Each paper is a line of the table below the headings.
   */
  sendsPapers(...lines) {
    const heads = "Paper,Car,Shipper,Date,Quantity,SG,UN number,Proper shipping name,Odorized,Expected";
    const file = join(this.home, `papers-${(this.sheets = (this.sheets ?? 0) + 1)}.csv`);
    writeFileSync(file, [heads, ...lines, ""].join("\n"));
    return this.run("papers", "send", file, "--site", this.site(), "--data", this.data, "--json");
  }

  /** A visit as the office's own device shows it. */
  view(visit) {
    this.device("sync");
    return JSON.parse(this.device("--json", "show", visit)).visit;
  }
}
