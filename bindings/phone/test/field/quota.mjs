// An office that takes no more from a phone for today: the phone says so, keeps what it has, and goes on recording.
import assert from "node:assert/strict";
import { stories } from "./stage.mjs";

await stories(async ({ office, phone, test }) => {
  office.quotas = ["visits=1"];
  await office.start();
  office.furnish();
  const a = phone("a");
  await test("what is too much for a day stays on the phone, which says why", async () => {
    await a.open();
    await a.enrol("Ada (demo)");
    await a.car("104417", "Track 2, spot 2");
    await a.car("220086", "Track 2, spot 3");
    await a.sync();
    await a.page.waitForSelector("text=takes no more from this phone for now");
    const told = await a.page.innerText("body");
    assert.match(told, /records opened by one device in a day/);
    const count = Number(await a.page.locator(".count").first().innerText());
    assert.ok(count > 0, "it is still here");
    return `(${count} entries wait)`;
  });
});
