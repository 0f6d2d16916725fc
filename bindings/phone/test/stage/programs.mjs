// The programs a story starts, and where the files of the phone lie.
import { execFileSync } from "node:child_process";
import { fileURLToPath } from "node:url";

/** The path of a file or folder of `bindings/phone`. */
export const inPhone = (name) => fileURLToPath(new URL(`../../${name}`, import.meta.url));

/** The server's program: FARSIDING names it, otherwise it is the one that cargo built last. */
export const PROGRAM = process.env.FARSIDING ?? inPhone("../../target/debug/farsiding");

/** Runs a program to its end and returns what it printed. */
export function run(program, args, more = {}) {
  return execFileSync(program, args, {
    encoding: "utf8",
    stdio: ["pipe", "pipe", "pipe"],
    maxBuffer: 1 << 28,
    ...more,
  });
}

/**
 * Ends a program and waits until it has ended: what still writes into a folder would stop the folder from
 * being cleared.
 */
export async function endOf(program, signal = "SIGTERM") {
  if (!program || program.exitCode !== null || program.signalCode !== null) return;
  const gone = new Promise((done) => program.once("exit", done));
  program.kill(signal);
  await gone;
}
