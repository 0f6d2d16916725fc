/** What every screen may use without having it passed down: words, and the way to another screen. No product data. */
import { getContext, setContext } from "svelte";
import type { Screen } from "../core/port";
import type { Say } from "../strings";

export interface Shell {
  readonly say: Say;
  go(screen: Screen, about?: string): void;
  back(): void;
  readonly only_here: number;
}
const KEY = Symbol("shell");
export const provideShell = (s: Shell): Shell => setContext(KEY, s);
export const useShell = (): Shell => getContext<Shell>(KEY);
