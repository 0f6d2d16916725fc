// The page's end: makes the worker, sends calls, watches its standing, starts a new one when it broke, and
// hands the storage to another tab when asked. Generic over the API; knows no product words.

import { Failure, workerFailure, type FailureData } from "./failure.ts";
import type { Remote, StartOptions, StartTimings, ToPage, ToWorker } from "./wire.ts";

/** How the connection stands. A screen shows this before anything else. */
export type Standing =
  | { is: "starting" }
  /** Another tab or window has the books open; this one takes over when that one closes or lets go. */
  | { is: "waiting" }
  | { is: "ready"; timings: StartTimings }
  /** No records can be kept here, and why. */
  | { is: "refused"; failure: FailureData }
  /** The module kept breaking; only a reload or an update can help. */
  | { is: "broken"; failure: FailureData }
  | { is: "closed" };

export interface ConnectOptions extends StartOptions {
  /** Makes the worker; the bundler must see the literal `new Worker(new URL(…))`, so the app writes it. */
  worker: () => Worker;
  /** Asked when another tab wants the storage. Say no while something is half typed. Default: yes. */
  mayLetGo?: () => boolean;
  /** Told of every restart, for the log. */
  onRestart?: (failure: FailureData) => void;
}

export interface Connection<A> {
  /** The API's calls, answered by the worker. Calls made before it is ready wait for it. */
  readonly api: Remote<A>;
  readonly standing: Standing;
  /** Calls `listener` now and at every change. Returns how to stop. */
  onStanding(listener: (standing: Standing) => void): () => void;
  /** While waiting: asks the owner to let go. It may decline by not doing so. */
  takeOver(): void;
  /** Ends the worker. Open calls are rejected as `Closed`. */
  close(): void;
}

/** More breaks than this within the window, and the worker is not started again. */
const BREAKS_ALLOWED = 3;
const BREAK_WINDOW_MS = 60_000;

interface Pending {
  message: ToWorker;
  sent: boolean;
  resolve: (value: unknown) => void;
  reject: (failure: Failure) => void;
}

/** Starts the worker and returns at once; follow `onStanding`. */
export function connect<A extends object>(options: ConnectOptions): Connection<A> {
  const pending = new Map<number, Pending>();
  const listeners = new Set<(standing: Standing) => void>();
  const neighbours = new BroadcastChannel(`farsiding owner of ${options.folder}`);
  let standing: Standing = { is: "starting" };
  let breaks: number[] = [];
  let lastId = 0;
  let worker: Worker | undefined;
  let lettingGo = false;

  const stand = (next: Standing) => {
    standing = next;
    for (const listener of [...listeners]) listener(next);
  };

  const rejectAll = (failure: FailureData, which: (call: Pending) => boolean) => {
    for (const [id, call] of [...pending]) {
      if (!which(call)) continue;
      pending.delete(id);
      call.reject(new Failure(failure));
    }
  };

  const end = () => {
    worker?.terminate();
    worker = undefined;
  };

  const broke = (failure: FailureData) => {
    end();
    // A call that was sent may have been carried out; one that was not is sent to the new worker.
    rejectAll(failure, (call) => call.sent);
    const now = Date.now();
    breaks = [...breaks.filter((at) => now - at < BREAK_WINDOW_MS), now];
    if (breaks.length > BREAKS_ALLOWED) {
      rejectAll(failure, () => true);
      stand({ is: "broken", failure });
      return;
    }
    options.onRestart?.(failure);
    spawn();
  };

  const send = (call: Pending) => {
    call.sent = true;
    try {
      worker?.postMessage(call.message);
    } catch (error) {
      // An argument that cannot be cloned.
      if (call.message.kind === "ask") pending.delete(call.message.id);
      call.reject(new Failure(workerFailure("WrongCall", String(error))));
    }
  };

  const heard = (message: ToPage) => {
    switch (message.kind) {
      case "answer":
      case "failed": {
        const call = pending.get(message.id);
        pending.delete(message.id);
        if (message.kind === "answer") call?.resolve(message.value);
        else call?.reject(new Failure(message.failure));
        if (lettingGo && pending.size === 0) letGo();
        return;
      }
      case "waiting":
        return stand({ is: "waiting" });
      case "ready":
        stand({ is: "ready", timings: message.timings });
        for (const call of [...pending.values()]) if (!call.sent) send(call);
        return;
      case "refused":
        end();
        rejectAll(message.failure, () => true);
        return stand({ is: "refused", failure: message.failure });
      case "fatal":
        return broke(message.failure);
    }
  };

  const spawn = () => {
    lettingGo = false;
    stand({ is: "starting" });
    const mine = options.worker();
    worker = mine;
    mine.onmessage = (event: MessageEvent<ToPage>) => mine === worker && heard(event.data);
    mine.onerror = (event) => {
      event.preventDefault();
      if (mine === worker) broke(workerFailure("Broken", event.message || "the worker could not be started"));
    };
    const start: ToWorker = {
      kind: "start",
      options: { folder: options.folder, settings: options.settings },
    };
    mine.postMessage(start);
  };

  // Ends the owner and stands in line behind the tab that asked.
  const letGo = () => {
    end();
    spawn();
  };

  neighbours.onmessage = ({ data }) => {
    if (data !== "let go" || standing.is !== "ready" || lettingGo) return;
    if (options.mayLetGo && !options.mayLetGo()) return;
    lettingGo = true;
    if (pending.size === 0) letGo();
  };

  const ask = (call: string, args: unknown[]) =>
    new Promise<unknown>((resolve, reject) => {
      if (standing.is === "refused" || standing.is === "broken") return reject(new Failure(standing.failure));
      if (standing.is === "closed")
        return reject(new Failure(workerFailure("Closed", "the connection is closed")));
      const id = ++lastId;
      const waiting: Pending = { message: { kind: "ask", id, call, args }, sent: false, resolve, reject };
      pending.set(id, waiting);
      if (standing.is === "ready" && !lettingGo) send(waiting);
    });

  const api = new Proxy(Object.create(null) as Remote<A>, {
    // A promise-like proxy would be awaited by accident; symbols are asked for by debuggers.
    get: (_, name) =>
      typeof name === "string" && name !== "then" ? (...args: unknown[]) => ask(name, args) : undefined,
  });

  spawn();
  return {
    api,
    get standing() {
      return standing;
    },
    onStanding(listener) {
      listeners.add(listener);
      listener(standing);
      return () => listeners.delete(listener);
    },
    takeOver() {
      if (standing.is === "waiting") neighbours.postMessage("let go");
    },
    close() {
      end();
      neighbours.close();
      rejectAll(workerFailure("Closed", "the connection was closed"), () => true);
      stand({ is: "closed" });
    },
  };
}
