// The demonstration as somebody new meets it: it is started, says an address, and the address opens a phone
// that is
// enrolled and has the cars of an invented siding.
import assert from "node:assert/strict";
import { spawn } from "node:child_process";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { test } from "node:test";
import { startsBrowser } from "./stage/phone-in-window.mjs";
import { PROGRAM, endOf } from "./stage/programs.mjs";
import { until } from "./stage/waiting.mjs";

const PHONE = /a phone at a siding {2}(\S+)\n/;
const TOP = new URL("../../../", import.meta.url).pathname;

/** Starts the demonstration without building the app again and returns what it said and its process. */
async function demonstration(home) {
  const program = join(dirname(PROGRAM), "farsiding-demo");
  const given = ["--no-phone", "--port", "0", "--data", join(home, "demo")];
  const process = spawn(program, given, { cwd: TOP, stdio: ["ignore", "pipe", "inherit"] });
  let said = "";
  process.stdout.on("data", (piece) => (said += piece));
  await until("the demonstration says where the phone opens", () => PHONE.test(said), 300_000);
  const [, address] = PHONE.exec(said);
  await until("the server goes on", async () => (await fetch(new URL("/healthz", address))).ok);
  return { address, process };
}

test("the demonstration's address opens a phone that is enrolled and has the siding's cars", async (t) => {
  const home = await mkdtemp(join(tmpdir(), "farsiding-demo-"));
  const { address, process } = await demonstration(home);
  t.after(async () => {
    await endOf(process, "SIGTERM");
    await rm(home, { recursive: true, force: true });
  });
  const browser = await startsBrowser();
  t.after(() => browser.close());
  const page = await browser.newPage({ viewport: { width: 360, height: 640 } });
  const complaints = [];
  page.on("pageerror", (error) => complaints.push(String(error)));
  await page.goto(address);
  await page.waitForSelector('.car:has-text("ZZQX")', { timeout: 60_000 });
  assert.match(await page.innerText("body"), /Lantern Spur \(invented\)/);

  // The same address once more is the same phone, not another enrolment.
  await page.goto(address);
  await page.waitForSelector('.car:has-text("ZZQX")', { timeout: 60_000 });
  assert.deepEqual(complaints, []);
});
