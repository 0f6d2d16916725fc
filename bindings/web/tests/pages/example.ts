// Records a reading of an invented car and shows what it means.
import { connect, type BookApi, type Failure } from "@farsiding/web";

const { api } = connect<BookApi>({
  folder: "books", // Of this origin's private file system.
  settings: { book: "example.book" }, // The worker makes this device's key and keeps it.
  worker: () => new Worker(new URL("book-worker.js", document.baseURI), { type: "module" }),
});

const opening = { car: "ZZQX 4417", site: await api.newSite(), receiver: "fixed_tank" };
const visit = await api.openVisit(JSON.stringify(opening), "op-1");

const typed = await api.readAmount("118 psi", "psi", undefined);
const [only, another] = typed.readings;
if (!only || another) throw new Error(typed.why); // Ask the person: no reading, or two.
const amount: unknown = JSON.parse(only.amount);
const reading = { measured: "pressure", place: "car", purpose: "arrival", amount };
await api.append(`visit:${visit}`, JSON.stringify([{ says: { reading } }]), "op-1");

const released = await api.release(visit, true, "op-1").then(
  () => "released",
  (failure: Failure) => `${failure.variant}, not released: ${failure.why}`,
);
document.body.innerText = `${released}\n${await api.show(visit)}`;
