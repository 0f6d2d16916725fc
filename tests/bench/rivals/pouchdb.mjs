// PouchDB against express-pouchdb, by its own replication both ways: one document per entry.

import { createRequire } from "node:module";
import { phase, through, workload } from "./told.mjs";

const require = createRequire(import.meta.url);
const express = require("express");
const PouchDB = require("pouchdb-core")
  .plugin(require("pouchdb-adapter-memory"))
  .plugin(require("pouchdb-adapter-http"))
  .plugin(require("pouchdb-replication"));

const app = express();
app.use(
  "/",
  require("express-pouchdb")(PouchDB.defaults({ adapter: "memory", prefix: "there-" }), {
    mode: "minimumForPouchDB",
    inMemoryConfig: true,
  }),
);
const server = app.listen(0, "127.0.0.1");
await new Promise((resolve) => server.on("listening", resolve));
const proxy = await through(server.address().port);
const here = new PouchDB("here", { adapter: "memory" });
const address = `http://127.0.0.1:${proxy}/visits`;
const meet = async () => {
  const outcome = await PouchDB.sync(here, new PouchDB(address, { adapter: "http" }));
  if (outcome.push.errors.length + outcome.pull.errors.length > 0) throw new Error(JSON.stringify(outcome));
};
const row = (visit, { id, bytes }) => ({ _id: `${visit}/${id}`, b: bytes.toString("base64") });

for (const visit of workload.visits) await here.bulkDocs(visit.entries.map((entry) => row(visit.id, entry)));
await phase("first", meet);
await phase("idle", meet);
await here.put(row(workload.one.visit, workload.one));
await phase("one", meet);
const { doc_count: count } = await new PouchDB(`http://127.0.0.1:${server.address().port}/visits`, {
  adapter: "http",
}).info();
const expected = workload.visits.reduce((sum, visit) => sum + visit.entries.length, 1);
if (count !== expected) throw new Error(`${count} entries arrived, not ${expected}`);
process.exit(0);
