// The bare Automerge sync protocol: one document per visit, a map from entry id to its bytes. Both sides keep
// their sync state between meetings, as the library advises.

import * as A from "@automerge/automerge";
import { converse, serve } from "./channel.mjs";
import { phase, through, workload } from "./told.mjs";

class Side {
  documents = new Map();
  states = new Map();

  document(name) {
    return this.documents.get(name) ?? A.init();
  }

  // A new connection: what is kept of the state is what survives being written down.
  connect() {
    for (const [name, state] of this.states)
      this.states.set(name, A.decodeSyncState(A.encodeSyncState(state)));
  }

  speak(name, send) {
    const [state, message] = A.generateSyncMessage(
      this.document(name),
      this.states.get(name) ?? A.initSyncState(),
    );
    this.states.set(name, state);
    if (message) send(name, message);
  }

  hear(name, message, send) {
    const state = this.states.get(name) ?? A.initSyncState();
    const [document, after] = A.receiveSyncMessage(this.document(name), state, message);
    this.documents.set(name, document);
    this.states.set(name, after);
    this.speak(name, send);
  }
}

const here = new Side();
const there = new Side();
const port = await serve((send) => {
  there.connect();
  return (name, message) => there.hear(name, message, send);
});
const proxy = await through(port);
const meet = () =>
  converse(proxy, (send) => {
    here.connect();
    for (const { id } of workload.visits) here.speak(id, send);
    return (name, message) => here.hear(name, message, send);
  });
const keep = (visit, entry) => {
  const changed = A.change(here.document(visit), { time: 0 }, (document) => {
    document.entries ??= {};
    document.entries[entry.id] = new Uint8Array(entry.bytes);
  });
  here.documents.set(visit, changed);
};

for (const visit of workload.visits) for (const entry of visit.entries) keep(visit.id, entry);
await phase("first", meet);
await phase("idle", meet);
keep(workload.one.visit, workload.one);
await phase("one", meet);
const size = Object.keys(there.document(workload.one.visit).entries).length;
const expected = workload.visits.find(({ id }) => id === workload.one.visit).entries.length + 1;
if (size !== expected) throw new Error(`${size} entries arrived, not ${expected}`);
process.exit(0);
