// Without a script everything but the refresh works.
import assert from "node:assert/strict";
import { chapter } from "../../../bindings/phone/test/stage/story.mjs";
import { opensPage, signsIn } from "../stage/browser.mjs";
import { played } from "../stage/played.mjs";

chapter("without a script signing in, looking again and a visit work", async () => {
  const page = await opensPage({ javaScriptEnabled: false });
  await signsIn(page, played.base);
  await page.click("text=Refresh");
  await page.click("text=ZZQX 70412");
  await page.waitForSelector("text=Event log");
  assert.ok(page.url().includes(played.visit));
  await page.context().close();
});
