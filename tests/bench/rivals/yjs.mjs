// Yjs by y-protocols' own sync messages: one document per visit, a map from entry id to its bytes.

import * as decoding from "lib0/decoding";
import * as encoding from "lib0/encoding";
import * as sync from "y-protocols/sync";
import * as Y from "yjs";
import { converse, serve } from "./channel.mjs";
import { phase, through, workload } from "./told.mjs";

const here = new Map();
const there = new Map();
const of = (documents, name) => documents.get(name) ?? documents.set(name, new Y.Doc()).get(name);
const written = (write) => {
  const encoder = encoding.createEncoder();
  write(encoder);
  return encoding.toUint8Array(encoder);
};
const answers = (documents, send) => (name, message) => {
  const encoder = encoding.createEncoder();
  sync.readSyncMessage(decoding.createDecoder(message), encoder, of(documents, name), null);
  if (encoding.length(encoder) > 0) send(name, encoding.toUint8Array(encoder));
};
const ask = (documents, name, send) =>
  send(
    name,
    written((encoder) => sync.writeSyncStep1(encoder, of(documents, name))),
  );

// As y-websocket's server does: an answer to the question, and its own question.
const port = await serve((send) => {
  const answer = answers(there, send);
  const asked = new Set();
  return (name, message) => {
    answer(name, message);
    if (!asked.has(name)) {
      asked.add(name);
      ask(there, name, send);
    }
  };
});
const proxy = await through(port);
const meet = () =>
  converse(proxy, (send) => {
    for (const { id } of workload.visits) ask(here, id, send);
    return answers(here, send);
  });
const keep = (visit, entry) => of(here, visit).getMap("entries").set(entry.id, new Uint8Array(entry.bytes));

for (const visit of workload.visits) for (const entry of visit.entries) keep(visit.id, entry);
await phase("first", meet);
await phase("idle", meet);
keep(workload.one.visit, workload.one);
await phase("one", meet);
const size = of(there, workload.one.visit).getMap("entries").size;
const expected = workload.visits.find(({ id }) => id === workload.one.visit).entries.length + 1;
if (size !== expected) throw new Error(`${size} entries arrived, not ${expected}`);
process.exit(0);
