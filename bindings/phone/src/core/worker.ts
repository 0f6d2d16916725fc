/** Opens the real core: the worker of `bindings/web`, whose files the build lays under `core/` beside the page. */
import { connect } from "../../../web/src/client";
import type { BookCalls, OpenOptions, Opened, Standing } from "./calls";

export function openCore({ key, beside, mayLetGo }: OpenOptions): Opened {
  const worker = () => new Worker(new URL("core/book-worker.js", document.baseURI), { type: "module", name: "book" });
  const link = connect<BookCalls>({ worker, folder: "books", settings: { book: "book", key, beside }, mayLetGo });
  return {
    calls: link.api as unknown as BookCalls,
    takeOver: () => link.takeOver(),
    onStanding(listener) {
      link.onStanding((now) => {
        const said: Standing = now.is === "refused" || now.is === "broken" ? { is: now.is, why: `${now.failure.variant}: ${now.failure.why}` } : now.is === "closed" ? { is: "broken", why: "closed" } : { is: now.is };
        listener(said);
      });
    },
  };
}
