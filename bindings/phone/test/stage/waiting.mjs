// Waiting: for a time, until something has come about, or for a port that is free. No story lives here, and
// nothing here needs a browser.
import { createServer } from "node:net";

/** Resolves after that many milliseconds. */
export const later = (ms) => new Promise((done) => setTimeout(done, ms));

/**
 * Asks `happened` again and again until it answers with something, and returns that answer. An error counts
 * as "not yet". Throws `never: WHAT` when the time is over.
 */
export async function until(what, happened, ms = 20_000) {
  const end = Date.now() + ms;
  for (;;) {
    const answer = await Promise.resolve()
      .then(happened)
      .catch(() => false);
    if (answer) return answer;
    if (Date.now() > end) throw new Error(`never: ${what}`);
    await later(100);
  }
}

/** A port of this machine that nobody listens on. */
export function freePort() {
  return new Promise((found) => {
    const probe = createServer().listen(0, "127.0.0.1", () => {
      const { port } = probe.address();
      probe.close(() => found(port));
    });
  });
}
