// Bundles dist/: `index.js` for the page and `book-worker.js` for the worker, beside the module that
// bindings/build-web puts there. Prints what it weighs. Called by build-web and by the tests.

import { copyFileSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { brotliCompressSync, constants, gzipSync } from "node:zlib";
import { build } from "esbuild";

const here = (path) => fileURLToPath(new URL(path, import.meta.url));
const runtime = "./node_modules/uniffi-bindgen-react-native";

/** Bundles `entries` (output name to source) into `folder`. */
export async function bundle(entries, folder) {
  await build({
    entryPoints: Object.entries(entries).map(([out, source]) => ({ out, in: here(source) })),
    outdir: here(folder),
    bundle: true,
    format: "esm",
    target: "es2022",
    minify: true,
    legalComments: "linked",
    banner: {
      js: "/*! With the runtime of uniffi-bindgen-react-native, MPL-2.0: see NOTICE.txt beside this. */",
    },
    sourcemap: true,
    define: { "process.env.NODE_ENV": '"production"' },
    alias: {
      "@farsiding/web": here("src/index.ts"),
      // The generated code's runtime, from inside its generator's package: it is not on the registry by
      // itself.
      "@ubjs/core": here(`${runtime}/typescript/dist/esm/index.js`),
      "@ubjs/wasm/core": here(`${runtime}/runtimes/wasm/core/src/index.ts`),
      "@ubjs/wasm": here(`${runtime}/runtimes/wasm/browser/src/index.ts`),
    },
    logLevel: "warning",
  });
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  await bundle({ index: "src/index.ts", "book-worker": "src/book-worker.ts" }, "dist");
  copyFileSync(here("../NOTICE.txt"), here("dist/NOTICE.txt"));
  for (const text of ["LICENSE-APACHE", "LICENSE-MIT"])
    copyFileSync(here(`../../core/licences/${text}`), here(`dist/${text}`));
  let total = 0;
  for (const name of ["farsiding_bindings.wasm", "book-worker.js", "index.js"]) {
    const bytes = readFileSync(here(`dist/${name}`));
    const gzip = gzipSync(bytes, { level: 9 }).length;
    const brotli = brotliCompressSync(bytes, { params: { [constants.BROTLI_PARAM_LGWIN]: 24 } }).length;
    total += brotli;
    console.log(`${name}: ${bytes.length} bytes, ${gzip} gzip, ${brotli} brotli`);
  }
  console.log(`together ${total} bytes brotli`);
}
