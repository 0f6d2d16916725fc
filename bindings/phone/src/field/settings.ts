/**
 * What this phone was told about itself: who holds it, where, how it looks. Small and not part of any record.
 */
import type { SiteView } from "../core/shapes";
import type { Message } from "../core/views.generated";

export interface Settings {
  /** The phone's language, as a tag; empty until somebody chose one. */
  lang: string;
  /** The language of each person who chose one, by the person's code. */
  languages: Record<string, string>;
  look: "auto" | "day" | "night";
  scale: 1 | 1.15 | 1.3;
  pressure: string;
  temperature: string;
  volume: string;
  torque: string;
  operator: string;
  site: string;
  position: boolean;
  /** Who said "later" when a PIN was offered. */
  pin_later: string;
  /** Minutes without a touch after which a phone under a PIN locks. */
  lock_after: 5 | 15 | 60;
  /** Whether a photograph keeps the place it was taken at inside its file. */
  photo_place: boolean;
  /** Whether the phone sounds and shakes when a reading is due. */
  reminders: boolean;
  /** What was chosen last, by the question; offered again, and always shown before it is recorded. */
  last: Record<string, string>;
}
const PLACE = "farsiding.settings";
const plain: Settings = {
  lang: "",
  languages: {},
  look: "auto",
  scale: 1,
  pressure: "psi",
  temperature: "°F",
  volume: "gal",
  torque: "ft·lbf",
  operator: "",
  site: "",
  position: false,
  pin_later: "",
  lock_after: 15,
  photo_place: false,
  reminders: true,
  last: {},
};

export function readSettings(): Settings {
  try {
    return { ...plain, ...(JSON.parse(localStorage.getItem(PLACE) ?? "{}") as Partial<Settings>) };
  } catch {
    return { ...plain };
  }
}
export function keepSettings(settings: Settings): void {
  try {
    localStorage.setItem(PLACE, JSON.stringify(settings));
  } catch {
    // A place that keeps nothing is told to the person by the storage check; the choice holds until the page
    // closes.
  }
}

const CARD = "farsiding.card";
/**
 * The sites as last seen, so that whom to call is there before the core is, and where no records can be kept.
 */
export function readCard(): SiteView[] {
  try {
    return JSON.parse(localStorage.getItem(CARD) ?? "[]") as SiteView[];
  } catch {
    return [];
  }
}
export function keepCard(sites: SiteView[]): void {
  try {
    localStorage.setItem(CARD, JSON.stringify(sites));
  } catch {
    // Then the card waits for the core.
  }
}

const CAUTIONS = "farsiding.cautions";
/**
 * What to beware of at the cars here, for a phone that is locked. It lies open: kept only where there is a
 * lock.
 */
export interface CautionHere {
  car: string;
  spot: string;
  /** What it is held for, as a message; a text where an older version kept it. */
  hold: Message | string;
  alarms: number;
}
export function readCautions(): CautionHere[] {
  try {
    return JSON.parse(localStorage.getItem(CAUTIONS) ?? "[]") as CautionHere[];
  } catch {
    return [];
  }
}
export function keepCautions(all: CautionHere[] | null): void {
  try {
    if (all?.length) localStorage.setItem(CAUTIONS, JSON.stringify(all));
    else localStorage.removeItem(CAUTIONS);
  } catch {
    // Then a locked phone shows whom to call, and no more.
  }
}
