// Two phones on one car with nothing between them but a file: both open a record, say different things, one corrects and withdraws, the
// other skips a step, they are joined, they settle, hand over; photographs travel along; and in the end both phones and the office fold
// the very same view.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { pictures } from "./pictures.mjs";
import { stories, until } from "./stage.mjs";

await stories(async ({ home, office, phone, test }) => {
  await office.start();
  office.furnish();
  const [a, b] = [phone("a"), phone("b")];
  for (const [p, who] of [
    [a, "Ada"],
    [b, "Ben"],
  ]) {
    await p.open();
    await p.enrol(who);
  }
  await office.stop(); // from here on they have each other and nobody else
  let files = 0;
  /** One phone makes a file on its screen, the other takes it in on its own. Returns what the taker says. */
  const carry = async (from, to) => {
    await from.go("carry//");
    const saved = from.page.waitForEvent("download");
    await from.tap("Make a carry file");
    const file = join(home, `${++files}.carry`);
    await (await saved).saveAs(file);
    await to.go("carry//");
    await to.page.setInputFiles('input[type="file"]', file);
    const said = await until(
      "it says what it took",
      async () => (await to.page.locator(".said").textContent()) ?? false,
    );
    await to.go("cars//");
    return said;
  };
  let mine = "",
    theirs = "",
    picture;
  await test("both open a record of one car, and a photograph travels in the file", async () => {
    mine = await a.car("104417", "Track 2, spot 2");
    theirs = await b.car("104417", "Track 2, spot 2");
    await a.valve(mine, "vapour", "Shut");
    await a.go(`photo/${mine}/${encodeURIComponent("housing|")}`);
    [picture] = await pictures(a.page, 1);
    await a.page.setInputFiles('input[type="file"]', {
      name: picture.name,
      mimeType: picture.mimeType,
      buffer: picture.buffer,
    });
    await a.seen("1 photos");
    const said = await carry(a, b);
    assert.match(said, /, 1 photos$/);
    assert.ok(picture.sha256 in (await b.photoFiles()), "kept under the digest of what came, byte for byte");
    await b.go(`photo/${mine}/${encodeURIComponent("housing|")}`);
    await b.page.waitForSelector(".grid canvas[data-drawn]");
    return `(${said.trim()}; ${readFileSync(join(home, "1.carry")).length} bytes)`;
  });
  await test("the other record of the same stay is offered, and one word joins them on both", async () => {
    await b.go(`more/${theirs}/`);
    await b.seen("is it the same stay?");
    await b.tap("Same stay");
    await b.page.waitForSelector("textarea");
    await b.page.locator(".foot .go").tap();
    await b.page.waitForFunction(() => !location.hash.startsWith("#form"));
    await b.go("cars//");
    assert.equal(await b.page.locator(".car").count(), 1);
    await carry(b, a);
    await a.page.waitForFunction(() => document.querySelectorAll(".car").length === 1);
  });
  await test("apart they say different things; together both accounts stand, and one word with a reason settles it", async () => {
    await b.valve(theirs, "liquid_a", "Open");
    await a.valve(mine, "liquid_a", "Shut");
    await carry(a, b);
    await carry(b, a);
    for (const p of [a, b]) {
      await p.go(`differ/${mine}`);
      await p.page.waitForFunction(() => document.querySelectorAll(".sides section").length === 2);
    }
    await b.page.locator(".sides section:has-text('shut') .key").first().tap();
    await b.page.waitForSelector("textarea");
    await b.page.fill("textarea", "Looked together");
    await b.page.locator(".foot .go").tap();
    await b.seen("Nothing differs");
    await carry(b, a);
    await a.go(`differ/${mine}`);
    await a.seen("Nothing differs");
  });
  const lastEntry = async (p, visit, sentence) => {
    await p.go(`history/${visit}`);
    await p.page.locator(`ol li button:has-text("${sentence}")`).first().tap();
    await p.page.waitForFunction(() => location.hash.startsWith("#entry"));
  };
  await test("an entry is put right and another taken back, each with its reason; the first words stay readable", async () => {
    await a.go(a.figure(mine));
    await a.press("4", "2");
    await a.page.locator(".foot .go").tap();
    await a.page.waitForFunction(() => !location.hash.startsWith("#figure"));
    await lastEntry(a, mine, "42");
    await a.tap("Put it right");
    await a.page.waitForSelector(".instead");
    await a.press("4", ".", "2");
    await a.page.locator(".foot .go").tap();
    await a.seen("Say why first");
    await a.tap("Read");
    await a.page.fill(".instead input", "Slipped on the key");
    await a.page.locator(".foot .go").tap();
    await a.page.waitForFunction(() => !location.hash.startsWith("#figure"));
    await a.remark(mine, "wrong car, sorry");
    await lastEntry(a, mine, "wrong car, sorry");
    await a.page.locator(".keys .key").first().tap();
    await a.page.waitForSelector("textarea");
    assert.equal(await a.page.getAttribute(".foot .go", "aria-disabled"), "true");
    await a.page.fill("textarea", "Meant for the next car");
    await a.page.locator(".foot .go").tap();
    await a.page.waitForFunction(() => !location.hash.startsWith("#form"));
    await a.go(`history/${mine}`);
    await a.page.waitForFunction(() => document.querySelectorAll("ol .struck").length === 2);
    const struck = await a.page.locator("ol .struck").allTextContents();
    assert.ok(
      struck.some((line) => /42 psi/.test(line)) && struck.some((line) => /wrong car/.test(line)),
      struck.join(" | "),
    );
  });
  await test("a step is skipped with a reason, and the car handed over and taken", async () => {
    await b.go(`step/${theirs}/`);
    const title = await b.page.locator("h1").first().textContent();
    await b.page.locator('.key:has-text("Skip")').first().tap();
    await b.page.waitForSelector("textarea");
    assert.equal(await b.page.getAttribute(".foot .go", "aria-disabled"), "true");
    await b.page.fill("textarea", "No second person today");
    await b.page.locator(".foot .go").tap();
    await b.page.waitForFunction(() => !location.hash.startsWith("#form"));
    await b.go(`step/${theirs}/`);
    await b.page.waitForFunction((was) => document.querySelector("h1")?.textContent !== was, title);
    await b.go(`form/${theirs}/${encodeURIComponent("give|")}`);
    await b.tap("Ada", ".key");
    await b.page.locator(".foot .go").tap();
    await b.page.waitForFunction(() => !location.hash.startsWith("#form"));
    await carry(b, a);
    await a.go(`more/${mine}/`);
    await a.page.locator(".lead.hot").first().tap();
    await a.page.waitForFunction(() => location.hash.startsWith("#form"));
    await a.page.locator(".foot .go").tap();
    await a.page.waitForFunction(() => !location.hash.startsWith("#form"));
    await carry(a, b);
    for (const p of [a, b])
      assert.ok(
        (await p.history(mine)).some((line) => /took over|taken|hand/i.test(line)),
        (await p.history(mine)).join(" | "),
      );
  });
  await test("through the office both phones and the office fold the very same view", async () => {
    await office.start();
    for (const p of [a, b, a, b]) await p.sync();
    const views = [office.view(mine), await a.view(mine), await b.view(mine)];
    // What is rightly another on each device, by name. `brief.until` of a car that still stands is the moment of looking.
    const local = (view) => {
      view.brief.until = null;
      return view;
    };
    const [ours, onA, onB] = views.map(local);
    assert.equal(ours.unreceipted, 0, "everything has its receipt everywhere");
    assert.deepEqual(onA, ours);
    assert.deepEqual(onB, ours);
    return `(${ours.entries} entries, ${JSON.stringify(ours).length} bytes of view, nothing left out but the moment of looking)`;
  });
  await test("the photograph is at the office once, whoever sent it", async () => {
    for (const p of [a, b]) {
      await p.back("#only_here//");
      await p.sync();
      await p.page.waitForFunction(() =>
        [...document.querySelectorAll(".count")].every((n) => n.textContent === "0"),
      );
    }
  });
});
