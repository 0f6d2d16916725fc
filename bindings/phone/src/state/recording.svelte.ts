/**
 * Making records: what a screen hands in goes to the core, with the place, the person's signature and the
 * reason of a correction. Lives here: the order of these. Not here: what a statement says (the screens and
 * `forms.ts`), which acts bind (the core's).
 */
import type { BookCalls } from "../core/calls";
import type { Draft, PhotoRef, Statement } from "../core/shapes";
import { keepPhoto } from "../field/photos";
import { lastFix } from "../field/position";
import { isoTime } from "../kind-forms";
import type { Drafts } from "./drafts.svelte";
import type { PersonKeys } from "./person-keys.svelte";
import type { PhoneStorage } from "./storage.svelte";
import type { Trouble } from "./trouble.svelte";

/**
 * An entry that is being put right: what it says, the screen that records it again, and the reason as it is
 * typed.
 */
export interface Correction {
  visit: string;
  entry: string;
  sentence: string;
  why: string;
  screen: string;
}
/** A step of the procedure that is finished, skipped or found not right. */
export interface StepOutcome {
  id: string;
  outcome: string;
  note: string;
}
/** What making a record needs of the rest of the page. */
export interface RecordingParts {
  calls: BookCalls;
  trouble: Trouble;
  storage: PhoneStorage;
  person_keys: PersonKeys;
  drafts: Pick<Drafts, "text" | "keep">;
  /** Whoever makes the entries. */
  operator: () => string;
  /** Something of this car, or a whole car, is on the disk: it is shown and sent. */
  recorded: (visit: string) => Promise<void>;
  opened: () => Promise<void>;
}

/** What was recorded last, for some seconds. */
export interface Told {
  visit: string;
  entries: string[];
  /**
   * Whether one tap voids it. What was decided, and what voids or corrects something, is voided in the event
   * log.
   */
  undoable: boolean;
}

/** How long it is said what was recorded, and how long that can be undone with one tap. */
const TOLD_MS = 7_000;

export class Recording {
  correction = $state<Correction | null>(null);
  told = $state.raw<Told | null>(null);
  /** How many times something was recorded since the page opened. */
  times = $state(0);
  #told: ReturnType<typeof setTimeout> | undefined;
  readonly #parts: RecordingParts;

  constructor(parts: RecordingParts) {
    this.#parts = parts;
  }
  /** Records and returns whether it is on the disk. What was typed stays with the caller until then. */
  async record(visit: string, drafts: Draft[], step?: StepOutcome): Promise<boolean> {
    const { calls, trouble, storage, person_keys, operator } = this.#parts;
    const correction = this.correction?.visit === visit && drafts[0] !== undefined ? this.correction : null;
    if (correction && correction.why.trim() === "") {
      trouble.text = "say_why";
      return false;
    }
    if (correction) drafts = replacing(drafts, correction);
    if (!(await storage.lasts()) || !(await person_keys.before(drafts))) return false;
    const place = lastFix();
    const at = this.doneAt(visit);
    // A step's own entry carries the time like any other.
    if (step && at !== undefined) {
      const { id, outcome, note } = step;
      drafts = [...drafts, { says: { step: { step: id, outcome, note } } }];
      step = undefined;
    }
    const more = { ...(place ? { place } : {}), ...(at === undefined ? {} : { done: at }) };
    const placed = JSON.stringify(drafts.map((draft) => ({ ...draft, ...more })));
    const began = performance.now();
    const done = await trouble.attempt(() =>
      step
        ? calls.recordStep(visit, step.id, step.outcome, step.note, placed, operator())
        : calls.append(`visit:${visit}`, placed, operator()),
    );
    if (!done) return false;
    // From being handed in to being on the disk; the stories of the phone read it.
    performance.measure("recorded", { start: began });
    if (correction) this.correction = null;
    return this.#recorded({ visit, entries: done, undoable: !correction });
  }
  /**
   * When what is entered of this car now was done, where that was earlier: somebody climbed down first. It is
   * kept like what is half typed, so that a reload does not give the rest of a line the present time.
   */
  doneAt(visit: string): number | undefined {
    const kept = this.#parts.drafts.text(earlierOf(visit));
    return kept === "" ? undefined : Date.parse(kept);
  }
  /** Says when what is entered from now on was done; nothing for the present. */
  enterAs(visit: string, at: number | undefined): void {
    this.#parts.drafts.keep(earlierOf(visit), at === undefined ? "" : isoTime(at));
  }
  say(visit: string, ...says: Statement[]): Promise<boolean> {
    return this.record(
      visit,
      says.map((statement) => ({ says: statement })),
    );
  }
  /**
   * What the core decides with the person (settle, take back, pass over, release), which binds in every case.
   */
  async decide(visit: string, act: () => Promise<string[]>): Promise<boolean> {
    const { trouble, storage, person_keys } = this.#parts;
    if (!(await storage.lasts()) || !(await person_keys.before())) return false;
    const entries = await trouble.attempt(act);
    return entries ? this.#recorded({ visit, entries, undoable: false }) : false;
  }
  /** Voids what was recorded last, with `why`. Nothing is deleted: both stay in the event log. */
  async undo(why: string): Promise<boolean> {
    const { calls, operator } = this.#parts;
    const told = this.told;
    if (!told?.undoable) return false;
    return this.decide(told.visit, async () => {
      const voided: string[] = [];
      for (const entry of [...told.entries].reverse())
        voided.push(...(await calls.withdraw(told.visit, entry, why, operator())));
      return voided;
    });
  }
  /** Opens a record for a car that came in; answers its visit. */
  async openVisit(visit: {
    car: string;
    site: string;
    receiver: string;
    spot: string;
  }): Promise<string | null> {
    const { calls, trouble, storage, operator, opened } = this.#parts;
    if (!(await storage.lasts())) return null;
    const id = await trouble.attempt(() => calls.openVisit(JSON.stringify(visit), operator()));
    if (id) await opened();
    return id;
  }
  /**
   * Keeps a picture's exact bytes; the entry that speaks of it comes after. `bare` leaves the place out of
   * the file.
   */
  async photo(file: Blob, bare: boolean): Promise<PhotoRef | null> {
    const { calls, trouble, storage } = this.#parts;
    if (!(await storage.lasts()) || !storage.takesPhotos()) return null;
    return trouble.attempt(() => keepPhoto(file, calls, bare));
  }
  async #recorded(told: Told): Promise<boolean> {
    this.told = told;
    this.times += 1;
    clearTimeout(this.#told);
    this.#told = setTimeout(() => (this.told = null), TOLD_MS);
    await this.#parts.recorded(told.visit);
    return true;
  }
}

const earlierOf = (visit: string) => `${visit}/earlier`;

/** The last of some drafts takes the place of the entry that is put right. */
function replacing(drafts: Draft[], correction: Correction): Draft[] {
  return drafts.map((draft, at) =>
    at === drafts.length - 1 ? { ...draft, replaces: [correction.entry], why: correction.why } : draft,
  );
}
