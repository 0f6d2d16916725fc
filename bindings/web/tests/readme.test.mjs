// README.md as a stranger follows it: its example is tests/pages/example.ts and runs in a browser, it names
// every kind of error, and what is handed on holds the licence texts.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { describe, test } from "node:test";
import { Browser, buildSite, serveSite } from "./stage.mjs";

const read = (path) => readFileSync(new URL(`../${path}`, import.meta.url), "utf8");

/** Names in the first column of the README's tables. */
const rows = [...read("README.md").matchAll(/^\| `(\w+)` \|/gm)].map(([, name]) => name);
/** Names matched in a part of a source. */
const names = (source, pattern) => [...source.matchAll(pattern)].map(([, name]) => name);

describe("the README", () => {
  test("prints the example that is checked and run here", () => {
    assert.ok(read("README.md").includes(`\n\`\`\`ts\n${read("tests/pages/example.ts")}\`\`\`\n`));
  });

  test("has a row for every kind of error, and for no other", () => {
    const generated = read("generated/farsiding_bindings.ts");
    const core = names(/export enum FarsidingError_Tags \{(.*?)\}/s.exec(generated)[1], /(\w+) = /g);
    const layer = names(
      /export type WorkerVariant =(.*?);\n\n/s.exec(read("src/failure.ts"))[1],
      /\| "(\w+)"/g,
    );
    assert.ok(core.length > 10 && layer.length > 5);
    assert.deepEqual([...new Set(rows)].sort(), [...new Set([...core, ...layer])].sort());
  });

  test("hands on what it says of licences", () => {
    for (const name of ["LICENSE-APACHE", "LICENSE-MIT"])
      assert.equal(read(`dist/${name}`), read(`../../core/licences/${name}`));
    assert.equal(read("dist/NOTICE.txt"), read("../NOTICE.txt"));
  });

  test("has an example that runs", async () => {
    await buildSite();
    const site = await serveSite();
    const browser = new Browser();
    try {
      await browser.open();
      const page = await browser.context.newPage();
      const complaints = [];
      page.on("console", (message) => message.type() === "error" && complaints.push(message.text()));
      page.on("pageerror", (error) => complaints.push(String(error)));
      await page.goto(`${site.url}example`);
      await page.waitForFunction(() => document.body?.innerText.includes("not released"));
      const said = await page.evaluate(() => document.body.innerText);
      assert.match(said, /^Refused, not released: still open/);
      assert.match(said, /ZZQX 4417/);
      assert.match(said, /118 psi/);
      assert.deepEqual(complaints, []);
    } finally {
      await browser.remove();
      await site.close();
    }
  });
});
