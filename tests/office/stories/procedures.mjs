// A plant's own procedure: written on the pages without a line of TOML, published, received by two phones
// that were offline, followed on a new stay, and contained in the packet that both verifiers read.
import assert from "node:assert/strict";
import { join } from "node:path";
import { chapter } from "../../../bindings/phone/test/stage/story.mjs";
import { opensPage, signsIn } from "../stage/browser.mjs";
import { downloadsPacket } from "../stage/found.mjs";
import { inspects } from "../stage/inspect.mjs";
import { day, folder, phone, played } from "../stage/played.mjs";
import { verified } from "../stage/verifiers.mjs";

const PHONE = { viewport: { width: 390, height: 844 }, colorScheme: "light" };
const WHY_NO_BLOCKS = "wheel stops are built into the track (invented)";
let page;

const looksAt = (what) => inspects(page, what, "day");
const keeps = () => page.click("form.stack button.go");

chapter(
  "a step is switched off, and where law asks for it the reason is asked for beside the field",
  async () => {
    page = await opensPage();
    await signsIn(page, played.base);
    await page.click("nav >> text=Procedures");
    await looksAt("procedures-before");
    // The other siding has an edition of its own already; this one starts from the built-in edition.
    const starts = await page.locator("#from option").allInnerTexts();
    await page.selectOption("#from", { index: starts.findIndex((name) => !name.includes("(invented)")) });
    await page.click("button:has-text('Start a draft')");
    await page.waitForURL(/drafts\/\d+$/);
    await page.click("ol.steps a:has-text('Wheels blocked')");
    await page.uncheck("#on");
    await page.fill("[id='title.en-US']", "kept as it was typed");
    await keeps();
    await page.waitForSelector("#because-wrong");
    assert.equal(await page.inputValue("[id='title.en-US']"), "kept as it was typed");
    assert.equal(await page.isChecked("#on"), false);
    await looksAt("procedure-step-wrong");
    await page.fill("#because", WHY_NO_BLOCKS);
    await page.fill("[id='title.en-US']", "");
    await keeps();
    await page.waitForSelector(`text=${WHY_NO_BLOCKS}`);
  },
);

chapter("a step of the plant's own is added, moved up, and blocks unloading", async () => {
  await page.click("a:has-text('Add a step')");
  await looksAt("procedure-add-day");
  await page.selectOption("#stage", "gauge");
  await page.check("#blocks-unload");
  await page.fill("[id='title.en-US']", "Yard gate locked (invented)");
  await page.fill("[id='what_to_do.en-US']", "Lock the yard gate (invented).");
  await page.fill("[id='why.en-US']", "Nobody walks in (invented).");
  await keeps();
  await page.waitForSelector("ol.steps a:has-text('Yard gate locked')");
  await page.click("button[aria-label='Move up: Yard gate locked (invented)']");
  await page.fill("#edition", "Lantern 1 (invented)");
  await page.fill("#reading_interval_minutes", "3");
  await page.click("form:has(#edition) button.go");
  await page.waitForSelector("#reading_interval_minutes-wrong");
  await page.fill("#reading_interval_minutes", "30");
  await page.click("form:has(#edition) button.go");
  await page.waitForSelector("h1:has-text('Lantern 1')");
});

chapter("it is looked at as the phone shows it, and published with what was changed", async () => {
  await page.click("a:has-text('Preview')");
  const steps = await page.innerText("main");
  assert.ok(steps.indexOf("Yard gate locked") < steps.indexOf("Fit to unload"));
  await page.click("a:has-text('Back to the draft')");
  await page.click("a.go:has-text('Publish')");
  await page.waitForSelector(`text=${WHY_NO_BLOCKS}`);
  await page.fill("#note", "The gate of the yard (invented)");
  await page.click("button:has-text('Publish the edition')");
  await page.waitForURL(/procedures$/);
  await page.waitForSelector("text=The gate of the yard (invented)");
  await looksAt("procedures-published");
});

chapter("two phones that were offline receive it; a new stay follows it and is blocked by it", async () => {
  const car = ["--car", "ZZQX 31007", "--site", "lantern spur (invented)", "--spot", "track 2"];
  phone("phone-1", day("10:12"), "sync");
  const { visit } = phone("phone-1", day("10:13"), "open", ...car);
  phone("phone-1", day("10:14"), "add", visit, "remark", "at the gate");
  phone("phone-1", day("10:15"), "sync");
  phone("phone-2", day("10:16"), "sync");
  for (const name of ["phone-1", "phone-2"]) {
    const view = phone(name, day("10:17"), "show", visit).visit;
    assert.ok(view.header.procedure_known);
    assert.ok(view.steps.steps.some((step) => step.id === "own_1"));
    assert.ok(view.unloading.blockers.some((item) => item.code === "step_open.own_1"));
    assert.ok(!view.unloading.blockers.some((item) => item.code === "protection_not_set.chocks"));
  }
  phone("phone-1", day("10:18"), "add", visit, "check", "Yard gate locked (invented)", "right");
  const after = phone("phone-1", day("10:18"), "show", visit).visit;
  assert.ok(!after.unloading.blockers.some((item) => item.code === "step_open.own_1"));
  phone("phone-1", day("10:19"), "sync");
  await signsIn(page, played.base);
  await page.goto(`${played.base}/office/inquiry?q=ZZQX+31007`);
  await page.waitForSelector(".found li");
  const packet = join(folder, "own-procedure.pdf");
  await downloadsPacket(page, packet);
  assert.deepEqual(verified(packet).broken, []);
});

chapter(
  "an edition is taken back with a reason; a draft made from it stays for the other stories",
  async () => {
    await page.goto(`${played.base}/office/procedures`);
    await page.click("button:has-text('Start a draft')");
    await page.waitForURL(/drafts\/\d+$/);
    played.draft = /drafts\/(\d+)$/.exec(page.url())[1];
    await page.goto(`${played.base}/office/procedures`);
    await page.click("th a:has-text('Lantern 1')");
    played.edition = /editions\/([0-9a-f]+)$/.exec(page.url())[1];
    await page.click("button:has-text('Take back')");
    await page.waitForSelector("#because-wrong");
    await looksAt("procedure-take-back");
    await page.fill("#because", "the gate was moved (invented)");
    await page.click("button:has-text('Take back')");
    await page.waitForSelector("text=the gate was moved (invented)");
    await page.context().close();
    page = await opensPage(PHONE);
    await signsIn(page, played.base);
    for (const path of ["", `/drafts/${played.draft}`, `/drafts/${played.draft}/steps/chocks`]) {
      await page.goto(`${played.base}/office/procedures${path}`);
      await inspects(page, `procedures${path.replaceAll("/", "-")}`, "narrow");
    }
    await page.context().close();
  },
);
