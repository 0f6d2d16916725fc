// A near miss is offered; a date and a place find as well.
import assert from "node:assert/strict";
import { chapter } from "../../../bindings/phone/test/stage/story.mjs";
import { played } from "../stage/played.mjs";

chapter("a swapped digit, a date and a place lead to their cars", async () => {
  const { page, base } = played;
  await page.goto(`${base}/office/inquiry?q=ZZQX+70421`);
  await page.waitForSelector("text=One character different");
  assert.ok((await page.locator("text=ZZQX 70412").count()) > 0);
  for (const question of ["2026-11-10", "lantern spur 10 Nov 2026", "zzqx30551"]) {
    await page.goto(`${base}/office/inquiry?q=${encodeURIComponent(question)}`);
    assert.ok((await page.locator(".found >> text=ZZQX 30551").count()) > 0, question);
  }
});
