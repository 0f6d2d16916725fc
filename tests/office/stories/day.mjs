// The first look of the day.
import assert from "node:assert/strict";
import { chapter } from "../../../bindings/phone/test/stage/story.mjs";
import { LAPTOP, opensPage, signsIn } from "../stage/browser.mjs";
import { played } from "../stage/played.mjs";

chapter("Today shows the car, what keeps it and how long since placement", async () => {
  const page = await opensPage({ ...LAPTOP, acceptDownloads: true });
  played.page = page;
  await signsIn(page, played.base);
  await page.waitForSelector("text=ZZQX 70412");
  assert.match(await page.innerText(".car"), /Two entries differ: final pressure \(car\)/);
  assert.match(await page.innerText(".car"), /\d+ h\s+since placement/);
});
