// A phone enrols by the picture's text; revoking asks twice.
import assert from "node:assert/strict";
import { chapter } from "../../../bindings/phone/test/stage/story.mjs";
import { inspects } from "../stage/inspect.mjs";
import { day, enrolment, phone, played } from "../stage/played.mjs";

chapter("a device is enrolled by the code on the page and revoked", async () => {
  const { page, base } = played;
  await page.goto(`${base}/office/devices`);
  await page.fill("#name", "phone-9");
  await page.click("text=Make a one-time code");
  const code = await page.innerText(".code");
  assert.ok((await page.locator("svg.qr path").count()) > 0);
  await inspects(page, "enrol", "day");

  phone("phone-9", day("10:10"), "init", "--operator", "ash");
  phone("phone-9", day("10:11"), "enrol", enrolment().enrolment.replace(/enrol=[^&]+/, `enrol=${code}`));
  await page.goto(`${base}/office/devices`);
  await page.click("[aria-label='Change or revoke phone-9']");
  await page.click("a >> text=Revoke phone-9");
  await page.check("#sure");
  await page.click("button >> text=Revoke phone-9");
  await page.waitForURL(`${base}/office/devices`);
  assert.ok((await page.locator("text=revoked").count()) > 0);
});
