// Signing out, and signing in with a wrong password.
import assert from "node:assert/strict";
import { chapter } from "../../../bindings/phone/test/stage/story.mjs";
import { givesPassword } from "../stage/browser.mjs";
import { inspects } from "../stage/inspect.mjs";
import { played } from "../stage/played.mjs";
import { CLERK } from "../stage/server.mjs";

chapter("signing out ends it; a wrong password is refused and says so", async () => {
  const { page, base } = played;
  await page.click("button.quiet");
  await page.waitForURL(/sign-in/);
  assert.match((await page.goto(`${base}/office/devices`)).url(), /sign-in/);
  await givesPassword(page, base, CLERK, "not these words");
  await page.waitForSelector("[role=alert]");
  await inspects(page, "sign-in-refused", "day");
  await page.context().close();
});
