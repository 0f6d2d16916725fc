// Serves a built app for the tests, and for pictures gives it the invented cars of story.mjs.
import { chromium } from "playwright-core";
import { createServer } from "node:http";
import { readFile } from "node:fs/promises";
import { extname, join, normalize } from "node:path";
import { fileURLToPath } from "node:url";
import { seedCars, seedSite } from "./story.mjs";

const TYPES = { ".html": "text/html", ".js": "text/javascript", ".css": "text/css", ".svg": "image/svg+xml", ".png": "image/png", ".woff2": "font/woff2", ".wasm": "application/wasm", ".webmanifest": "application/manifest+json" };
/** Serves `folder` under /app/ on a free port; `answer` may take a request first. */
export async function serve(folder, answer = () => false) {
  const server = createServer(async (request, response) => {
    if (await answer(request, response)) return;
    const path = decodeURIComponent(new URL(request.url, "http://x").pathname).replace(/^\/app\/?/, "");
    try {
      const file = join(folder, normalize(path || "index.html"));
      const bytes = await readFile(file);
      response.writeHead(200, { "content-type": TYPES[extname(file)] ?? "application/octet-stream", "cache-control": "no-cache" }).end(bytes);
    } catch { response.writeHead(404).end(); }
  });
  await new Promise((up) => server.listen(0, "127.0.0.1", up));
  return { url: `http://127.0.0.1:${server.address().port}/app/`, close: () => new Promise((down) => { server.closeAllConnections(); server.close(down); }) };
}
export const launch = () => chromium.launch({ executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium" });
export const folder = (name) => fileURLToPath(new URL(`../${name}`, import.meta.url));

/** A book behind HTTP, for screens without the browser's module (STAND_AT). */
export const standCall = (book, at = process.env.STAND_AT ?? "http://127.0.0.1:4400") => async (name, ...args) => {
  const reply = await (await fetch(`${at}/${name}`, { method: "POST", body: JSON.stringify(args), headers: { "x-book": book } })).json();
  if ("why" in reply) throw new Error(`${name}: ${reply.why}`);
  return reply.ok;
};
export async function stage() {
  const call = standCall("one");
  let rows = JSON.parse(await call("visits"));
  if (rows.length === 0) { await seedSite(call); await seedCars(call); rows = JSON.parse(await call("visits")); }
  const visits = ["104471", "104417", "220086", "300512"].map((n) => rows.find((r) => r.car.endsWith(n)).visits[0]);
  return { visits, launch, ...(await serve(folder("dist-stand"))) };
}
