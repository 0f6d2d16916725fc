/**
 * People with keys of their own on this phone: who holds it, whether a PIN is to be asked for before an act,
 * what came of a PIN. Lives here: asking and holding. Not here: which acts bind, what a PIN is worth (the
 * core's), any drawing.
 */
import type { Message } from "../core/views.generated";
import { told } from "../said";
import type { BookCalls } from "../core/calls";
import type { Draft, KeyHere, PeopleHere } from "../core/shapes";

/** What came of a PIN, by what the person can do next. */
export type Tried =
  | { is: "right" }
  | { is: "wrong"; left: number }
  | { is: "waits"; until: number }
  | { is: "locked" }
  | { is: "ended" }
  | { is: "weak" }
  | { is: "failed"; why: Message | string };

export class PersonKeys {
  here = $state.raw<PeopleHere | null>(null);
  /** The pad is up: an act waits for a PIN, or for the word to go on without. */
  asking = $state.raw<{ answer: (go: boolean) => void } | null>(null);
  readonly #calls: BookCalls;
  readonly #operator: () => string;

  constructor(calls: BookCalls, operator: () => string) {
    this.#calls = calls;
    this.#operator = operator;
  }
  async look(): Promise<void> {
    this.here = JSON.parse(await this.#calls.peopleHere()) as PeopleHere;
  }

  /** The key of whoever makes the entries now, whether or not it still opens. */
  get mine(): KeyHere | undefined {
    return this.here?.keys.find((key) => key.person === this.#operator());
  }
  /** Whether it can be unlocked. */
  get usable(): boolean {
    const mine = this.mine;
    return mine !== undefined && !mine.ended && mine.tries_left > 0;
  }
  get holding(): boolean {
    return this.here?.holder?.person === this.#operator();
  }
  /** Whether a PIN can be made for whoever makes the entries now. */
  get offered(): boolean {
    return (this.here?.can_make ?? false) && this.#operator() !== "" && !this.usable;
  }

  /** Before an act: asks for the PIN where there is one to ask for. False when the person turned back. */
  async before(drafts?: Draft[]): Promise<boolean> {
    if (!this.usable) return true;
    // A shift may have ended since anybody looked.
    await this.look();
    if (this.holding || (drafts && !(await this.#calls.binds(JSON.stringify(drafts))))) return true;
    return new Promise((answer) => {
      this.asking = { answer };
    });
  }
  answer(go: boolean): void {
    const asked = this.asking;
    this.asking = null;
    asked?.answer(go);
  }

  unlock(pin: string): Promise<Tried> {
    return this.#try(() => this.#calls.unlockPerson(this.#operator(), pin));
  }
  make(pin: string): Promise<Tried> {
    return this.#try(() => this.#calls.makePersonKey(this.#operator(), pin));
  }
  change(old: string, fresh: string): Promise<Tried> {
    return this.#try(() => this.#calls.changePin(this.#operator(), old, fresh));
  }
  forget(): Promise<Tried> {
    return this.#try(() => this.#calls.forgetPersonKey(this.#operator()));
  }
  async lock(): Promise<void> {
    await this.#calls.lockPeople();
    await this.look();
  }
  async #try(act: () => Promise<unknown>): Promise<Tried> {
    const tried = await act().then((): Tried => ({ is: "right" }), triedOf);
    await this.look();
    return tried;
  }
}

/** A failure of the core as far as it is read here. */
interface Failed {
  variant?: string;
  why?: string;
  detail?: { left?: number; until?: bigint | number };
}

function triedOf(error: unknown): Tried {
  const said = error as Failed;
  switch (said.variant) {
    case "WrongPin":
      return { is: "wrong", left: Number(said.detail?.left ?? 0) };
    case "PinWaits":
      return { is: "waits", until: Number(said.detail?.until ?? 0) };
    case "KeyLocked":
      return { is: "locked" };
    case "KeyEnded":
      return { is: "ended" };
    case "WeakPin":
      return { is: "weak" };
    default:
      return { is: "failed", why: told(error) };
  }
}
