// A phone that is revoked and then brings what it still had: in the record, and marked in the packet.
import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { join } from "node:path";
import { chapter } from "../../../bindings/phone/test/stage/story.mjs";
import { downloadsPacket } from "../stage/found.mjs";
import { inspects } from "../stage/inspect.mjs";
import { day, folder, itIs, phone, phoneFolder, played } from "../stage/played.mjs";
import { FARSIDING, withClock } from "../stage/programs.mjs";
import { verified } from "../stage/verifiers.mjs";

chapter("what a revoked phone brought is in the next packet, marked as such by both verifiers", async () => {
  const { page, base } = played;
  phone("phone-2", day("10:20"), "add", "ZZQX 48213", "remark", "written down after the phone was lost");
  await page.goto(`${base}/office/devices`);
  await page.click("[aria-label='Change or revoke phone-2']");
  await page.click("a >> text=Revoke phone-2");
  await inspects(page, "revoke", "day");
  await page.check("#sure");
  await page.click("button >> text=Revoke phone-2");
  await page.waitForURL(`${base}/office/devices`);
  bringsWhatItHad("phone-2", day("10:25"));

  await page.goto(`${base}/office/inquiry?q=K400107`);
  const later = join(folder, "later.pdf");
  const end = Date.now() + 20_000;
  for (let marked = []; !marked.includes("revoked_device");) {
    assert.ok(Date.now() < end, "the packet never marked it");
    await downloadsPacket(page, later);
    const said = verified(later);
    assert.deepEqual(said.broken, []);
    ({ marked } = said);
  }
});

/**
 * Has a revoked phone sync. The office takes its entries and tells the phone that it is revoked, so the
 * command may fail.
 */
function bringsWhatItHad(name, time) {
  spawnSync(FARSIDING, ["device", "--dir", phoneFolder(name), "sync"], { env: withClock(time) });
  itIs(time);
}
