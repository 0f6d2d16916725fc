// Two pages open: what is settled in one, and what a phone brings, shows in the other by itself.
import assert from "node:assert/strict";
import { chapter } from "../../../bindings/phone/test/stage/story.mjs";
import { opensBeside } from "../stage/browser.mjs";
import { inspects, pictures } from "../stage/inspect.mjs";
import { day, phone, played } from "../stage/played.mjs";

const BOTH_ACCOUNTS =
  /31 psi ± 3\.0 psig[\s\S]*27\.5 psi ± 0\.3 psig|27\.5 psi ± 0\.3 psig[\s\S]*31 psi ± 3\.0 psig/;
let other;

chapter("what is settled in one page shows in another without reloading it", async () => {
  const { page, base, visit, kept } = played;
  other = await opensBeside(page);
  await other.goto(`${base}/office/`);
  await page.goto(`${base}/office/visits/${visit}`);
  assert.match(await page.innerText("[aria-label=Readings]"), BOTH_ACCOUNTS);
  await inspects(page, "settle", "day");
  await pictures(page, "differ");
  await page.check(`input[value="${kept}"]`);
  await page.fill("textarea[name=why]", "Read together once more; PG-11 stands low on its scale.");
  await page.click(".settle button.go");
  await page.waitForSelector("text=how that was resolved");
  assert.equal(await page.locator("text=Two entries differ").count(), 0);
  const noMoreAccounts = () => !document.body.innerText.includes("Two entries differ:");
  await other.waitForFunction(noMoreAccounts, null, { timeout: 20_000 });
});

chapter("the phone has the settlement; its hold shows on the open overview", async () => {
  const { visit } = played;
  phone("phone-1", day("10:00"), "sync");
  const view = phone("phone-1", day("10:01"), "show", visit).visit;
  assert.equal(view.disagreements.length, 0);
  assert.equal(view.ended_disagreements[0].ended_by.said.name, "Clerk (invented)");
  phone("phone-1", day("10:02"), "add", visit, "hold", "frost ring low on the shell");
  phone("phone-1", day("10:03"), "sync");
  await other.waitForSelector("text=On hold: frost ring low on the shell", { timeout: 20_000 });
});
