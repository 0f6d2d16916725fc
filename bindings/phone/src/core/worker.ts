/**
 * Opens the real core: the worker of `bindings/web`, whose files the build lays under `core/` beside the
 * page.
 */
import { connect, type Connection, type Standing as LinkStanding } from "../../../web/src/client";
import type { BookCalls, OpenOptions, Opened, Standing } from "./calls";

/** What a start was refused with because of the phone's PIN. */
const LOCKS: Record<string, "asks" | "wrong" | "waits"> = {
  PinNeeded: "asks",
  WrongPin: "wrong",
  PinWaits: "waits",
};

function standingOf(now: LinkStanding): Standing {
  if (now.is === "closed") return { is: "broken", why: "closed" };
  if (now.is !== "refused" && now.is !== "broken") return { is: now.is };
  const { variant, why, detail } = now.failure,
    pin = LOCKS[variant];
  if (now.is === "refused" && pin) return { is: "locked", pin, until: Number(detail.until ?? 0) };
  return { is: now.is, why: `${variant}: ${why}`, lost: variant === "KeyGone" };
}

export function openCore({ mayLetGo }: OpenOptions): Opened {
  const worker = () =>
    new Worker(new URL("core/book-worker.js", document.baseURI), { type: "module", name: "book" });
  const listeners = new Set<(standing: Standing) => void>();
  let link: Connection<BookCalls>;
  const tell = (standing: Standing) => {
    for (const listener of listeners) listener(standing);
  };
  const start = (pin?: string) => {
    const mine = (link = connect<BookCalls>({
      worker,
      folder: "books",
      settings: { book: "book", ...(pin === undefined ? {} : { pin }) },
      mayLetGo,
    }));
    // Only this ends a link, and it says itself why.
    mine.onStanding((now) => {
      if (mine === link && now.is !== "closed") tell(standingOf(now));
    });
  };
  start();
  // Calls go to whatever worker there is now: a locked phone has none.
  const calls = new Proxy({} as BookCalls, {
    get: (_, name) =>
      typeof name === "string" && name !== "then"
        ? (...args: unknown[]) =>
            (link.api as unknown as Record<string, (...args: unknown[]) => unknown>)[name]?.(...args)
        : undefined,
  });
  return {
    calls,
    takeOver: () => link.takeOver(),
    unlock(pin) {
      link.close();
      start(pin);
    },
    async lock() {
      const was = link;
      // Calls are answered in order: what was asked before this is on the disk. A worker that broke answers
      // nothing.
      await was.api.lockPeople().catch(() => undefined);
      tell({ is: "locked", pin: "asks", until: 0 });
      was.close();
    },
    onStanding(listener) {
      listeners.add(listener);
      listener(standingOf(link.standing));
    },
  };
}
