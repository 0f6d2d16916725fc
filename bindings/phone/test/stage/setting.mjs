// What a story of the phone stands on: a folder that is cleared away afterwards, an office in it, and phones.
// All of them end when the story ends, however it ends.
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after } from "node:test";
import { Office } from "./office.mjs";
import { PhoneInWindow, startsBrowser } from "./phone-in-window.mjs";
import { PhoneOnDisk } from "./phone-on-disk.mjs";
import { isWitnessed } from "./story.mjs";

/**
 * Sets the stage of a story, once a file. Returns
 * - `home`, a folder for the story's own files;
 * - `office`, not yet open;
 * - `phoneOnDisk(name)`, a phone that is a browser of its own, not yet open;
 * - `phoneInWindow(name, { mayComplain })`, a phone that is a window of a shared browser, not yet open;
 * - `browser()`, that shared browser, started when it is first asked for.
 */
export function setsStage(officeHas) {
  const home = mkdtempSync(join(tmpdir(), "farsiding-story-"));
  const office = new Office(home, officeHas);
  const phones = [];
  let shared;
  isWitnessed({ screens: () => (office.said ? [`office ${office.said.slice(-600)}`] : []) });

  const joins = (phone) => {
    phones.push(phone);
    isWitnessed({ screens: () => phone.screens(), complaints: phone.complaints });
    return phone;
  };
  const browser = () => (shared ??= startsBrowser());

  after(async () => {
    for (const phone of phones) await phone.closes().catch(() => {});
    if (shared) await (await shared).close();
    await office.closes();
    rmSync(home, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 });
  });
  return {
    home,
    office,
    browser,
    phoneOnDisk: (name) => joins(new PhoneOnDisk(home, name, office)),
    phoneInWindow: (name, more) => joins(new PhoneInWindow(name, office, more)),
  };
}
