// A second factor as a person sets it up and signs in with it.
import assert from "node:assert/strict";
import { createHmac } from "node:crypto";
import { chapter } from "../../../bindings/phone/test/stage/story.mjs";
import { LAPTOP, TABLET_BY_NIGHT, givesPassword, opensPage } from "../stage/browser.mjs";
import { inspects } from "../stage/inspect.mjs";
import { MORNING, office, played, timeAtOffice } from "../stage/played.mjs";
import { PASSWORD, addsAccount } from "../stage/server.mjs";

const SECOND = "Second (invented)";

/** What a telephone shows (RFC 6238) at the office's hand-set clock, so many half minutes on. */
function codeShown(letters, halfMinutesOn = 0) {
  const fiveBits = (letter) =>
    "ABCDEFGHIJKLMNOPQRSTUVWXYZ234567".indexOf(letter).toString(2).padStart(5, "0");
  const bits = [...letters.replaceAll(" ", "")].map(fiveBits).join("");
  const secret = Buffer.from(bits.match(/.{8}/g).map((byte) => parseInt(byte, 2)));
  const step = Buffer.alloc(8);
  step.writeBigUInt64BE(BigInt(Math.floor(timeAtOffice() / 30_000) + halfMinutesOn));
  const mac = createHmac("sha1", secret).update(step).digest();
  const number = mac.readUInt32BE(mac[19] & 15) & 0x7fffffff;
  return String(number % 1_000_000).padStart(6, "0");
}

async function givesCode(page, code, key = "button.go") {
  await page.fill("#code", code);
  await page.click(key);
}

/** Sets the second factor up, after a code that is wrong; returns its letters and the first recovery code. */
async function setsUp(page, name) {
  await page.goto(`${played.base}/office/own`);
  await page.fill("#set-up-password", PASSWORD);
  await page.click("text=Set up");
  await givesCode(page, "000000", "button >> text=Confirm");
  await page.waitForSelector("[role=alert]");
  await inspects(page, "second-factor-set-up", name);
  const letters = await page.textContent("p.letters code");
  await givesCode(page, codeShown(letters), "button >> text=Confirm");
  await page.waitForSelector("ol.letters");
  assert.equal(await page.locator("ol.letters li").count(), 8);
  await inspects(page, "recovery-codes", name);
  const [recovery] = await page.locator("ol.letters code").allTextContents();
  return { letters, recovery };
}

async function turnsOff(page, name, recovery) {
  await page.goto(`${played.base}/office/own`);
  await page.click("text=Turn it off");
  await inspects(page, "own-with-factor", name);
  await page.fill("#off-password", PASSWORD);
  await page.fill("#off-code", recovery);
  await page.click("button >> text=Turn off");
  await page.waitForSelector("text=The second factor is off");
}

chapter("a second account is added", () => addsAccount(office, SECOND, MORNING, "--role", "clerk"));

for (const [name, how] of [
  ["day", LAPTOP],
  ["tablet-night", TABLET_BY_NIGHT],
])
  chapter(
    `a second factor is set up, takes no code twice, and is turned off with a recovery code (${name})`,
    async () => {
      const { base } = played;
      const page = await opensPage(how);
      await givesPassword(page, base, SECOND);
      await page.waitForURL(`${base}/office/`);
      const { letters, recovery } = await setsUp(page, name);
      await page.click("button.quiet");
      await page.waitForURL(/sign-in/);

      await givesPassword(page, base, SECOND);
      // This code was taken when the second factor was set up.
      await givesCode(page, codeShown(letters));
      await page.waitForSelector("[role=alert]");
      await inspects(page, "code-refused", name);
      await givesCode(page, codeShown(letters, 1));
      await page.waitForURL(`${base}/office/`);
      await turnsOff(page, name, recovery);
      await page.goto(`${base}/office/accounts`);
      await inspects(page, "not-your-right", name);
      await page.context().close();
    },
  );
