// The office's server, with a clock that is set by hand and an account to sign in with.
import { spawn } from "node:child_process";
import { after } from "node:test";
import { endOf, run } from "../../../bindings/phone/test/stage/programs.mjs";
import { isWitnessed } from "../../../bindings/phone/test/stage/story.mjs";
import { FARSIDING, withClock } from "./programs.mjs";

export const CLERK = "Clerk (invented)";
export const PASSWORD = "invented words for a test";

const servers = [];
after(() => Promise.all(servers.map((server) => endOf(server))));

/**
 * Starts a server on an office's folder and waits until it listens. Whatever it warned of is printed when a
 * story fails.
 */
export async function serves(office, base, clock, ...more) {
  const listens = base.replace("http://", "");
  const server = spawn(FARSIDING, ["serve", "--data", office, "--listen", listens, ...more], {
    env: withClock(clock),
    stdio: ["ignore", "pipe", "pipe"],
  });
  let log = "";
  server.stderr.on("data", (piece) => (log += piece));
  servers.push(server);
  isWitnessed({ screens: () => warningsIn(log).map((line) => `office ${line}`) });
  await new Promise((done, failed) => {
    server.stdout.on("data", (piece) => {
      if (String(piece).includes("listening on")) done();
    });
    server.on("exit", (code) => failed(new Error(`the server ended with ${code}: ${log}`)));
  });
}

const warningsIn = (log) =>
  log
    .split("\n")
    .filter((line) => /ERROR|WARN/.test(line))
    .slice(-10);

/** Adds an account with the password of all the accounts here. */
export function addsAccount(office, name, clock, ...more) {
  run(FARSIDING, ["account", "add", "--data", office, "--name", name, ...more], {
    input: `${PASSWORD}\n`,
    env: withClock(clock),
  });
}
