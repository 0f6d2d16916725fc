// How the phone app is built, and what its service worker keeps.
import { svelte } from "@sveltejs/vite-plugin-svelte";
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readFileSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { brotliCompressSync, constants } from "node:zlib";
import { defineConfig, type Plugin } from "vite";
import { VitePWA } from "vite-plugin-pwa";
import { wordFiles } from "./word-files.ts";

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));

/** Scripts come from this folder alone; the core is WebAssembly. The office serves this as a header too. */
const CONTENT_SECURITY_POLICY = [
  "default-src 'self'",
  "script-src 'self' 'wasm-unsafe-eval'",
  "style-src 'self' 'unsafe-inline'",
  "img-src 'self' blob: data:",
  "connect-src 'self'",
  "worker-src 'self'",
  "object-src 'none'",
  "base-uri 'none'",
  "form-action 'none'",
].join("; ");

/** Lays the worker and the module of `bindings/web` beside the page, under the names the worker expects. */
const coreFiles = (): Plugin => ({
  name: "core-files",
  apply: "build",
  generateBundle() {
    for (const name of ["book-worker.js", "farsiding_bindings.wasm"]) {
      const file = here(`../web/dist/${name}`);
      if (!existsSync(file)) this.error(`${file} is missing: run bindings/build-web first`);
      this.emitFile({ type: "asset", fileName: `core/${name}`, source: readFileSync(file) });
    }
  },
});

const policy = (): Plugin => ({
  name: "policy",
  apply: "build",
  transformIndexHtml: () => [
    {
      tag: "meta",
      attrs: { "http-equiv": "Content-Security-Policy", content: CONTENT_SECURITY_POLICY },
      injectTo: "head-prepend",
    },
  ],
});

/** The compressed form of some bytes. The module takes ten seconds, so what was compressed once is kept. */
function brotli(bytes: Buffer): Buffer {
  const kept = here("node_modules/.cache/br");
  const known = join(kept, createHash("sha256").update(bytes).digest("hex"));
  if (!existsSync(known)) {
    mkdirSync(kept, { recursive: true });
    writeFileSync(known, brotliCompressSync(bytes, { params: { [constants.BROTLI_PARAM_LGWIN]: 24 } }));
  }
  return readFileSync(known);
}

/** Lays a compressed twin beside every file that gains by it, which the office sends in its place. */
const compressed = (): Plugin => ({
  name: "compressed",
  apply: "build",
  enforce: "post",
  closeBundle: {
    sequential: true,
    order: "post",
    handler() {
      const gains = /\.(html|js|css|svg|txt|ftl|wasm|webmanifest)$/;
      for (const entry of readdirSync(here("dist"), { recursive: true, withFileTypes: true })) {
        if (!entry.isFile() || !gains.test(entry.name)) continue;
        const file = join(entry.parentPath, entry.name);
        writeFileSync(`${file}.br`, brotli(readFileSync(file)));
      }
    },
  },
});

const installable = () =>
  VitePWA({
    strategies: "injectManifest",
    srcDir: "src",
    filename: "sw.ts",
    injectRegister: false,
    injectManifest: {
      globPatterns: ["**/*.{html,js,css,woff2,svg,png,ftl,wasm,webmanifest}"],
      maximumFileSizeToCacheInBytes: 12_000_000,
    },
    manifest: {
      id: "./",
      name: "Farsiding",
      short_name: "Farsiding",
      description: "Records for unloading pressurised tank cars, without a network.",
      start_url: "./",
      scope: "./",
      display: "standalone",
      orientation: "portrait",
      background_color: "#eceeea",
      theme_color: "#eceeea",
      icons: [
        { src: "icon.svg", sizes: "any", type: "image/svg+xml", purpose: "any" },
        { src: "icon-192.png", sizes: "192x192", type: "image/png" },
        { src: "icon-512.png", sizes: "512x512", type: "image/png" },
        { src: "icon-512.png", sizes: "512x512", type: "image/png", purpose: "maskable" },
      ],
    },
  });

export default defineConfig({
  base: "./",
  resolve: { alias: { "#core": here("./src/core/worker.ts") } },
  build: { target: "es2022", assetsInlineLimit: 0, outDir: "dist" },
  worker: { format: "es" },
  plugins: [svelte(), wordFiles(), coreFiles(), policy(), installable(), compressed()],
});
