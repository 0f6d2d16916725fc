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
// A view has messages and amounts; its words stand in the catalogues of `core/words`.
const { header, readings } = JSON.parse(await api.visit(visit)) as {
  header: { car: string };
  readings: { current: { value: { amount: { text: string } } } | null }[];
};
const read = readings.map(({ current }) => current?.value.amount.text ?? "differs");
document.body.innerText = `${released}\n${header.car}: ${read.join(", ")}`;
