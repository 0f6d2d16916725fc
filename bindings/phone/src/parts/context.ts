/**
 * What every screen may use without having it passed down: words, the state of the page, and the way to
 * another screen.
 */
import { getContext, setContext } from "svelte";
import type { AppState } from "../state/app.svelte";
import type { Update } from "../state/update.svelte";
import type { Say } from "../strings";

export type Screen =
  | "cars"
  | "new"
  | "car"
  | "history"
  | "entry"
  | "step"
  | "steps"
  | "more"
  | "figure"
  | "ask"
  | "form"
  | "proof"
  | "tally"
  | "seal"
  | "defect"
  | "defects"
  | "holds"
  | "differ"
  | "gate"
  | "blocker"
  | "only_here"
  | "find"
  | "help"
  | "setup"
  | "enrol"
  | "who"
  | "pin"
  | "where"
  | "carry"
  | "photo"
  | "guard"
  | "refused";
/** Where the person is: a screen, the car it is about, and what of that car. Kept in the address. */
export interface Place {
  readonly screen: Screen;
  /** The car that is open. */
  readonly visit: string;
  readonly about: string;
}
export interface Shell extends Place {
  readonly say: Say;
  readonly app: AppState;
  /** A new version of the app, where one may come. */
  readonly update: Update | undefined;
  go(screen: Screen, about?: string, visit?: string): void;
  /** Says what is chosen on the screen that is open; the way back does not lead over it. */
  choose(about: string): void;
  back(): void;
}
const KEY = Symbol("shell");
export const provideShell = (s: Shell): Shell => setContext(KEY, s);
export const useShell = (): Shell => getContext<Shell>(KEY);
