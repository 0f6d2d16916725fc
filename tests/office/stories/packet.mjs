// The packet of the demonstration's disputed car: found by a seal's number as it is read over a telephone,
// and checked by both verifiers.
import assert from "node:assert/strict";
import { join } from "node:path";
import { chapter, measured } from "../../../bindings/phone/test/stage/story.mjs";
import { downloadsPacket } from "../stage/found.mjs";
import { folder, played } from "../stage/played.mjs";
import { damages, verified } from "../stage/verifiers.mjs";

const packet = join(folder, "packet.pdf");

chapter("the disputed car's packet is three clicks from the seal's number", async () => {
  const { page, base } = played;
  await page.goto(`${base}/office/sign-in`);
  const asked = Date.now();
  await page.click(".mark");
  await page.click("nav >> text=Inquiry");
  await page.type("#q", "k 400-107", { delay: 120 });
  await page.keyboard.press("Enter");
  await page.waitForSelector(".found li");
  assert.equal(await page.locator(".found li").count(), 1);
  const name = await downloadsPacket(page, packet);
  const seconds = (Date.now() - asked) / 1000;
  assert.ok(seconds < 60, `${seconds} s`);
  assert.match(name, /^packet-ZZQX48213-[0-9a-f]+\.pdf$/);
  const took = `in ${seconds.toFixed(1)} s (aim < 60 s)`;
  measured(`the disputed car's packet is three clicks from the seal's number, ${took}`);
});

chapter("the downloaded packet holds, say farsiding and the second verifier", async () => {
  assert.deepEqual(verified(packet).broken, []);
  // Reading all the damaged packets takes a while; `damage.mjs` tells at the end what came of it.
  played.damaged = damages(packet);
  played.damaged.catch(() => {});
});

chapter("the visit tells how the dispute ended and shows its photographs", async () => {
  const { page } = played;
  await page.click(".found a.num");
  await page.waitForSelector("text=how that was resolved");
  assert.ok((await page.locator("text=LG-12 is the low-range gauge").count()) > 0);
  await page.locator(".photos").scrollIntoViewIfNeeded();
  const showsOne = () =>
    [...document.querySelectorAll(".photos img")].some((image) => image.complete && image.naturalWidth > 0);
  await page.waitForFunction(showsOne, null, { timeout: 10_000 });
});
