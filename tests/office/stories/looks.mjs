// Every page by day and by night, on a laptop, on a tablet and on paper.
import { join } from "node:path";
import { chapter } from "../../../bindings/phone/test/stage/story.mjs";
import {
  LAPTOP,
  LAPTOP_BY_NIGHT,
  PAPER,
  TABLET,
  TABLET_BY_NIGHT,
  opensPage,
  signsIn,
} from "../stage/browser.mjs";
import { inspects, pictures, tellsWhatWasSeen } from "../stage/inspect.mjs";
import { pagesOf, pagesOfStranger } from "../stage/paths.mjs";
import { played } from "../stage/played.mjs";
import { SHOTS } from "../stage/programs.mjs";

/** Looks at all pages in a window of a kind. */
async function looksAtAll(name, how, { printed = false } = {}) {
  const { base, link } = played;
  const page = await opensPage(how);
  await page.emulateMedia({ media: printed ? "print" : "screen", colorScheme: how.colorScheme });
  for (const [what, path] of Object.entries(pagesOfStranger(played))) {
    await page.goto(base + path);
    await inspects(page, what, name, { printed });
  }
  await signsIn(page, base);
  await page.goto(`${base}/office/inquiry?q=K400107`);
  const wholeVisit = await page.getAttribute(".found a.num", "href");
  for (const [what, path] of Object.entries({ ...pagesOf(played), "whole-visit": wholeVisit })) {
    await page.goto(base + path);
    await page.evaluate(loadsImages);
    await inspects(page, what, name, { printed });
    if (name === "day") await picturesForReadme(page, what);
    if (printed && what.endsWith("visit"))
      await page.pdf({ path: join(SHOTS, `${what}.pdf`), format: "Letter" });
  }

  // As an inspector has it: one record, nothing to press but its packet.
  await page.context().clearCookies();
  await page.goto(link);
  await page.click("text=Open the record");
  await page.waitForSelector("text=Event log");
  await inspects(page, "inspector", name, { printed });
  await page.goto(`${base}/office/`);
  await inspects(page, "not-yours", name, { printed });
  await page.context().close();
}

/** Runs in the page: loads the images that would be loaded when they are scrolled to. */
function loadsImages() {
  for (const image of document.querySelectorAll("img[loading=lazy]")) image.loading = "eager";
  return Promise.all([...document.images].map((image) => image.decode().catch(() => {})));
}

async function picturesForReadme(page, what) {
  if (what === "today") await pictures(page, "today");
  if (what !== "whole-visit") return;
  const heading = page.getByRole("heading", { name: "The car", exact: true });
  await heading.evaluate((found) => found.scrollIntoView());
  await pictures(page, "visit");
  await page.evaluate(() => scrollTo(0, 0));
}

chapter(
  "on a laptop axe finds nothing on any page, and text and targets are large enough, by day and by night",
  () => Promise.all([looksAtAll("day", LAPTOP), looksAtAll("night", LAPTOP_BY_NIGHT)]),
);
chapter("and so on a tablet", () =>
  Promise.all([looksAtAll("tablet", TABLET), looksAtAll("tablet-night", TABLET_BY_NIGHT)]),
);
chapter("and so on paper", () => looksAtAll("paper", PAPER, { printed: true }));
chapter("what was looked at is told", () =>
  tellsWhatWasSeen("pages by day and night, on laptop, tablet and paper"),
);
