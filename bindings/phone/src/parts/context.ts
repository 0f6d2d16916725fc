/**
 * What every screen may use without having it passed down: words, the state of the page, and the way to
 * another screen.
 */
import { getContext, setContext } from "svelte";
import type { StepView } from "../core/shapes";
import type { AppState } from "../state/app.svelte";
import type { Update } from "../state/update.svelte";
import type { Say } from "../strings";

export type Screen =
  | "cars"
  | "new"
  | "car"
  | "carried"
  | "history"
  | "entry"
  | "step"
  | "steps"
  | "paper"
  | "more"
  | "else"
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
  | "override"
  | "round"
  | "blocker"
  | "only_here"
  | "find"
  | "help"
  | "setup"
  | "language"
  | "enrol"
  | "who"
  | "pin"
  | "where"
  | "carry"
  | "strip"
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
  /** The step that comes next, where the screen that answers it is shown in its place. */
  readonly step: StepView | undefined;
  go(screen: Screen, about?: string, visit?: string): void;
  /** Says what is chosen on the screen that is open; the way back does not lead over it. */
  choose(about: string): void;
  /** Goes to another screen of the car in place of this one; the way back does not lead over it. */
  instead(screen: Screen, about: string): void;
  back(): void;
  /** Leaves a screen once what stood on it is recorded. */
  done(): void;
}
const KEY = Symbol("shell");
export const provideShell = (s: Shell): Shell => setContext(KEY, s);
export const useShell = (): Shell => getContext<Shell>(KEY);
