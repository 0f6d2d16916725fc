// The worker's end: becomes the owner of the storage, opens the hosted API once, and answers calls by name.
// Generic over the API; `books.ts` plugs the generated one in. The page's end is `client.ts`.
//
// The owner lock is held by the worker itself and never given back: it ends with the worker, exactly as its
// hold on the files does, so that no tab can own one without the other.

import { Failure, failureOf, isFatal, workerFailure } from "./failure.ts";
import { whyNoStorage } from "./storage.ts";
import type { StartOptions, ToPage, ToWorker } from "./wire.ts";

/** The API to host. */
export interface Hosted<A extends object> {
  /** Fetches and starts the module. Runs while standing in line for the storage. */
  load(): Promise<void>;
  /** Opens the storage and what lives in it. Runs once, as the owner. */
  open(options: StartOptions): Promise<A>;
}

interface WorkerScope {
  onmessage: ((event: MessageEvent<ToWorker>) => void) | null;
  postMessage(message: ToPage, transfer?: Transferable[]): void;
}

/** How long files may still be held by a tab that has just ended, and how often to look, in milliseconds. */
const HELD_FOR = 5_000;
const LOOK_EVERY = 50;

/** What a start ends with that no new start would mend by itself. */
const FINAL = new Set(["NoStorage", "PinNeeded", "WrongPin", "PinWaits", "KeyGone"]);

/** Serves `hosted` to the page that made this worker. Call once, at the worker's top level. */
export function serve<A extends object>(hosted: Hosted<A>): void {
  const scope = globalThis as unknown as WorkerScope;
  let api: A | undefined;
  let broken = false;

  const fatal = (thrown: unknown) => {
    broken = true;
    const why = thrown instanceof Error ? `${thrown.name}: ${thrown.message}` : String(thrown);
    scope.postMessage({ kind: "fatal", failure: workerFailure("Broken", why) });
  };

  const start = async (options: StartOptions) => {
    const refusal = await whyNoStorage();
    if (refusal) {
      scope.postMessage({ kind: "refused", failure: refusal });
      return;
    }
    const begun = performance.now();
    const loaded = hosted.load().then(() => performance.now());
    loaded.catch(() => undefined); // awaited below, when it is this worker's turn
    const owned = await ownLock(options.folder, () => scope.postMessage({ kind: "waiting" }));
    const load = (await loaded) - begun;
    const turn = performance.now();
    api = await openWhenFree(hosted, options);
    scope.postMessage({ kind: "ready", timings: { load, wait: owned, open: performance.now() - turn } });
  };

  const answer = async (id: number, call: string, args: unknown[]) => {
    try {
      if (broken || !api) throw new Failure(workerFailure("Closed", "the storage is not open"));
      const method = (api as Record<string, unknown>)[call];
      if (typeof method !== "function")
        throw new Failure(workerFailure("WrongCall", `there is no call ${call}`));
      const value: unknown = await method.apply(api, args);
      scope.postMessage({ kind: "answer", id, value }, movable(value));
    } catch (thrown) {
      if (isFatal(thrown)) fatal(thrown);
      else scope.postMessage({ kind: "failed", id, failure: failureOf(thrown) });
    }
  };

  scope.onmessage = ({ data }) => {
    if (data.kind === "ask") {
      void answer(data.id, data.call, data.args);
      return;
    }
    start(data.options).catch((thrown: unknown) => {
      if (isFatal(thrown)) return fatal(thrown);
      const failure = failureOf(thrown);
      // Where the API itself finds no place, say so; anything else at the start is a broken installation.
      if (FINAL.has(failure.variant)) scope.postMessage({ kind: "refused", failure });
      else fatal(thrown);
    });
  };
}

/** Resolves, with the milliseconds waited, once this worker owns `folder`; it then does so until it ends. */
function ownLock(folder: string, onWaiting: () => void): Promise<number> {
  const name = `farsiding owner of ${folder}`;
  const begun = performance.now();
  const forever = () => new Promise<never>(() => undefined);
  return new Promise((owned, failed) => {
    const take = (lock: Lock | null) => {
      if (lock) {
        owned(performance.now() - begun);
        return forever();
      }
      onWaiting();
      navigator.locks.request(name, () => (owned(performance.now() - begun), forever())).catch(failed);
      return undefined;
    };
    navigator.locks.request(name, { ifAvailable: true }, take).catch(failed);
  });
}

/** Opens; where the files are still held by a tab that has just ended, tries again for a while. */
async function openWhenFree<A extends object>(hosted: Hosted<A>, options: StartOptions): Promise<A> {
  const until = performance.now() + HELD_FOR;
  for (;;) {
    try {
      return await hosted.open(options);
    } catch (thrown) {
      if (failureOf(thrown).variant !== "OpenElsewhere" || performance.now() > until) throw thrown;
      await new Promise((later) => setTimeout(later, LOOK_EVERY));
    }
  }
}

/** Bytes that can be moved to the page instead of copied: a whole buffer of its own. */
function movable(value: unknown): Transferable[] {
  if (value instanceof Uint8Array && value.buffer instanceof ArrayBuffer && value.byteLength > 0) {
    return value.byteLength === value.buffer.byteLength ? [value.buffer] : [];
  }
  return [];
}
