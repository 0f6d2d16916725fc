// The browser of the people at the office: windows of a size and a colour scheme, pages that are watched, and
// signing in.
import { after } from "node:test";
import { chromium } from "playwright-core";
import { isWitnessed, screenOf } from "../../../bindings/phone/test/stage/story.mjs";
import { CLERK, PASSWORD } from "./server.mjs";

export const LAPTOP = { viewport: { width: 1280, height: 800 }, colorScheme: "light" };
export const LAPTOP_BY_NIGHT = { ...LAPTOP, colorScheme: "dark" };
export const TABLET = { viewport: { width: 820, height: 1180 }, colorScheme: "light" };
export const TABLET_BY_NIGHT = { ...TABLET, colorScheme: "dark" };
export const PAPER = { viewport: { width: 1000, height: 1000 }, colorScheme: "light" };

const complaints = [];
const contexts = [];
let browser;
after(() => browser?.close());
isWitnessed({
  complaints,
  screens: () => Promise.all(contexts.flatMap((context) => context.pages()).map((page) => screenOf(page))),
});

/** Opens a window with one page in it, which is watched. */
export async function opensPage(how = LAPTOP) {
  browser ??= await chromium.launch({ executablePath: process.env.CHROMIUM, args: ["--no-sandbox"] });
  const context = await browser.newContext(how);
  contexts.push(context);
  return watches(await context.newPage());
}

/** Opens another page in the window of a page. */
export const opensBeside = async (page) => watches(await page.context().newPage());

/** Notes whatever a page complains of. That the office refuses a request is no complaint. */
function watches(page) {
  page.on("pageerror", (error) => complaints.push(error.message));
  page.on("console", (message) => {
    const isRefusal = /40[0-9]|422/.test(message.text());
    if (message.type() === "error" && !isRefusal) complaints.push(`the page says: ${message.text()}`);
  });
  return page;
}

/** Types a name and the password on the page for signing in. */
export async function givesPassword(page, base, name = CLERK, password = PASSWORD) {
  if (!page.url().startsWith(`${base}/office/sign-in`)) await page.goto(`${base}/office/sign-in`);
  await page.fill("#name", name.toLowerCase());
  await page.fill("#password", password);
  await page.click("button.go");
}

export async function signsIn(page, base) {
  await page.goto(`${base}/office/`);
  await givesPassword(page, base);
  await page.waitForURL(`${base}/office/`);
}
