// An inspector sees one record and nothing else.
import assert from "node:assert/strict";
import { chapter } from "../../../bindings/phone/test/stage/story.mjs";
import { opensPage } from "../stage/browser.mjs";
import { inspects } from "../stage/inspect.mjs";
import { played } from "../stage/played.mjs";

chapter("an inspector's link opens one record", async () => {
  const { page, base, visit } = played;
  await page.goto(`${base}/office/visits/${visit}`);
  await page.fill("#label", "An inspector (invented)");
  await page.click("text=Make a link");
  played.link = await page.innerText("code");
  await inspects(page, "link-made", "day");
  const inspector = await opensPage({});
  await inspector.goto(played.link);
  await inspector.click("text=Open the record");
  await inspector.waitForSelector("text=ZZQX 70412");
  assert.equal((await inspector.goto(`${base}/office/`)).status(), 403);
  assert.equal(await inspector.locator(".settle button").count(), 0);
});
