/**
 * Meeting the office: rounds of `POST /v1/sync` until both sides have the same. Safe on a captive portal,
 * because a reply counts only when the core accepts the office's signature on it. Called at the start, when
 * the network or the screen comes back, after entries, and by hand. Holds no records.
 */
import type { BookCalls } from "../core/calls";
import type { Message } from "../core/views.generated";
import { saidBy, told, unanswered } from "../said";
import { removePhotos, sendPhotos, waitingPhotos } from "./photos";

/**
 * What the rounds brought so far: `put_off` says why the office takes no more from this phone for now,
 * `differing` names the records that could not be made equal to the office's, `left_photos` the photographs
 * that went with the records of a site this phone no longer has.
 */
type Told = { done: boolean; put_off: string | null; differing: string[]; left_photos: string[] };
/**
 * `why` says what went wrong or, where the office was met, what it puts off. `differing` counts the records
 * that differed from the office's when it was last met.
 */
export type SyncState = {
  is: "idle" | "running" | "met" | "no_office" | "not_enrolled";
  at: number;
  why: Message | string;
  differing: number;
};
export const office = (): URL => new URL("../v1/", document.baseURI);
const ROUND_MS = 60_000;
/** While much is coming in, how often it is shown. */
const SHOW_MS = 2_000;

export class Syncer {
  #running: Promise<void> | null = null;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #wait = 15_000;
  /** Something was recorded while photographs were being sent: it goes before the next one. */
  #hurry = false;
  #later = "";
  #differing = 0;
  #listening = false;
  #stopped = true;
  constructor(
    private readonly calls: BookCalls,
    private readonly told: (state: SyncState) => void,
    private readonly changed: () => Promise<void>,
  ) {}

  start(): void {
    this.#stopped = false;
    if (!this.#listening) this.#listen();
    this.soon(0);
  }
  /** Until the next start: the phone is locked. */
  stop(): void {
    this.#stopped = true;
    clearTimeout(this.#timer);
  }
  #listen(): void {
    this.#listening = true;
    addEventListener("online", () => this.soon(0));
    document.addEventListener("visibilitychange", () => {
      if (document.visibilityState === "visible") this.soon(0);
    });
  }
  /** Meets the office in a while; several wishes become one. */
  soon(ms = 1500): void {
    clearTimeout(this.#timer);
    if (!this.#stopped) this.#timer = setTimeout(() => void this.now(), ms);
  }
  /** Meets the office at once, after a meeting that is under way: this phone is enrolled now. */
  async afresh(): Promise<void> {
    await this.#running;
    this.soon(0);
  }
  now(): Promise<void> {
    if (this.#running) this.#hurry = true;
    this.#running ??= this.#meet().finally(() => (this.#running = null));
    return this.#running;
  }
  async #records(): Promise<void> {
    await this.calls.syncStart();
    let shown = Date.now();
    for (let done = false; !done;) {
      const body = (await this.calls.syncRequest()) as BufferSource;
      const reply = await fetch(new URL("sync", office()), {
        method: "POST",
        body,
        redirect: "error",
        cache: "no-store",
        signal: AbortSignal.timeout(ROUND_MS),
        headers: { "Content-Type": "application/cbor" },
      });
      if (!reply.ok) throw saidBy(reply);
      const told = JSON.parse(
        await this.calls.syncReceive(new Uint8Array(await reply.arrayBuffer())),
      ) as Told;
      done = told.done;
      this.#later = told.put_off ?? "";
      this.#differing = told.differing.length;
      if (done) await removePhotos(told.left_photos);
      // A first meeting may take long: whoever waits sees people and sites as they come.
      if (!done && Date.now() - shown > SHOW_MS) {
        await this.changed();
        shown = Date.now();
      }
    }
  }
  async #meet(): Promise<void> {
    const state = (is: SyncState["is"], why: Message | string = "") =>
      this.told({ is, at: Date.now(), why, differing: this.#differing });
    try {
      if (this.#stopped) return;
      if (!(JSON.parse(await this.calls.status()) as { organisation_key: string | null }).organisation_key)
        return state("not_enrolled");
      state("running");
      // Records first, then photographs, then records again: with their signature, and until nothing is left
      // to send.
      for (let left = Infinity; ;) {
        this.#hurry = false;
        await this.#records();
        await this.changed();
        const waiting = (await waitingPhotos(this.calls)).length;
        if (waiting >= left) break; // it did not take the last ones: another time
        const sent = await sendPhotos(this.calls, office(), () => this.#hurry);
        if (sent === 0 && !this.#hurry) break;
        left = sent > 0 ? waiting : Infinity;
      }
      this.#wait = 15_000;
      state("met", this.#later);
    } catch (error) {
      this.#wait = Math.min(this.#wait * 2, 15 * 60_000);
      state("no_office", unanswered(error) ? "" : told(error));
    } finally {
      await this.changed();
      if (document.visibilityState === "visible") this.soon(this.#wait * (0.75 + Math.random() / 2));
    }
  }
}
