// Three hundred photographs: taken through the camera's key, kept whole on the phone, sent after the records,
// cut in the middle and gone on with, and at the office byte for byte. FIELD_PHOTOS takes another number.
import assert from "node:assert/strict";
import { createHash } from "node:crypto";
import { readFileSync, readdirSync, unlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { aPicture, pictures } from "../stage/pictures.mjs";
import { photoScreen } from "../stage/screens.mjs";
import { setsStage } from "../stage/setting.mjs";
import { chapter, measured } from "../stage/story.mjs";
import { later, until } from "../stage/waiting.mjs";

const COUNT = Number(process.env.FIELD_PHOTOS ?? 300);
/**
 * Megabytes that the browser's pages and workers may hold more than before the first photograph, once it let
 * go of what it may.
 */
const MORE_MEMORY = 150;
/** What sealing adds to a photograph: a byte of form, a nonce and a tag. */
const SEAL = 29;

const { home, office, phoneOnDisk } = setsStage();
const ada = phoneOnDisk("a");
/** Every photograph taken: its digest, and its length. */
const taken = new Map();
let visit = "";
let memoryAtMost = 0;
let memoryBefore = 0;

const sha256 = (bytes) => createHash("sha256").update(bytes).digest("hex");
const filesUnder = (folder) =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name));
/** The whole photographs at the office, as files named by their digest. */
const atOffice = () => filesUnder(join(office.data, "photos")).filter((file) => /\/[0-9a-f]{64}$/.test(file));

/** Memory once rubbish is collected and the browser was told that the phone needs it back. */
async function settledMemory() {
  for (const scope of [ada.page, ...ada.page.workers()]) await scope.evaluate(() => globalThis.gc());
  await ada.side.send("Memory.simulatePressureNotification", { level: "critical" });
  await later(1500);
  return ada.memory();
}
const notesMemory = () => (memoryAtMost = Math.max(memoryAtMost, ada.memory()));

chapter("a photograph belongs to the car it was taken at, whatever is open when it is kept", async () => {
  await office.opens();
  office.namesSiteAndPeople();
  await ada.opens({ args: ["--js-flags=--expose-gc"] });
  await ada.enrols("Ada");
  visit = await ada.opensCar("104417", "Track 2, spot 2");
  await ada.meetsOffice();

  const other = await ada.opensCar("104471", "Track 2, spot 1");
  await ada.goesTo(photoScreen(visit, "housing"));
  await ada.page.waitForSelector('input[type="file"]', { state: "attached" });
  const picture = await aPicture(ada.page, 1e9);
  await ada.page.evaluate(
    (next) => {
      const input = document.querySelector('input[type="file"]');
      input.addEventListener("change", () => (location.hash = next));
    },
    photoScreen(other, "seal"),
  );
  await ada.handsInPicture(picture);
  await ada.page.waitForFunction((visit) => location.hash.includes(visit), other);
  await later(1500);
  await ada.sees("No photo yet");
  await ada.goesTo(photoScreen(visit));
  await ada.sees("1 photo");
  await ada.sees("Open housing");
  taken.set(picture.sha256, picture.buffer.length);
});

/**
 * Takes one photograph as a camera does, through a file; returns how long it took until the screen counted
 * it.
 */
async function takes(picture, count) {
  const file = join(home, picture.name);
  writeFileSync(file, picture.buffer);
  const began = performance.now();
  await ada.handsInPicture(file);
  await ada.page.waitForFunction(
    (many) => document.querySelector("h1")?.textContent === `${many} photos`,
    count,
  );
  const took = performance.now() - began;
  unlinkSync(file);
  taken.set(picture.sha256, picture.buffer.length);
  return took;
}

chapter("each photograph is on the phone whole, under its own digest, with a small picture", async () => {
  await office.closes();
  memoryBefore = await settledMemory();
  assert.ok(memoryBefore > 0, "the memory was measured");
  await ada.goesTo(photoScreen(visit));
  const times = [];
  let bytes = 0;
  for (let first = 1; first < COUNT; first += 20) {
    const some = await pictures(ada.page, Math.min(20, COUNT - first), first);
    for (const [n, picture] of some.entries()) {
      times.push(await takes(picture, first + n + 1));
      bytes += picture.buffer.length;
    }
    notesMemory();
  }
  assert.equal(taken.size, COUNT);
  const files = await ada.photoFiles();
  for (const [digest, length] of taken) {
    assert.equal(files[digest], length + SEAL, "sealed");
    assert.ok(files[`${digest}.small`] < 60_000);
  }
  times.sort((x, y) => x - y);
  const median = times[times.length >> 1];
  const took = `${median.toFixed(0)} ms median, ${times.at(-1).toFixed(0)} ms at most of ${COUNT}`;
  measured(`phone photo to recorded ${took} (aim < 1000 median)`);
  assert.ok(median < 1000);
  return `(${(bytes / 1e6).toFixed(0)} MB)`;
});

/** Runs in the page: taps Shut and returns how long it took until the key was marked. */
async function tapsShut() {
  const key = () =>
    [...document.querySelectorAll(".keys button")].find((b) => b.textContent.trim() === "Closed");
  const began = performance.now();
  key().click();
  while (key().getAttribute("aria-pressed") !== "true") await new Promise(requestAnimationFrame);
  return performance.now() - began;
}

chapter("records go before photographs, and one made meanwhile goes before the next", async () => {
  await office.opens();
  await ada.goesTo("only_here//");
  void ada.confirms();
  await until("photographs arrive", () => atOffice().length > COUNT / 10, 60_000);
  assert.ok(atOffice().length < COUNT, "not all at once");
  assert.equal(office.view(visit).photos.length, COUNT, "every entry was there before");

  await ada.goesTo(`car/${visit}/vapour`);
  await ada.page.waitForSelector(".plan");
  const took = await ada.page.evaluate(tapsShut);
  const hasEntry = () =>
    office.view(visit).history.some((line) => /^Valve \(vapor valve\): closed/.test(line.sentence.text));
  await until("the office has the entry", hasEntry, 15_000);
  assert.ok(atOffice().length < COUNT, `photographs were still on their way: ${atOffice().length}`);
  measured(`phone tap to its mark while photos are sent ${took.toFixed(0)} ms (aim < 1000)`);
  assert.ok(took < 1000);
});

chapter("cut in the middle, it goes on where it stopped", async () => {
  await office.closes("SIGKILL");
  const begun = filesUnder(join(office.data, "uploads"));
  const before = new Set(atOffice().map((file) => file.slice(-64)));
  const missing = COUNT - before.size;
  assert.ok(missing > 0);

  await office.opens();
  const asked = [];
  ada.page.on("request", (request) => {
    if (request.method() === "PATCH") asked.push(request.url().slice(-64));
  });
  await ada.meetsOffice(120_000);
  await until("all are there", () => atOffice().length === COUNT, 60_000);
  notesMemory();
  const different = new Set(asked).size;
  const again = asked.filter((digest) => before.has(digest)).length;
  assert.ok(different <= missing + 1, `sent again: ${different} asked of ${missing}, ${again} were there`);
  return `(${before.size} were there, ${begun.length} begun)`;
});

chapter("the office has every byte, says so with its signature, and the phone keeps its own", async () => {
  const digests = atOffice().map((file) => sha256(readFileSync(file)));
  for (const digest of digests) assert.ok(taken.has(digest), digest);
  assert.equal(new Set(digests).size, COUNT);
  await ada.goesTo("only_here//");
  await ada.seesNothingLeftHere();
  assert.equal(Object.keys(await ada.photoFiles()).length, 2 * COUNT);
  const after = await settledMemory();

  await ada.opensBook();
  assert.deepEqual(await ada.asksFor("photosWaiting"), []);
  const drafts = Object.keys(await ada.asksFor("drafts"));
  assert.deepEqual(
    drafts.filter((key) => key.startsWith("sent/")),
    [],
  );
  const held = `${after.toFixed(0)} MB held with ${COUNT} photos taken and sent`;
  const most = `${memoryAtMost.toFixed(0)} MB at most on the way`;
  const aim = `(aim < ${MORE_MEMORY} MB more)`;
  measured(`phone memory ${memoryBefore.toFixed(0)} MB before, ${held}, ${most} ${aim}`);
  assert.ok(after - memoryBefore < MORE_MEMORY);
});
