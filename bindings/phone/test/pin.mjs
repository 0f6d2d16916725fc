// People with keys of their own, on the app as built against a real office: a PIN is made (and a weak one,
// and two that differ, refused), signs one act, is wrong, waits, is skipped in one tap, changed, forgotten;
// the office confirms, sets the shift and ends a key. Looks at each screen at 360x640 and 390x844; pictures
// in OUT.
import assert from "node:assert/strict";
import { carScreen, formScreen } from "./stage/screens.mjs";
import { setsStage } from "./stage/setting.mjs";
import { chapter } from "./stage/story.mjs";
import { Looks } from "./stage/looking.mjs";

const { office, browser, phoneInWindow } = setsStage({ quotas: [] });
const ada = phoneInWindow("pin");
const looks = new Looks("pin");
const look = (name) => looks.at(ada.page, name);
let visit = "";

const WEAK = "123456";
const FIRST = "294611";
const WRONG = "111222";
const SECOND = "830274";
const THIRD = "573920";

const peopleHere = () => ada.asksFor("peopleHere");
const isLifted = async (hold) => (await ada.view(visit)).holds.find(({ id }) => id === hold).lifted !== null;

/** Puts the car on hold in the records, without the screens; returns the hold. */
async function putsOnHold() {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  const hold = [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  await ada.says(visit, { hold: { hold, because: "rehearsal" } });
  return hold;
}

/** Fills in the form that lifts a hold. Lifting binds a person, so it asks for a PIN where there is one. */
async function fillsInLifting(hold) {
  await ada.goesTo(formScreen(visit, "lift", hold));
  await ada.page.waitForSelector("textarea");
  await ada.page.fill("textarea", "It is over");
}

const confirmsForm = () => ada.page.locator(".under .foot .go").last().tap();
const isAskedForPin = () => ada.page.waitForSelector(".over");

/** Types a new PIN twice. */
async function choosesPin(pin, again = pin) {
  await ada.typesPin(pin);
  await ada.reads("Once more");
  await ada.typesPin(again);
}

chapter("without a PIN nothing is in the way, and the screen says who names the person", async () => {
  await office.opens();
  office.namesSiteInFull();
  await ada.opens(await browser());
  await ada.enrols("Ada", "pin phone");
  visit = await ada.opensVisit({ car: "QZQX 104417", spot: "Track 1" });

  const hold = await putsOnHold();
  await fillsInLifting(hold);
  await ada.reads("Named by the phone, not signed by you");
  await look("unsigned");
  await confirmsForm();
  await ada.leaves("form");
  assert.equal(await isLifted(hold), true);
  assert.deepEqual((await peopleHere()).keys, []);
});

chapter("a PIN is offered, made twice, and refused when weak or when the two differ", async () => {
  await ada.goesTo("cars");
  await ada.page.waitForSelector('.lead:has-text("Make your PIN")');
  await look("cars-offer");
  await ada.taps("Make your PIN", ".lead");
  await ada.reads("Not signed by you");
  await look("none");
  await ada.taps("Make your PIN", ".go");
  await ada.reads("six digits that nobody guesses");
  await look("make");
  await choosesPin(WEAK);
  await ada.reads("too easy to guess");
  await choosesPin(FIRST, "294612");
  await ada.reads("not the same");
  await ada.typesPin(FIRST);
  await ada.reads("Once more");
  await look("again");
  const began = Date.now();
  await ada.typesPin(FIRST);
  await ada.reads("The office will ask you for these digits");
  await look("have");
  assert.equal((await peopleHere()).keys.length, 1);
  return `(made in ${Date.now() - began} ms)`;
});

chapter("what it was unlocked for is signed; the next act asks, and what was typed waits", async () => {
  const first = await putsOnHold();
  await fillsInLifting(first);
  await confirmsForm();
  await ada.leaves("form");
  assert.equal((await peopleHere()).holder, null, "one act");

  const second = await putsOnHold();
  await fillsInLifting(second);
  await confirmsForm();
  await isAskedForPin();
  await ada.reads("It signs what you are about to record");
  await look("ask");
  await ada.typesPin(WRONG);
  await ada.reads("Wrong PIN. 9 tries left");
  await look("wrong");
  await ada.page.locator(".over .back").tap();
  await ada.page.waitForSelector(".over", { state: "detached" });
  assert.equal(await ada.page.inputValue("textarea"), "It is over");
  assert.equal(await isLifted(second), false, "turning back records nothing");

  await confirmsForm();
  await isAskedForPin();
  const began = Date.now();
  await ada.typesPin(FIRST);
  await ada.leaves("form");
  const took = Date.now() - began;
  assert.equal(await isLifted(second), true);
  return `(six digits, unlocked and recorded in ${took} ms)`;
});

chapter("in the rain it is skipped with one tap", async () => {
  const hold = await putsOnHold();
  await fillsInLifting(hold);
  await confirmsForm();
  await isAskedForPin();
  await ada.page.locator(".over .go").tap();
  await ada.leaves("form");
  assert.equal(await isLifted(hold), true);
});

chapter("wrong tries wait longer, and another tab or a reload gives none back", async () => {
  await fillsInLifting(await putsOnHold());
  await confirmsForm();
  await isAskedForPin();
  for (let left = 9; left >= 5; left--) {
    await ada.typesPin(WRONG);
    await ada.reads(`${left} tries left`);
  }
  await ada.typesPin(FIRST);
  await ada.reads("Too many wrong tries");
  await look("waits");
  await ada.page.reload();
  await ada.page.waitForSelector("textarea");
  await confirmsForm();
  await isAskedForPin();
  await ada.typesPin(FIRST);
  await ada.reads("Too many wrong tries");

  await ada.taps("Forgot it", ".over button");
  await ada.reads("Forgot the PIN");
  await look("forgotten");
  await ada.taps("Delete the key", ".go");
  await ada.reads("six digits that nobody guesses");
  await choosesPin(SECOND);
  await ada.reads("The office will ask");
  assert.equal((await peopleHere()).keys[0].tries_left, 10);
});

chapter("a PIN is changed", async () => {
  await ada.goesTo("pin//");
  await ada.taps("Change the PIN", ".lead");
  await ada.reads("Your PIN so far");
  await look("change");
  await ada.typesPin(SECOND);
  await ada.reads("six digits that nobody guesses");
  await choosesPin(THIRD);
  await ada.page.waitForSelector(".digits");
  await assert.rejects(ada.asks("unlockPerson", "ada", SECOND), /WrongPin/);
  await ada.asks("unlockPerson", "ada", THIRD);
  await ada.asks("lockPeople");
});

let clerk;
let fingerprint = "";

chapter("the office confirms by the sixteen digits, and the phone says so", async () => {
  clerk = office.enrolsDevice("clerk", "office");
  ({ fingerprint } = (await peopleHere()).keys[0]);
  await ada.meetsOffice();
  clerk("sync");
  assert.throws(() => clerk("confirm-key", "ada", "0000", "0000", "0000", "0000"));
  clerk("confirm-key", "ada", ...fingerprint.split(" "));
  clerk("rules", "shift");
  clerk("sync");
  await ada.meetsOffice();
  await ada.goesTo("pin//");
  await ada.reads("The office has confirmed your key");
});

chapter(
  "where the office sets the shift, a PIN unlocks for the shift, and the phone says who holds it",
  async () => {
    await ada.goesTo("cars//");
    await fillsInLifting(await putsOnHold());
    await confirmsForm();
    await isAskedForPin();
    await ada.reads("until the end of the shift");
    await ada.typesPin(THIRD);
    await ada.leaves("form");
    await fillsInLifting(await putsOnHold());
    await confirmsForm();
    await ada.leaves("form");
    const { history } = await ada.view(visit);
    assert.equal(history.filter((line) => line.slot === "series/held_by").length, 1);
    await ada.goesTo(carScreen(visit));
    await ada.reads("held by Ada");
    await ada.goesTo(`history/${visit}/`);
    await ada.page.waitForSelector("ol.sink li");
    await ada.reads("held by Ada");
    await look("held");

    const holder = '.lead:has-text("holds this phone")';
    await ada.goesTo("cars//");
    await ada.page.waitForSelector(holder);
    await look("holder");
    await ada.taps("holds this phone", ".lead");
    await ada.page.waitForSelector(holder, { state: "detached" });
  },
);

chapter("the office ends a key, and the phone says so", async () => {
  clerk("end-key", "ada", fingerprint.slice(0, 9), "--why", "left");
  clerk("sync");
  await ada.meetsOffice();
  await ada.goesTo("pin//");
  await ada.reads("The office ended your key");
  await look("ended");
});

chapter("on every screen nothing falls short of what is measured", () => looks.nothingFallsShort());
