/**
 * Whether what is recorded here lasts, and how much room there is. Lives here: asking and holding. Not here:
 * the rule itself and what browsers answer (`field/room.ts`).
 */
import { LITTLE_ROOM, ROOM_FOR_RECORDS, installed, recordsLast, roomNow, type Room } from "../field/room";
import type { Trouble } from "./trouble.svelte";

export class PhoneStorage {
  room = $state.raw<Room | null>(null);
  readonly #trouble: Trouble;

  constructor(trouble: Trouble) {
    this.#trouble = trouble;
  }
  async look(): Promise<void> {
    this.room = await roomNow();
  }
  /** Whether the phone can take records without the person doing something first. */
  get lasting(): boolean {
    return this.room === null || this.room.kept || installed();
  }
  get littleRoom(): boolean {
    return this.room !== null && this.room.told && this.room.free < LITTLE_ROOM;
  }
  /** Asked before anything is recorded: nothing is where it would not last. */
  async lasts(): Promise<boolean> {
    const lasts = await recordsLast();
    if (!lasts) this.#trouble.text = "not_lasting";
    return lasts;
  }
  /** Asked before a photograph is kept: the last room is for the records. */
  takesPhotos(): boolean {
    if (!this.room?.told || this.room.free >= ROOM_FOR_RECORDS) return true;
    this.#trouble.text = "full";
    return false;
  }
}
