/**
 * Reminders of every open car of this phone, while the app is open: a reading that is due, a pressure hold
 * that is over, a connected car that nobody has, the word that all is well.
 * Lives here: when it rings, and which car it is shown for. What is due is the core's; how it sounds is
 * `field/alert.ts`.
 */
import type { VisitView } from "../core/shapes";
import { readAt } from "../figure";

/** How often the core is asked what is due. */
const LOOK_MS = 30_000;
/**
 * How long after opening it is asked first: what a person waits for comes before what other cars remind of.
 */
const FIRST_MS = 5_000;

/**
 * Since when nobody has a car whose line is on: nobody declared to have it, and nothing was recorded at it
 * for longer than its site allows. That somebody left it is another matter, and said elsewhere.
 */
export const nobodySince = (view: VisitView): number | undefined =>
  view.attendance.gaps.find((gap) => gap.open && !gap.declared && !gap.said_away)?.from;

/** What is due at a car, each by a name that is another one when it is due once more. */
export function dueAt(view: VisitView, now: number): string[] {
  if (view.release.released) return [];
  const readings = view.steps.steps
    .filter((step) => view.steps.next.includes(step.id) && ["recorded", "done"].includes(step.status))
    .map((step) => `${step.id}@${step.due}`);
  const { hold_minutes } = view.guide;
  const holds = (hold_minutes === undefined ? [] : view.series)
    .filter((one) => one.purpose === "hold_test" && one.measured === "pressure" && one.points.length === 1)
    .flatMap((one) => one.points.map((point) => readAt(point.said)))
    .filter((began) => now - began >= hold_minutes! * 60_000)
    .map((began) => `hold@${began}`);
  const since = nobodySince(view);
  const nobody = since === undefined ? [] : [`watch@${since}`];
  return [...readings, ...holds, ...nobody, ...wordAt(view, now)];
}

/** How often an overdue word that all is well is asked for again. */
const AGAIN_MS = 60_000;
const OVERDUE = "overdue@";

/** The word that all is well, once it is due; overdue, it is asked for every minute. */
function wordAt({ check_in, guide }: VisitView, now: number): string[] {
  if (!check_in || !guide.check_in || guide.check_in === "not_yet") return [];
  const once = `word@${check_in.last}`;
  return guide.check_in === "due" ? [once] : [once, `${OVERDUE}${Math.floor(now / AGAIN_MS)}`];
}

/** What a car reminds of, as it is shown while another one is on the screen. */
export interface Reminder {
  visit: string;
  car: string;
  what: "reading" | "hold" | "watch" | "word";
}

const whatOf = (due: string): Reminder["what"] => {
  const [name = ""] = due.split("@");
  if (name === "hold" || name === "watch") return name;
  return name === "word" || `${name}@` === OVERDUE ? "word" : "reading";
};

/** What each car reminds of; first where nobody said that all is well, then where a reading waits. */
export function remindersOf(views: readonly VisitView[], now: number): Reminder[] {
  const first = ["word", "watch", "hold", "reading"];
  return views
    .flatMap((view): Reminder[] => {
      const [what] = dueAt(view, now)
        .map(whatOf)
        .sort((a, b) => first.indexOf(a) - first.indexOf(b));
      const [visit] = view.header.visits;
      return what && visit ? [{ visit, car: view.header.car, what }] : [];
    })
    .sort((a, b) => first.indexOf(a.what) - first.indexOf(b.what));
}

/**
 * Whether a device looks after a car: it recorded something of this stay, and nobody took the car over on
 * another one since.
 */
export function looksAfter(device: string, view: VisitView): boolean {
  const own = view.history.findLastIndex((line) => line.said.device === device);
  const taken = view.history.findLastIndex(
    (line) => line.slot === "series/handover" && line.said.device !== device,
  );
  return own >= 0 && own > taken;
}

export interface ReminderParts {
  /** Reads the open cars again, so that what is due comes first. */
  looks: () => Promise<void>;
  /** Sounds and shakes, if the person wants that; louder, and longer, for what is overdue. */
  alerts: (loud: boolean) => void;
}

export class Reminders {
  readonly #rung = new Set<string>();
  readonly #parts: ReminderParts;

  constructor(parts: ReminderParts) {
    this.#parts = parts;
    setInterval(() => void parts.looks(), LOOK_MS);
    // A phone that comes out of the pocket shows what became due there.
    document.addEventListener("visibilitychange", () => {
      if (document.visibilityState === "visible") void parts.looks();
    });
  }
  /** The records were opened. */
  opened(): void {
    setTimeout(() => void this.#parts.looks(), FIRST_MS);
  }
  /** Rings once for everything that has become due at these cars. */
  watches(views: readonly VisitView[]): void {
    const now = Date.now();
    const fresh = views
      .flatMap((view) => dueAt(view, now).map((due) => `${view.header.visits[0]} ${due}`))
      .filter((due) => !this.#rung.has(due));
    for (const due of fresh) this.#rung.add(due);
    if (fresh.length > 0) this.#parts.alerts(fresh.some((due) => due.includes(` ${OVERDUE}`)));
  }
}
