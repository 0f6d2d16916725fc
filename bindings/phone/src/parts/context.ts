/** What every screen may use without having it passed down: words, the app, and the way to another screen. */
import { getContext, setContext } from "svelte";
import type { AppState } from "../state/app.svelte";
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
export interface Shell {
  readonly say: Say;
  readonly app: AppState;
  /** The car that is open. */
  readonly visit: string;
  readonly about: string;
  go(screen: Screen, about?: string, visit?: string): void;
  back(): void;
}
const KEY = Symbol("shell");
export const provideShell = (s: Shell): Shell => setContext(KEY, s);
export const useShell = (): Shell => getContext<Shell>(KEY);
