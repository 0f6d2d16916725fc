// How the phone keeps its key and records, on the app as built against a real office: what it says of that,
// the PIN before everything (made, wrong, waiting, forgotten, ended), what a locked phone still shows,
// photographs sealed and without their place, what lay open before taken over. Looks at each screen at
// 360x640 and 390x844; pictures in OUT.
import assert from "node:assert/strict";
import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { Looks } from "./stage/looking.mjs";
import { carScreen, photoScreen } from "./stage/screens.mjs";
import { inPhone } from "./stage/programs.mjs";
import { setsStage } from "./stage/setting.mjs";
import { chapter } from "./stage/story.mjs";
import { later, until } from "./stage/waiting.mjs";

const { office, browser, phoneInWindow } = setsStage({ quotas: [] });
const ada = phoneInWindow("guard");
const looks = new Looks("guard");
const look = (name) => looks.at(ada.page, name);
let visit = "";

const WEAK = "111111";
const PIN = "294611";
const WRONG = "111222";
/** A picture with a maker's note and the place where it was taken. */
const TAKEN_FILE = inPhone("test/pictures/place-ii.jpg");
const TAKEN = new Uint8Array(readFileSync(TAKEN_FILE));

const sha256 = (bytes) => createHash("sha256").update(Buffer.from(bytes)).digest("hex");
const photos = async () => (await ada.view(visit)).photos.map(({ photo }) => photo);
const photosWaiting = async () => (await ada.asksFor("status")).photos_waiting;
const isLocked = () => ada.reads("The phone’s PIN");
const isUnlocked = () => ada.page.waitForFunction(() => !/Locked/.test(document.body.innerText));

/** Every file of the private file system under `start`, by path, with what it holds. */
function filesUnder(start) {
  return ada.page.evaluate(async (start) => {
    const all = {};
    const walk = async (folder, path) => {
      for await (const [name, handle] of folder.entries())
        if (handle.kind === "directory") await walk(handle, `${path}${name}/`);
        else if (path.startsWith(start)) {
          const file = await handle.getFile();
          all[path + name] = [...new Uint8Array(await file.arrayBuffer())];
        }
    };
    await walk(await navigator.storage.getDirectory(), "");
    return all;
  }, start);
}

/** Takes the photograph, and returns what its entry says of it. */
async function takesPhoto() {
  const before = (await photos()).length;
  await ada.goesTo(photoScreen(visit));
  await ada.page.waitForSelector('input[type="file"]', { state: "attached" });
  await ada.handsInPicture(TAKEN_FILE);
  await ada.page.waitForFunction(
    (count) => document.querySelectorAll("figure canvas[data-drawn]").length > count,
    before,
  );
  return (await photos()).at(-1);
}

async function locksNow() {
  await ada.taps("Lock now", ".go");
  await isLocked();
}

chapter("six cars are to be beware of", async () => {
  await office.opens();
  office.namesSiteInFull();
  await ada.opens(await browser());
  await ada.enrols("Ada", "guard phone");
  visit = await ada.opensVisit({ car: "QZQX 104417", spot: "Track 2, spot 1" });
  await ada.says(visit, { hold: { hold: "a".repeat(32), because: "One thread engaged at liquid B" } });
  for (const n of [2, 3, 4, 5, 6]) {
    const other = await ada.opensVisit({ car: `QZQX 10450${n}`, spot: `Track 2, spot ${n}` });
    const because = "Waiting for the carrier's mechanic";
    await ada.says(other, { hold: { hold: `${n}`.repeat(32), because } });
  }
});

chapter("the phone says what protects its key and its records, and that it opens without a PIN", async () => {
  await ada.goesTo("setup//");
  await ada.taps("Protection of this phone", ".lead");
  await ada.reads("no page can read it");
  await ada.reads("alone cannot be read");
  await ada.reads("Opens without a PIN");
  await look("off");
});

chapter(
  "a photograph is kept sealed and without its place, is shown, and reaches the office as its entry says",
  async () => {
    const photo = await takesPhoto();
    assert.notEqual(photo.sha256, sha256(TAKEN), "what is kept is not what the camera handed over");
    assert.equal(photo.length, TAKEN.length);
    const kept = await filesUnder("photos");
    const plainName = (name) => name.replace(/-[0-9a-f]{16}\//, "-ID/").replace(photo.sha256, "SHA");
    assert.deepEqual(Object.keys(kept).map(plainName).sort(), ["photos-ID/SHA", "photos-ID/SHA.small"]);
    for (const [name, bytes] of Object.entries(kept)) {
      assert.equal(bytes[0], 1, name);
      assert.ok(!Buffer.from(bytes).includes("Demo maker"), name);
      assert.notEqual(sha256(bytes), photo.sha256);
    }
    await ada.meetsOffice();
    // The office holds what the entry names: it checked the digest.
    await until("the photograph is at the office", async () => (await photosWaiting()) === 0, 15_000);
  },
);

chapter("who wants the place inside says so once, and gets the camera's own bytes", async () => {
  const choices = ada.page.locator('.name:has-text("inside photos") + .keys .key');
  await ada.goesTo("setup//");
  await choices.first().tap();
  assert.equal((await takesPhoto()).sha256, sha256(TAKEN));
  await ada.goesTo("setup//");
  await choices.last().tap();
});

/** Runs in the page: lays a photograph open into the folder where photographs lay before they were sealed. */
async function laysOpen([name, bytes]) {
  const root = await navigator.storage.getDirectory();
  const folder = await root.getDirectoryHandle("photos", { create: true });
  const file = await folder.getFileHandle(name, { create: true });
  const stream = await file.createWritable();
  await stream.write(new Uint8Array(bytes));
  await stream.close();
}

chapter(
  "a photograph that lay open from before is sealed at the next start, and shown all the time",
  async () => {
    const bare = new Uint8Array(readFileSync(inPhone("test/pictures/place-mm.jpg")));
    const name = sha256(bare);
    await ada.page.evaluate(laysOpen, [name, [...bare]]);
    await ada.page.reload();
    await ada.page.waitForSelector(".screen .foot");
    const open = async () => Object.keys(await filesUnder("photos/"));
    await until("nothing lies open", async () => (await open()).length === 0, 8_000);
    assert.ok(Object.keys(await filesUnder("photos-")).some((path) => path.endsWith(name)));
  },
);

chapter("a PIN for the phone is chosen twice; a weak one, and two that differ, are refused", async () => {
  await ada.goesTo("guard//");
  await ada.taps("Choose the phone’s PIN", ".go");
  await ada.reads("six digits that nobody guesses");
  await look("make");
  await ada.typesPin(WEAK);
  await ada.reads("Once more");
  await ada.typesPin(WEAK);
  await ada.reads("too easy to guess");
  await ada.typesPin(PIN);
  await ada.reads("Once more");
  await ada.typesPin("294612");
  await ada.reads("not the same");
  await ada.typesPin(PIN);
  await ada.reads("Once more");
  await ada.typesPin(PIN);
  await ada.reads("Opens with a PIN");
  await look("on");
  await ada.taps("5 min", ".keys .key");
});

chapter(
  "locked, nothing of the records is on the screen or in the page, but whom to call and what to beware of",
  async () => {
    await ada.goesTo(carScreen(visit));
    await ada.page.waitForSelector(".plan");
    await ada.goesTo("guard//");
    await later(300);
    await ada.asks("setDraft", "something", "half typed");
    await locksNow();
    await ada.reads("Caution at 6 cars");
    await look("locked");
    await ada.taps("Caution at", ".lead");
    await ada.reads("QZQX 104417 · Track 2, spot 1");
    await ada.reads("One thread engaged at liquid B");
    await look("cautions");
    await ada.taps("Back", ".foot .go");
    await isLocked();

    const noAnswer = later(1_500).then(() => {
      throw new Error("no answer");
    });
    await assert.rejects(Promise.race([ada.asks("drafts"), noAnswer]), /no answer/);
    assert.doesNotMatch(await ada.text(), /liquid B valve|Ada \(demo\)/);

    await ada.taps("Help", ".foot button");
    await ada.reads("Call first");
    await ada.reads("Fire and rescue");
    await ada.reads("Panel button");
    await look("help");
    await ada.confirms();
    await isLocked();
    await ada.goesTo("history//");
    await isLocked();
    await ada.page.reload();
    await isLocked();
  },
);

/** Loads the locked screen anew with other settings. */
async function isShownWith(settings) {
  await ada.changesSettings(settings);
  await ada.page.reload();
  await ada.page.waitForSelector(".pad");
}

chapter(
  "the locked screen in Spanish, at the largest text by night, and for who forgot the PIN",
  async () => {
    await isShownWith({ lang: "es-MX" });
    await look("locked-es");
    await isShownWith({ lang: "en-US", scale: 1.3, look: "night" });
    await look("locked-large");
    await isShownWith({ scale: 1, look: "auto" });
    await ada.taps("Forgot it", ".pad button");
    await ada.reads("not even the office");
    await look("forgotten");
    await ada.taps("Back", ".foot .go");
    await isLocked();
  },
);

chapter("a wrong PIN says so, the right one opens where one was, with everything", async () => {
  await ada.typesPin(WRONG);
  await ada.reads("Wrong PIN");
  await look("wrong");
  const began = Date.now();
  await ada.typesPin(PIN);
  await isUnlocked();
  const took = Date.now() - began;
  await ada.goesTo(carScreen(visit));
  await ada.page.waitForSelector(".plan");
  assert.equal((await ada.asksFor("drafts")).something, "half typed");
  await ada.goesTo(photoScreen(visit));
  await ada.page.waitForSelector("figure canvas[data-drawn]");
  await ada.meetsOffice();
  return `(opened in ${took} ms)`;
});

/** Runs in the page: lets the time go by that the lock waits after wrong tries. */
async function letsTheWaitGoBy() {
  const answer = (request) =>
    new Promise((yes) => {
      request.onsuccess = () => yes(request.result);
    });
  const base = await answer(indexedDB.open("farsiding", 1));
  const rows = base.transaction("key", "readwrite").objectStore("key");
  const kept = await answer(rows.get("kept"));
  kept.lock.last = 0;
  await answer(rows.put(kept, "kept"));
  base.close();
}

chapter("after five wrong ones it waits, and says until when", async () => {
  await ada.goesTo("guard//");
  await locksNow();
  for (let n = 0; n < 5; n++) {
    await ada.typesPin(WRONG);
    await ada.page.waitForFunction(() => {
      const said = document.querySelector(".said")?.textContent ?? "";
      return document.querySelectorAll(".dots .in").length === 0 && /Wrong|Too many/.test(said);
    });
  }
  await ada.reads("Too many wrong tries. Try again at");
  await look("waits");
  await ada.typesPin(PIN);
  await ada.reads("Too many wrong tries. Try again at");
  await ada.page.evaluate(letsTheWaitGoBy);
  await ada.typesPin(PIN);
  await isUnlocked();
});

/** Sets the page's clock ahead by so many minutes, or right again. */
function clockJumps(minutes) {
  return ada.page.evaluate((minutes) => {
    const Real = (window.RealDate ??= Date);
    window.Date = class extends Real {
      constructor(...given) {
        if (given.length) super(...given);
        else super(Real.now() + minutes * 60_000);
      }
      static now() {
        return Real.now() + minutes * 60_000;
      }
    };
  }, minutes);
}

chapter("left alone it locks by itself; in use, or while the camera is up, it does not", async () => {
  await ada.goesTo("cars//");
  await ada.seesCar("104417");
  await clockJumps(4);
  await later(6_000);
  assert.match(await ada.text(), /104417/);
  assert.doesNotMatch(await ada.text(), /The phone’s PIN/);
  await clockJumps(6);
  await isLocked();
  await later(6_000);
  await clockJumps(0);
  assert.deepEqual(ada.complaints, [], "and stays so");
  await ada.typesPin(PIN);
  await ada.seesCar("104417");
});

chapter("the PIN is ended with the PIN alone, and nothing of it is left", async () => {
  await ada.goesTo("guard//");
  await ada.taps("Open without a PIN", ".keys .key");
  await ada.reads("The phone’s PIN so far");
  await look("end");
  await ada.typesPin(WRONG);
  await ada.reads("Wrong PIN");
  await ada.typesPin(PIN);
  await ada.reads("Opens without a PIN");
  await ada.page.reload();
  await ada.reads("Opens without a PIN");
  assert.equal(await ada.page.evaluate(() => localStorage.getItem("farsiding.cautions")), null);
});

chapter(
  "where the browser makes no such keys, the phone says that everything lies open and offers no lock",
  async () => {
    const other = phoneInWindow("open", { mayComplain: true });
    await other.opens(await browser(), {
      worker: "Reflect.deleteProperty(SubtleCrypto.prototype, 'generateKey');\n",
    });
    await other.page.goto(other.appAt("#guard//"));
    await other.reads("Anybody who copies this phone’s files");
    assert.match(await other.text(), /so there is none/);
    await looks.at(other.page, "open", { axe: false });
    await other.closes();
  },
);

chapter("on every screen nothing falls short of what is measured", () => looks.nothingFallsShort());
