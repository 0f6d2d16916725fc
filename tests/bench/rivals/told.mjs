// What every rival shares: the workload, and the lines by which the bench says when to do what.
//
// The bench starts `node RIVAL.mjs WORKLOAD.json` and both speak in lines. The rival says
// `listening PORT`; the bench puts its counting proxy before that port and answers `proxy PORT`. Before each
// phase the rival says `ready NAME`, waits for `go`, does the phase through the proxy and says `done NAME`.

import { readFileSync } from "node:fs";
import { createInterface } from "node:readline";

const lines = createInterface({ input: process.stdin })[Symbol.asyncIterator]();
const say = (line) => process.stdout.write(`${line}\n`);
const hear = async () => (await lines.next()).value ?? process.exit(1);

/** The visits, each with its signed entries, and the one entry that is new later. */
export const workload = JSON.parse(readFileSync(process.argv[2], "utf8"));
for (const visit of workload.visits) {
  visit.entries = visit.entries.map(({ id, bytes }) => ({ id, bytes: Buffer.from(bytes, "base64") }));
}
workload.one.bytes = Buffer.from(workload.one.bytes, "base64");

/** Says where the server listens; returns where the proxy does. */
export async function through(port) {
  say(`listening ${port}`);
  return Number((await hear()).replace("proxy ", ""));
}

/** Does one phase when told to. */
export async function phase(name, work) {
  say(`ready ${name}`);
  await hear();
  await work();
  say(`done ${name}`);
}
