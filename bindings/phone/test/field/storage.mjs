// What the disk, the browser and the clock may do to a phone: room runs out, nothing is promised to last, no
// file can be kept, the year is wrong. Nothing confirmed is lost, nothing is recorded where it would not
// last, and the person is told what to do.
import assert from "node:assert/strict";
import { join } from "node:path";
import { copyOfApp, mainScript, putsBefore } from "../stage/app-copy.mjs";
import { clockAhead } from "../stage/clock.mjs";
import { HANDHELD } from "../stage/phone.mjs";
import { aPicture } from "../stage/pictures.mjs";
import { formScreen, photoScreen } from "../stage/screens.mjs";
import { setsStage } from "../stage/setting.mjs";
import { chapter } from "../stage/story.mjs";
import { later } from "../stage/waiting.mjs";

const MB = 1_000_000;
const { home, office, phoneOnDisk } = setsStage();
const ada = phoneOnDisk("a");
let visit = "";

const noRoom = async (phone) => {
  await phone.sees("No space left on this phone. This was NOT recorded.");
  await phone.taps("OK", ".trouble button");
};

chapter("little room is said before it hurts, and photographs stop before records do", async () => {
  await office.opens();
  office.namesSiteAndPeople();
  await ada.opens();
  await ada.enrols("Ada");
  visit = await ada.opensCar("104417", "Track 2, spot 2");
  const picture = await aPicture(ada.page);
  await ada.goesTo("cars//");
  assert.doesNotMatch(await ada.text(), /Little space left/);

  await ada.hasRoomForMore(120 * MB);
  await ada.page.reload();
  await ada.setsValve(visit, "vapour", "Closed");
  await ada.goesTo("cars//");
  await ada.sees("Little space left");
  await ada.goesTo("only_here//");
  await ada.sees("More than 67 MB free");

  await ada.hasRoomForMore(20 * MB);
  await ada.setsValve(visit, "vapour", "Open");
  await ada.photographs(visit, picture);
  await noRoom(ada);
  assert.match(await ada.text(), /No photo yet/);
});

/** Text that does not become smaller when a document's changes are deflated. */
const noise = () =>
  ada.page.evaluate(() => {
    const bytes = crypto.getRandomValues(new Uint8Array(14_000));
    return Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
  });
const remarksKept = async () =>
  (await ada.history(visit)).filter((line) => line.startsWith("Remark: remark ")).length;
const inTrouble = async () => (await ada.page.locator(".trouble").count()) > 0;

chapter(
  "on a full disk an entry is refused plainly, what was typed stays, and it goes on once there is room",
  async () => {
    await ada.hasRoomForMore(1 * MB);
    let typed = "";
    let confirmed = 0;
    for (; confirmed < 120; confirmed++) {
      await ada.goesTo(formScreen(visit, "remark"));
      typed = `remark ${confirmed} ${await noise()}`;
      await ada.page.fill("textarea", typed);
      // What is half typed is kept too, and may be the first that does not fit.
      await later(150);
      if (await inTrouble()) await ada.taps("OK", ".trouble button");
      await ada.confirms();
      await ada.page.waitForFunction(
        () => !location.hash.startsWith("#form") || document.querySelector(".trouble"),
      );
      if (await inTrouble()) break;
    }
    assert.ok(confirmed > 0 && confirmed < 120, `${confirmed} recorded`);
    await ada.sees("No space left on this phone. This was NOT recorded.");
    assert.equal(await ada.page.inputValue("textarea"), typed);
    await ada.taps("OK", ".trouble button");
    assert.equal(await remarksKept(), confirmed, "everything confirmed and nothing else");

    await ada.hasRoomFor(null);
    await ada.goesTo(formScreen(visit, "remark"));
    assert.equal(await ada.page.inputValue("textarea"), typed);
    await ada.confirmsAndLeaves("form");
    await ada.startsAnew();
    await ada.page.goto(ada.appAt());
    await ada.seesCar("104417");
    assert.equal(await remarksKept(), confirmed + 1);
    return `(${confirmed} recorded before it was full)`;
  },
);

chapter(
  "a photograph that does not fit is refused whole: no entry speaks of it and no piece of it stays",
  async () => {
    const picture = await aPicture(ada.page);
    const filesKept = async () => Object.keys(await ada.photoFiles());
    await ada.goesTo(photoScreen(visit));
    await ada.page.waitForSelector('input[type="file"]', { state: "attached" });
    await ada.hasRoomForMore(100_000);
    await ada.handsInPicture(picture);
    await noRoom(ada);
    assert.deepEqual(await filesKept(), []);

    await ada.hasRoomFor(null);
    await ada.handsInPicture(picture);
    await ada.sees("1 photo");
    assert.equal((await filesKept()).length, 2, "the original and the small one");
    await ada.closes();
  },
);

const refusing = phoneOnDisk("refusing");
chapter(
  "where the browser does not promise to keep records, none is made, and the person is told what to do",
  async () => {
    await refusing.opens({ grants: [] });
    await refusing.enrols("Ada");
    await refusing.goesTo("cars//");
    await refusing.sees("Put the app on the home screen first");
    await refusing.goesTo("new//");
    await refusing.fillsInCar("104418");
    await refusing.sees("This was NOT recorded. Put the app on the home screen");
    await refusing.taps("OK", ".trouble button");

    await refusing.opensBook();
    const { entries, without_receipt } = await refusing.asksFor("status");
    const cars = (await refusing.asksFor("visits")).map((row) => row.car);
    const why = "what came from the office is here to be looked at, and nothing else";
    assert.deepEqual(cars, ["QZQX 104417"], why);
    assert.ok(entries > 0 && without_receipt === 0);
  },
);

chapter("run from the home screen, it records", async () => {
  await refusing.page.addInitScript(() => {
    const real = matchMedia.bind(window);
    window.matchMedia = (query) => real(query === "(display-mode: standalone)" ? "all" : query);
  });
  await refusing.returnsToApp();
  await refusing.opensCar("104418", "Track 2, spot 3");
  await refusing.goesTo("cars//");
  await refusing.seesCar("104418");
  assert.doesNotMatch(await refusing.text(), /home screen first/);
  await refusing.closes();
});

chapter("a private window is no place to record, though it takes files", async () => {
  const phone = phoneOnDisk("private");
  await phone.opens();
  const context = await phone.context.browser().newContext(HANDHELD);
  phone.page = await context.newPage();
  await phone.page.goto(phone.appAt());
  await phone.sees("Put the app on the home screen first");
  const promised = await phone.page.evaluate(() => navigator.storage.persist());
  assert.equal(promised, false, "it would take files and forget them");
  await context.close();
  await phone.closes();
});

chapter("without a place for files it says so at once, and help still works", async () => {
  const app = copyOfApp(join(home, "old"));
  const withoutFiles = `"getDirectory", { value: undefined }`;
  putsBefore(app, "core/book-worker.js", `Object.defineProperty(StorageManager.prototype, ${withoutFiles})`);
  await office.closes();
  await office.opens(app);
  const old = phoneOnDisk("old");
  await old.opens();
  await old.page.goto(old.appAt());
  await old.sees("Cannot record here");
  await old.sees("not in a private window");
  await old.page.locator(".foot .help").tap();
  await old.page.waitForFunction(() => location.hash.startsWith("#help"));
  await old.closes();
});

chapter(
  "a clock that is years off records the time as the phone had it, and everybody sees by how much it is off",
  async () => {
    const off = Math.round(11 * 365.25 * 86_400_000);
    const app = copyOfApp(join(home, "years"));
    putsBefore(app, "core/book-worker.js", clockAhead(off));
    putsBefore(app, mainScript(app), clockAhead(off));
    await office.closes();
    await office.opens(app);

    const ben = phoneOnDisk("years");
    await ben.opens();
    await ben.enrols("Ben");
    const visit = await ben.opensCar("104419", "Track 2, spot 4");
    await ben.setsValve(visit, "vapour", "Closed");
    await ben.photographs(visit, await aPicture(ben.page));
    await ben.sees("1 photo");
    await ben.meetsOffice();
    await ben.sees("clock 11 years fast");
    await ben.seesNothingLeftHere();
    await ben.goesTo(`history/${visit}`);
    await ben.page.locator("ol li button").first().tap();
    const year = new Date().getUTCFullYear();
    await ben.sees(`${year + 11}-`); // The time as the phone had it.
    await ben.sees("clock 11 years fast");

    const line = office
      .view(visit)
      .history.find((one) => /Valve \(vapor valve\): closed/i.test(one.sentence.text));
    assert.ok(Math.abs(line.said.claimed - Date.now() - off) < 120_000, "as the phone had it");
    assert.ok(Math.abs(line.said.ahead_millis - off) < 60_000, `${line.said.ahead_millis}`);
    const today = new Date(Date.now() - 6 * 3_600_000).toISOString().slice(0, 10);
    assert.equal(line.said.shown.slice(0, 10), today, "shown as it was");
    assert.ok(line.said.receipted);
    await ben.closes();
  },
);
