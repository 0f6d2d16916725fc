// What a phone fetches once: every file the service worker keeps, as the office sends it. Fails past the aim of 1.5 MB.
import { existsSync, readFileSync, readdirSync, statSync } from "node:fs";
import { join } from "node:path";
import { folder } from "./stage.mjs";
const root = folder("dist");
const all = (dir) =>
  readdirSync(dir)
    .flatMap((n) => (statSync(join(dir, n)).isDirectory() ? all(join(dir, n)) : [join(dir, n)]))
    .filter((n) => !n.endsWith(".br"));
let total = 0,
  module = 0;
for (const file of all(root)) {
  const sent = existsSync(`${file}.br`) ? `${file}.br` : file,
    bytes = readFileSync(sent).length;
  if (!/\.(woff2|png)$/.test(file) && sent === file) throw new Error(`${file} has no compressed twin`);
  if (file.endsWith(".wasm")) module = bytes;
  total += bytes;
  console.log(
    `${String(bytes).padStart(9)}  ${file.slice(root.length + 1)} (${readFileSync(file).length} bytes)`,
  );
}
console.log(`phone module ${module} bytes brotli (aim within the download)`);
console.log(`phone download ${total} bytes brotli (aim < 1600000)`);
process.exit(total < 1_600_000 ? 0 : 1);
