// The programs that the stories of the office's pages start, and where they put what they make. `run` names
// them by its environment.
import { mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after } from "node:test";

const built = process.env.FARSIDING_PROGRAMS;
export const FARSIDING = join(built, "farsiding");
export const DEMO = join(built, "farsiding-demo");
export const PYTHON = process.env.VERIFY_PYTHON;
/** Where pictures of the pages go. */
export const SHOTS = process.env.SHOTS;
mkdirSync(SHOTS, { recursive: true });

/**
 * The environment of a program that takes its time from FARSIDING_CLOCK: a moment, or `@` and a file that
 * holds one.
 */
export const withClock = (clock) => ({ ...process.env, FARSIDING_CLOCK: clock });

/**
 * A folder for a story's files. It is cleared away when the story ends, unless DEMO_DATA names one that is
 * kept.
 */
export function folderFor(story, kept) {
  if (kept) return kept;
  const folder = mkdtempSync(join(tmpdir(), `office-${story}-`));
  after(() => rmSync(folder, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 }));
  return folder;
}
