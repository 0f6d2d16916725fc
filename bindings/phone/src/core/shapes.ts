/**
 * The core's views as they arrive. The types are generated from the Rust records; what a field means is
 * documented there. Lives here: the few names that screens know by another word, and what a shell may leave
 * open. Types only.
 */
import type { GuidedVisit, Position } from "./views.generated";

export type * from "./views.generated";
export type { ItemView as TallyItem, Statement as KnownStatement } from "./views.generated";

/** A whole stay, with the guide for shells beside it. */
export type VisitView = GuidedVisit;

/**
 * A statement out of fields that somebody fills: in the shape of `KnownStatement`, with texts where that has
 * words. The core refuses what is none.
 */
export type Statement = Readonly<Record<string, unknown>>;
/** What a shell hands in to be recorded; what is left out is empty. */
export interface Draft {
  says: Statement;
  slot?: string;
  replaces?: string[];
  why?: string;
  place?: Position;
  /** The entry of another car on the track that it rests on. */
  rests_on?: { visit: string; entry: string };
}
/** How this device stands, as `status` of the bindings says it. */
export interface Status {
  device: string;
  organisation_key: string | null;
  without_receipt: number;
  photos_waiting: number;
  quarantined: number;
  clock_ahead_millis: number | null;
  damaged: string[];
  /** What left this phone because it no longer has the site, and the office holds. */
  left: { site: string; documents: number; entries: number }[];
}
