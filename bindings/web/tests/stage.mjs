// What the browser tests stand on: the built package served with the policy an app is served with, and a real
// Chromium with a profile on disk that can be killed. No test lives here.

import { spawn } from "node:child_process";
import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { createServer } from "node:http";
import { tmpdir } from "node:os";
import { extname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { chromium } from "playwright-core";
import { bundle } from "../bundle.mjs";

const web = fileURLToPath(new URL("..", import.meta.url));
const site = join(web, "build/test-site");

/** Bundles the test pages beside the built module. */
export async function buildSite() {
  if (!existsSync(join(web, "dist/farsiding_bindings.wasm"))) throw new Error("run bindings/build-web first");
  await bundle(
    {
      records: "tests/pages/records.ts",
      example: "tests/pages/example.ts",
      "rough-worker": "tests/pages/rough-worker.ts",
      "book-worker": "src/book-worker.ts",
    },
    "build/test-site",
  );
  cpSync(join(web, "dist/farsiding_bindings.wasm"), join(site, "farsiding_bindings.wasm"));
}

const TYPES = { ".js": "text/javascript", ".wasm": "application/wasm", ".map": "application/json" };
const page = (name) =>
  [
    `<!doctype html><meta charset="utf-8"><title>${name}</title>`,
    `<script type="module" src="/${name}.js"></script>`,
  ].join("");
/** Every page is one script: the tests' own, and the one that the README prints. */
const PAGES = { "/": page("records"), "/example": page("example") };

/** Serves the test site on a free port, with the strict policy the product is served with. */
export async function serveSite() {
  const server = createServer((request, response) => {
    const path = new URL(request.url, "http://x").pathname;
    response.setHeader("Content-Security-Policy", "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'");
    if (PAGES[path]) return response.setHeader("Content-Type", "text/html").end(PAGES[path]);
    if (path === "/favicon.ico") return response.writeHead(204).end();
    const file = join(site, path);
    if (!file.startsWith(site) || !existsSync(file)) return response.writeHead(404).end();
    response.setHeader("Content-Type", TYPES[extname(file)] ?? "text/plain").end(readFileSync(file));
  });
  await new Promise((ready) => server.listen(0, "127.0.0.1", ready));
  const { port } = server.address();
  return { url: `http://127.0.0.1:${port}/`, port, close: () => new Promise((done) => server.close(done)) };
}

/** A browser whose profile outlives it. */
export class Browser {
  profile = mkdtempSync(join(tmpdir(), "farsiding-profile-"));

  /** Starts it, in the machine's time zone or another; `open` may be called again after `kill`. */
  async open(zone = process.env.TZ) {
    const program = process.env.CHROMIUM ?? "/usr/bin/chromium";
    this.process = spawn(
      program,
      [
        "--headless=new",
        "--no-sandbox",
        "--no-first-run",
        "--disable-gpu",
        "--remote-debugging-port=0",
        "--host-resolver-rules=MAP plain.test 127.0.0.1",
        `--user-data-dir=${this.profile}`,
        "about:blank",
      ],
      {
        detached: true,
        stdio: ["ignore", "ignore", "pipe"],
        env: { ...process.env, ...(zone && { TZ: zone }) },
      },
    );
    const address = await new Promise((found, failed) => {
      let said = "";
      this.process.once("error", failed);
      this.process.once("exit", () => failed(new Error(`the browser ended: ${said}`)));
      this.process.stderr.on("data", (text) => {
        said += text;
        const match = /DevTools listening on (\S+)/.exec(said);
        if (match) found(match[1]);
      });
    });
    this.remote = await chromium.connectOverCDP(address);
    this.context = this.remote.contexts()[0];
  }

  /** A tab on `url` that fails the test when the page logs an error or breaks its policy. */
  async tab(url, context = this.context) {
    const page = await context.newPage();
    page.complaints = [];
    page.on("console", (message) => message.type() === "error" && page.complaints.push(message.text()));
    page.on("pageerror", (error) => page.complaints.push(String(error)));
    await page.goto(url);
    await page.waitForFunction(
      () => typeof globalThis.open === "function" && typeof globalThis.until === "function",
    );
    return page;
  }

  /** Ends every process of the browser at once, as a flat battery would. */
  async kill() {
    const gone = new Promise((done) => this.process.once("exit", done));
    process.kill(-this.process.pid, "SIGKILL");
    await gone;
    await this.remote.close().catch(() => undefined);
  }

  /** Ends it and forgets the profile. */
  async remove() {
    if (this.process.exitCode === null && this.process.signalCode === null) await this.kill();
    rmSync(this.profile, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 });
  }
}
