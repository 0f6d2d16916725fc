/**
 * The service worker's life seen from the page: registered after the first paint; a waiting one is offered,
 * never forced. An app that stays open for weeks asks for a newer one when the screen or the network comes
 * back, at most once an hour.
 */
export interface Update {
  ready: boolean;
  take: () => void;
}
const HOUR = 3_600_000;

export function watchForUpdate(): Update {
  const state = $state<Update>({ ready: false, take: () => {} });
  if (!("serviceWorker" in navigator) || !import.meta.env.PROD) return state;
  void navigator.serviceWorker.register("./sw.js", { scope: "./" }).then((reg) => {
    const offer = (w: ServiceWorker) => {
      state.ready = true;
      state.take = () => w.postMessage("take over");
    };
    if (reg.waiting) offer(reg.waiting);
    let asked = Date.now();
    const ask = () => {
      if (document.visibilityState === "visible" && Date.now() - asked > HOUR) {
        asked = Date.now();
        reg.update().catch(() => (asked = 0));
      }
    };
    document.addEventListener("visibilitychange", ask);
    addEventListener("online", ask);
    reg.addEventListener("updatefound", () => {
      const w = reg.installing;
      w?.addEventListener("statechange", () => {
        if (w.state === "installed" && navigator.serviceWorker.controller) offer(w);
      });
    });
  });
  let had = navigator.serviceWorker.controller !== null;
  navigator.serviceWorker.addEventListener("controllerchange", () => {
    if (had) location.reload();
    had = true;
  });
  return state;
}
