/// <reference lib="webworker" />
/**
 * Everything the app needs, kept for weeks without a network. Takes over only when told. Words come with the
 * app in English; those of another language are kept once somebody chose it, and a new version brings them
 * along before it is offered.
 */
import { createHandlerBoundToURL, precacheAndRoute } from "workbox-precaching";
import { NavigationRoute, registerRoute } from "workbox-routing";
import { KEPT_WORDS, languageOf } from "./words/kept";

declare const self: ServiceWorkerGlobalScope & {
  __WB_MANIFEST: (string | { url: string; revision: string | null })[];
};

const files = self.__WB_MANIFEST.map((entry) =>
  typeof entry === "string" ? { url: entry, revision: null } : entry,
);
const isChosen = ({ url }: { url: string }) => !["", "en-US"].includes(languageOf(url));
precacheAndRoute(files.filter((file) => !isChosen(file)));
registerRoute(new NavigationRoute(createHandlerBoundToURL("index.html"), { denylist: [/\/v1\//] }));

const words = files.filter(isChosen).map(({ url }) => new URL(url, self.registration.scope).href);

/** The words of this version, for every language that is kept here. */
async function bringWords(): Promise<void> {
  const shelf = await caches.open(KEPT_WORDS);
  const kept = new Set((await shelf.keys()).map(({ url }) => languageOf(url)));
  const missing = words.filter((address) => kept.has(languageOf(address)));
  await Promise.all(missing.map(async (at) => (await shelf.match(at)) ?? shelf.add(at)));
}
/** Words of versions that are over. */
async function clearWords(): Promise<void> {
  const shelf = await caches.open(KEPT_WORDS);
  for (const asked of await shelf.keys()) if (!words.includes(asked.url)) await shelf.delete(asked);
}
self.addEventListener("install", (e) => e.waitUntil(bringWords()));
self.addEventListener("activate", (e) => e.waitUntil(clearWords()));
self.addEventListener("message", (e) => {
  if (e.data === "take over") void self.skipWaiting();
});
