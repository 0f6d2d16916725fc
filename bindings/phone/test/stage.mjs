// Serves a built app for the tests, and starts the browser they share.
import { chromium } from "playwright-core";
import { createServer } from "node:http";
import { readFile } from "node:fs/promises";
import { extname, join, normalize } from "node:path";
import { fileURLToPath } from "node:url";

const TYPES = {
  ".html": "text/html",
  ".js": "text/javascript",
  ".css": "text/css",
  ".svg": "image/svg+xml",
  ".png": "image/png",
  ".woff2": "font/woff2",
  ".wasm": "application/wasm",
  ".webmanifest": "application/manifest+json",
};
/** Serves `folder` under /app/ on a free port; `answer` may take a request first. */
export async function serve(folder, answer = () => false) {
  const server = createServer(async (request, response) => {
    if (await answer(request, response)) return;
    const path = decodeURIComponent(new URL(request.url, "http://x").pathname).replace(/^\/app\/?/, "");
    try {
      const file = join(folder, normalize(path || "index.html"));
      const bytes = await readFile(file);
      response
        .writeHead(200, {
          "content-type": TYPES[extname(file)] ?? "application/octet-stream",
          "cache-control": "no-cache",
        })
        .end(bytes);
    } catch {
      response.writeHead(404).end();
    }
  });
  await new Promise((up) => server.listen(0, "127.0.0.1", up));
  return {
    url: `http://127.0.0.1:${server.address().port}/app/`,
    close: () =>
      new Promise((down) => {
        server.closeAllConnections();
        server.close(down);
      }),
  };
}
/** A browser whose windows promise to keep what they are given, as an installed app's do: without that the app records nothing. */
export async function launch() {
  const browser = await chromium.launch({ executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium" });
  const side = await browser.newBrowserCDPSession(),
    plain = browser.newContext.bind(browser);
  browser.newContext = async (options) => {
    const context = await plain(options),
      page = await context.newPage(),
      own = await context.newCDPSession(page);
    const { targetInfo } = await own.send("Target.getTargetInfo");
    await side.send("Browser.grantPermissions", {
      permissions: ["durableStorage"],
      browserContextId: targetInfo.browserContextId,
    });
    await page.close();
    return context;
  };
  return browser;
}
/** Ends a program and waits until it has: what still writes cannot be cleared away under it. */
export async function end(program) {
  if (program.exitCode !== null || program.signalCode !== null) return;
  const gone = new Promise((done) => program.once("exit", done));
  program.kill();
  await gone;
}
export const folder = (name) => fileURLToPath(new URL(`../${name}`, import.meta.url));
