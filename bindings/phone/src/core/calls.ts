/**
 * The calls of a book as the page makes them, over whatever carries them (the worker of `bindings/web`). JSON goes in and out as
 * text, ids as text, bytes as bytes. Lives here: the names and their order of arguments, nothing that acts.
 */
export interface BookCalls {
  device(): Promise<string>;
  openVisit(visit: string, by: string): Promise<string>;
  append(subject: string, drafts: string, by: string): Promise<string[]>;
  preview(visit: string, drafts: string, by: string): Promise<string>;
  recordStep(visit: string, step: string, outcome: string, note: string, drafts: string, by: string): Promise<string[]>;
  settle(visit: string, keeps: string, why: string, by: string): Promise<string[]>;
  withdraw(visit: string, entry: string, why: string, by: string): Promise<string[]>;
  passOver(visit: string, blocker: string, why: string, by: string): Promise<string[]>;
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
  binds(drafts: string): Promise<boolean>;
  peopleHere(): Promise<string>;
  makePersonKey(person: string, pin: string): Promise<string>;
  unlockPerson(person: string, pin: string): Promise<void>;
  lockPeople(): Promise<void>;
  changePin(person: string, old: string, fresh: string): Promise<void>;
  forgetPersonKey(person: string): Promise<void>;
}

/** A photograph's exact bytes out of a carry file. */
export interface Picture { media: string; bytes: Uint8Array }

/** How the records stand on this phone. Shown before anything else. */
export type Standing =
  | { is: "starting" }
  /** Another tab has the records open. */
  | { is: "waiting" }
  | { is: "ready" }
  /** No records can be kept here. */
  | { is: "refused"; why: string }
  /** The core broke off again and again. */
  | { is: "broken"; why: string };

/** What `#core` opens. */
export interface Opened {
  calls: BookCalls;
  onStanding(listener: (standing: Standing) => void): void;
  /** While waiting: asks the other tab to let go. */
  takeOver(): void;
}
export interface OpenOptions { key: Uint8Array; beside: Uint8Array; mayLetGo: () => boolean }
