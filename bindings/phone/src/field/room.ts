/**
 * What the browser promises about storage: asked and told, never assumed. Nothing here deletes anything.
 *
 * The rule: records are made only where the browser promised to keep them (`persist()`) or the app is
 * installed. A page in a tab without that promise may be cleared by the browser on its own account, and a
 * private window always is. What is here already is shown, sent and carried in any case.
 */
import { fitting } from "./photos";

/** `free` fits for certain; there may be up to twice as much, and it counts no further than `MUCH_ROOM`. */
export interface Room {
  kept: boolean;
  free: number;
  /** Whether it is known how much there is. */ told: boolean;
}
/** Free space below which the phone says so before it hurts: some forty photographs. */
export const LITTLE_ROOM = 2 ** 27;
/** Free space below which no photograph is taken, so that the records have it. */
export const ROOM_FOR_RECORDS = 2 ** 25;
/** Nobody needs to know of more. */
const MUCH_ROOM = 2 ** 30;

const LOOK_MS = 30_000;
let looked = 0,
  free: number | null = null;

export async function roomNow(): Promise<Room> {
  const kept = (await navigator.storage?.persisted?.()) ?? false;
  // Often where it matters, seldom where there is plenty.
  if (free === null || free < MUCH_ROOM || Date.now() - looked > LOOK_MS) {
    looked = Date.now();
    free = await fitting();
  }
  return { kept, free: free ?? 0, told: free !== null };
}
/** Asks the browser to keep the records until the person removes them. */
export async function askToKeep(): Promise<boolean> {
  const storage = navigator.storage;
  return (await storage?.persisted?.()) || (await storage?.persist?.()) || false;
}

/** Whether the app runs from the home screen: browsers do not clear what an installed app keeps. */
export const installed = (): boolean =>
  (navigator as Navigator & { standalone?: boolean }).standalone === true ||
  ["standalone", "fullscreen", "minimal-ui"].some((mode) => matchMedia(`(display-mode: ${mode})`).matches);

let lasts = false;
/** Whether a record made here would last; asks the browser for its promise where it has not given it. */
export async function recordsLast(): Promise<boolean> {
  return (lasts ||= installed() || (await askToKeep()));
}

/** Chromium's way to the home screen, where it offers one. */
type Offer = Event & { prompt(): Promise<unknown> };
let offer: Offer | undefined;
addEventListener("beforeinstallprompt", (event) => {
  event.preventDefault();
  offer = event as Offer;
});
/**
 * Asks for the promise and, where that fails, to be installed. Returns whether records made here last now.
 */
export async function makeLast(): Promise<boolean> {
  if (await recordsLast()) return true;
  await offer?.prompt();
  return recordsLast();
}
