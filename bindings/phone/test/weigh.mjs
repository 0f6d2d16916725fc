// What a phone fetches once: every file the service worker keeps, compressed as a server would. Fails past the aim of 1.5 MB.
import { readFileSync, readdirSync, statSync } from "node:fs";
import { join } from "node:path";
import { brotliCompressSync, constants } from "node:zlib";
import { folder } from "./stage.mjs";
const root = folder("dist");
const all = (dir) => readdirSync(dir).flatMap((n) => (statSync(join(dir, n)).isDirectory() ? all(join(dir, n)) : [join(dir, n)]));
let total = 0;
for (const file of all(root)) {
  const bytes = readFileSync(file), packed = /\.(woff2|png)$/.test(file) ? bytes.length : brotliCompressSync(bytes, { params: { [constants.BROTLI_PARAM_LGWIN]: 24 } }).length;
  total += packed;
  console.log(`${String(packed).padStart(9)}  ${file.slice(root.length + 1)} (${bytes.length} bytes)`);
}
console.log(`${String(total).padStart(9)}  together, brotli`);
process.exit(total < 1_500_000 ? 0 : 1);
