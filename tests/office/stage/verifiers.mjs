// The two verifiers of a packet, which must agree: the server's program and the one that others wrote for
// themselves.
import assert from "node:assert/strict";
import { execFile, spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { promisify } from "node:util";
import { enrolment, folder, office } from "./played.mjs";
import { FARSIDING, PYTHON } from "./programs.mjs";

const runs = promisify(execFile);
let key;
const organisation = () => (key ??= enrolment().organisation_key);

/** What both verifiers say of a packet: the code words of what is broken and of what is marked. */
export function verified(packet) {
  const own = saidBy(FARSIDING, ["verify"], packet);
  const second = saidBy(PYTHON, ["tests/verify/verify_packet.py"], packet);
  assert.deepEqual(second, own, "the two verifiers differ");
  return own;
}

function saidBy(program, first, packet) {
  const words = [...first, packet, "--key", organisation(), "--json"];
  const ran = spawnSync(program, words, { encoding: "utf8", maxBuffer: 1 << 26 });
  const answer = JSON.parse(ran.stdout);
  assert.equal(ran.status === 0, answer.ok);
  const codes = (outcome) => {
    const lines = answer.lines.filter((line) => line.outcome === outcome);
    return [...new Set(lines.map((line) => line.code))].sort();
  };
  // The second verifier draws nothing, and says so.
  return { broken: codes("broken"), marked: codes("marked").filter((code) => code !== "pages_not_drawn") };
}

/** Each way a packet is damaged that must be among the cases, and the code that names it. */
const DAMAGE = {
  altered_entry: "altered_entry",
  removed_entry: "removed_entry",
  reordered_entries: "reordered_entries",
  altered_photo: "altered_photo",
  swapped_photo: "swapped_photo",
  forged_device: "forged_device",
  backdated_receipt: "backdated_receipt",
  truncated_file: "truncated_file",
  wrong_key: "wrong_key",
  edited_pages: "edited_pages",
  log_fork_against_a_note: "log_fork",
  log_fork_inside: "log_fork",
};

/**
 * Damages a packet in every way and has both verifiers name each damage; returns what came of it, once they
 * have. The office's own key is at hand here, so what only the office could forge is forged on the real
 * record too. What needs a phone's own secret is forged on a synthetic packet by ../verify.
 */
export async function damages(packet) {
  const cases = join(folder, "cases");
  await runs(PYTHON, ["tests/verify/damage.py", packet, cases, join(office, "organisation.key")]);
  const list = JSON.parse(readFileSync(join(cases, "cases.json"), "utf8"));
  for (const [name, code] of Object.entries(DAMAGE)) {
    const isCase = (one) => one.file === `${name}.pdf` && one.expect === code && !one.only;
    assert.ok(list.some(isCase), name);
  }
  const { stdout } = await runs(PYTHON, ["tests/verify/agree.py", FARSIDING, cases], { maxBuffer: 1 << 26 });
  return stdout.trim();
}
