/**
 * Making records: what a screen hands in goes to the core, with the place, the person's signature and the
 * reason of a correction. Lives here: the order of these. Not here: what a statement says (the screens and
 * `forms.ts`), which acts bind (the core's).
 */
import type { BookCalls } from "../core/calls";
import type { Draft, PhotoRef, Statement } from "../core/shapes";
import { keepPhoto } from "../field/photos";
import { lastFix } from "../field/position";
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
  /** Whoever makes the entries. */
  operator: () => string;
  /** Something of this car, or a whole car, is on the disk: it is shown and sent. */
  recorded: (visit: string) => Promise<void>;
  opened: () => Promise<void>;
}

/** How long it is said that something was recorded. */
const TOLD_MS = 1_600;

export class Recording {
  correction = $state<Correction | null>(null);
  /** The car something was recorded of last, for a moment. */
  told = $state("");
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
    const placed = JSON.stringify(place ? drafts.map((draft) => ({ ...draft, place })) : drafts);
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
    return this.#recorded(visit);
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
    return (await trouble.attempt(act)) ? this.#recorded(visit) : false;
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
  async #recorded(visit: string): Promise<boolean> {
    this.told = visit;
    clearTimeout(this.#told);
    this.#told = setTimeout(() => (this.told = ""), TOLD_MS);
    await this.#parts.recorded(visit);
    return true;
  }
}

/** The last of some drafts takes the place of the entry that is put right. */
function replacing(drafts: Draft[], correction: Correction): Draft[] {
  return drafts.map((draft, at) =>
    at === drafts.length - 1 ? { ...draft, replaces: [correction.entry], why: correction.why } : draft,
  );
}
