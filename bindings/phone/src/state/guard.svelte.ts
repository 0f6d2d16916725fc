/**
 * What protects this phone, and its lock: whether a PIN is asked for, when it locks by itself, what stays
 * readable while it is locked. Lives here: asking, holding, the clock of idleness. Not here: any key (the
 * worker's), any drawing.
 */
import type { BookCalls, Opened, Standing } from "../core/calls";
import type { VisitRow } from "../core/shapes";
import { keepCautions } from "../field/settings";
import type { KeyStanding } from "../../../web/src/keys";

const LOOK_MS = 5_000;

export class Guard {
  /** Nothing until the records are open. */
  standing = $state.raw<KeyStanding | null>(null);
  readonly #core: Opened;
  readonly #minutes: () => number;
  readonly #busy: () => boolean;
  readonly #rows: () => VisitRow[];
  #touched = Date.now();

  constructor(core: Opened, minutes: () => number, busy: () => boolean, rows: () => VisitRow[]) {
    this.#core = core;
    this.#rows = rows;
    this.#minutes = minutes;
    this.#busy = busy;
    for (const kind of ["pointerdown", "keydown"])
      addEventListener(
        kind,
        () => {
          this.#touched = Date.now();
        },
        { capture: true, passive: true },
      );
    setInterval(() => this.#look(), LOOK_MS);
    document.addEventListener("visibilitychange", () => this.#look());
  }
  async read(calls: BookCalls): Promise<void> {
    this.standing = await calls.protection();
    this.#touched = Date.now();
  }
  get locks(): boolean {
    return this.standing?.lock ?? false;
  }
  /** Whether a PIN can be put before this phone's records at all. */
  get canLock(): boolean {
    return this.standing?.key === "wrapped" && this.standing.records === "sealed";
  }

  #look(): void {
    if (this.locks && !this.#busy() && Date.now() - this.#touched > this.#minutes() * 60_000)
      void this.lock();
  }
  /** The camera comes up: a picture that takes its time finds the phone open when it is kept. */
  camera(): void {
    this.#touched = Date.now() + 10 * 60_000;
  }
  async lock(): Promise<void> {
    if (!this.locks) return;
    this.note();
    this.standing = null; // told anew when the phone is open again
    await this.#core.lock();
  }
  /** Tries a PIN; what comes of it is told as a standing. */
  unlock(pin: string): void {
    this.#core.unlock(pin);
  }
  /** Another PIN, the first one, or none. Returns what was wrong with it, by what the person can do. */
  async set(
    calls: BookCalls,
    old: string | undefined,
    fresh: string | undefined,
  ): Promise<"" | "wrong" | "weak" | "waits" | "failed"> {
    try {
      await calls.setPhonePin(old, fresh);
      await this.read(calls);
      if (this.locks) this.note();
      else keepCautions(null);
      return "";
    } catch (error) {
      const { variant } = error as { variant?: string };
      return variant === "WrongPin"
        ? "wrong"
        : variant === "WeakPin"
          ? "weak"
          : variant === "PinWaits"
            ? "waits"
            : "failed";
    }
  }
  /** What a locked phone still says of the cars here. */
  note(): void {
    if (!this.locks) return;
    const here = this.#rows().filter((row) => !row.released && (row.on_hold || row.alarms > 0));
    here.sort((a, b) => a.spot.localeCompare(b.spot, "en", { numeric: true }));
    keepCautions(
      here.map((row) => ({
        car: row.car,
        spot: row.spot,
        hold: row.on_hold ? row.kept_by : "",
        alarms: row.alarms,
      })),
    );
  }
}

/** Whether a standing ends what was open on the screen. */
export const isLocked = (standing: Standing): standing is Extract<Standing, { is: "locked" }> =>
  standing.is === "locked";
