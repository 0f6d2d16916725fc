// What the page asks of its worker, and what the worker answers.
import type { KeyStanding } from "../../../web/src/keys";

/**
 * The calls of a book as the page makes them, over whatever carries them (the worker of `bindings/web`). JSON
 * goes in and out as text, ids as text, bytes as bytes. Lives here: the names and their order of arguments,
 * nothing that acts.
 */
export interface BookCalls {
  device(): Promise<string>;
  openVisit(visit: string, by: string): Promise<string>;
  append(subject: string, drafts: string, by: string): Promise<string[]>;
  preview(visit: string, drafts: string, by: string): Promise<string>;
  recordStep(
    visit: string,
    step: string,
    outcome: string,
    note: string,
    drafts: string,
    by: string,
  ): Promise<string[]>;
  settle(visit: string, keeps: string, why: string, by: string): Promise<string[]>;
  withdraw(visit: string, entry: string, why: string, by: string): Promise<string[]>;
  passOver(visit: string, blocker: string, why: string, by: string): Promise<string[]>;
  overrideItems(visit: string, gate: string, items: string[], reason: string, by: string): Promise<string[]>;
  fitToUnload(visit: string, by: string): Promise<string[]>;
  release(visit: string, asResidue: boolean, by: string): Promise<string[]>;
  standing(): Promise<string>;
  over(from: number, most: number): Promise<string>;
  visit(visit: string): Promise<string>;
  find(text: string): Promise<string>;
  sites(): Promise<string>;
  people(): Promise<string>;
  setDraft(key: string, text: string): Promise<void>;
  drafts(): Promise<string>;
  photoTaken(sha256: string, length: bigint, media: string): Promise<string>;
  photosWaiting(): Promise<string>;
  status(): Promise<string>;
  enrolRequest(code: string, name: string, organisationKey: string, serverTime: bigint): Promise<Uint8Array>;
  enrolled(organisationKey: string, certificate: Uint8Array): Promise<void>;
  enrolledWith(organisationKey: string, keyStatements: Uint8Array[], certificate: Uint8Array): Promise<void>;
  syncStart(): Promise<void>;
  syncRequest(): Promise<Uint8Array>;
  syncReceive(reply: Uint8Array): Promise<string>;
  passRequest(): Promise<Uint8Array>;
  photosOf(visits: string[]): Promise<string>;
  carryPhoto(bytes: Uint8Array): Promise<void>;
  carryOut(visits: string[]): Promise<Uint8Array>;
  carryIn(file: Uint8Array): Promise<string>;
  carriedPhoto(): Promise<Picture | undefined>;
  readAmount(text: string, unit: string, decimalMark: string | undefined): Promise<ReadAmount>;
  binds(drafts: string): Promise<boolean>;
  peopleHere(): Promise<string>;
  makePersonKey(person: string, pin: string): Promise<string>;
  unlockPerson(person: string, pin: string): Promise<void>;
  lockPeople(): Promise<void>;
  changePin(person: string, old: string, fresh: string): Promise<void>;
  forgetPersonKey(person: string): Promise<void>;
  /** What protects this phone. */
  protection(): Promise<KeyStanding>;
  /** The key of the photographs, which no page can read; nothing where they lie open. */
  photoKey(): Promise<PhotoKey | null>;
  /** Puts the phone under a PIN, another one, or none. */
  setPhonePin(old: string | undefined, fresh: string | undefined): Promise<void>;
}

/**
 * What was typed as an amount: one reading, two to choose from, or none and why (a stable name). `amount` is
 * JSON for a statement.
 */
export interface ReadAmount {
  text: string;
  readings: { amount: string; value: number; unit: string; shown: string }[];
  refused: string;
  why: string;
}
export interface PhotoKey {
  id: string;
  key: CryptoKey;
}

/** A photograph's exact bytes out of a carry file. */
export interface Picture {
  media: string;
  bytes: Uint8Array;
}

/** How the records stand on this phone. Shown before anything else. */
export type Standing =
  | { is: "starting" }
  /** Another tab has the records open. */
  | { is: "waiting" }
  | { is: "ready" }
  /** The phone opens with a PIN; `until` says from when it may be tried, milliseconds since 1970. */
  | { is: "locked"; pin: "asks" | "wrong" | "waits"; until: number }
  /** No records can be kept here. `lost`: what is here is sealed, and the browser has lost the key. */
  | { is: "refused"; why: string; lost?: boolean }
  /** The core broke off again and again. */
  | { is: "broken"; why: string; lost?: boolean };

/** What `#core` opens. */
export interface Opened {
  calls: BookCalls;
  onStanding(listener: (standing: Standing) => void): void;
  /** While waiting: asks the other tab to let go. */
  takeOver(): void;
  /** Tries a PIN; what comes of it is told as a standing. */
  unlock(pin: string): void;
  /** Ends the worker, and with it whatever could open the records, once what was asked before is done. */
  lock(): Promise<void>;
}
export interface OpenOptions {
  mayLetGo: () => boolean;
}
