// An office that takes no more from a phone for today: the phone says so, keeps what it has, and goes on
// recording.
import assert from "node:assert/strict";
import { setsStage } from "../stage/setting.mjs";
import { chapter } from "../stage/story.mjs";

const { office, phoneOnDisk } = setsStage({ quotas: ["visits=1"] });
const ada = phoneOnDisk("a");

chapter("what is too much for a day stays on the phone, which says why", async () => {
  await office.opens();
  office.namesSiteAndPeople();
  await ada.opens();
  await ada.enrols("Ada (demo)");
  await ada.opensCar("104417", "Track 2, spot 2");
  await ada.opensCar("220086", "Track 2, spot 3");
  await ada.meetsOffice();
  await ada.page.waitForSelector("text=takes no more from this phone for now");
  assert.match(await ada.text(), /records opened by one device in a day/);
  const count = Number(await ada.page.locator(".count").first().innerText());
  assert.ok(count > 0, "it is still here");
  return `(${count} entries wait)`;
});
