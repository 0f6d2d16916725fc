/// <reference lib="webworker" />
/** Everything the app needs, kept for weeks without a network. Takes over only when told. */
import { createHandlerBoundToURL, precacheAndRoute } from "workbox-precaching";
import { NavigationRoute, registerRoute } from "workbox-routing";

declare const self: ServiceWorkerGlobalScope & {
  __WB_MANIFEST: (string | { url: string; revision: string | null })[];
};

precacheAndRoute(self.__WB_MANIFEST);
registerRoute(new NavigationRoute(createHandlerBoundToURL("index.html"), { denylist: [/\/v1\//] }));
self.addEventListener("message", (e) => {
  if (e.data === "take over") void self.skipWaiting();
});
