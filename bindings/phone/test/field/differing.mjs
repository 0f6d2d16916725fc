// What the office does not hold alike, and what left the phone with a site it no longer has: both are said on
// the screen of what is only here, with what to do.
import assert from "node:assert/strict";
import { aPicture } from "../stage/pictures.mjs";
import { setsStage } from "../stage/setting.mjs";
import { chapter } from "../stage/story.mjs";

const { office, phoneOnDisk } = setsStage();
const ada = phoneOnDisk("a");
let demo = "";

/** Names of all files in the folders of photographs on the phone. */
const photographs = () =>
  ada.page.evaluate(async () => {
    const names = [];
    const root = await navigator.storage.getDirectory();
    for await (const [folder, handle] of root.entries())
      if (folder.startsWith("photos")) for await (const name of handle.keys()) names.push(name);
    return names;
  });
/** The screen holds no more than its width at each size of phone, and is looked at with SHOTS=folder. */
async function isLookedAt(name) {
  for (const [width, height] of [
    [360, 640],
    [390, 844],
  ]) {
    await ada.page.setViewportSize({ width, height });
    const wide = await ada.page.evaluate(() => document.documentElement.scrollWidth);
    assert.ok(wide <= width, `${name} is ${wide} wide on ${width}`);
    if (process.env.SHOTS) await ada.page.screenshot({ path: `${process.env.SHOTS}/${name}-${width}.png` });
  }
}

chapter("a phone of two sites records at one of them, with a photograph", async () => {
  await office.opens();
  office.namesSiteAndPeople();
  office.device("site", "new", "Other siding", "Etc/GMT+6", "300 ft", "20");
  office.device("sync");
  await ada.opens();
  await ada.enrols("Ada");
  demo = await ada.opensCar("104417", "Track 2, spot 2");
  await ada.photographs(demo, await aPicture(ada.page, 7));
  await ada.page.waitForFunction(() => /photo/i.test(document.body.innerText));
  await ada.meetsOffice();
  await ada.seesNothingLeftHere();
  assert.ok((await photographs()).length > 0);
});

chapter("a record that cannot be made equal to the office's is said, with what to do", async () => {
  // The office signs what it answers, so what the phone's own core says of it is replaced on its way.
  await ada.page.evaluate(() => {
    const { get } = Object.getOwnPropertyDescriptor(MessageEvent.prototype, "data");
    Object.defineProperty(MessageEvent.prototype, "data", {
      configurable: true,
      get() {
        const data = get.call(this);
        if (typeof data?.value !== "string" || !globalThis.differs) return data;
        return { ...data, value: data.value.replace('"differing":[]', '"differing":["visit:07"]') };
      },
    });
    globalThis.differs = true;
  });
  assert.ok(!(await ada.text()).includes("differs from the office"));
  await ada.meetsOffice();
  await ada.sees("1 record differs from the office’s");
  await ada.sees("Send again. If this stays, tell the office.");
  await isLookedAt("differing");
  await ada.page.evaluate(() => (globalThis.differs = false));
  await ada.meetsOffice();
  await ada.page.waitForFunction(() => !document.body.innerText.includes("differs from the office"));
});

chapter("the records of a site the phone no longer has leave it, and their photographs", async () => {
  office.run("renew", "--data", office.data, "--device", "phone a", "--sites", "Other siding");
  await ada.meetsOffice();
  await ada.reads("[0-9]+ records taken off this phone");
  await ada.sees("This phone no longer has their site. The office has them.");
  await isLookedAt("left");
  const rows = await ada.page.evaluate(() => document.body.innerText);
  assert.ok(!rows.includes("104417"));
  assert.deepEqual(await photographs(), []);
  assert.ok(office.view(demo), "the office has them");
  await ada.goesTo("cars//");
  assert.ok(!(await ada.text()).includes("104417"));
});

chapter("given the site again, the phone has its records again", async () => {
  office.run("renew", "--data", office.data, "--device", "phone a", "--sites", "all");
  await ada.meetsOffice();
  await ada.page.waitForFunction(() => !document.body.innerText.includes("taken off this phone"));
  await ada.goesTo("cars//");
  await ada.sees("104417");
});
