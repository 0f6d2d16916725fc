/**
 * The state of the whole page, put together from one class for each concern. Lives here: how they hang
 * together, the settings, opening and locking. Not here: any rule of the trade (the core's), any drawing
 * (screens). One instance, made in `main.ts`.
 */
import type { BookCalls, Opened, Standing } from "../core/calls";
import type { Draft, Meaning, Person, SiteView, Statement, VisitView } from "../core/shapes";
import { alerts } from "../field/alert";
import { enrol } from "../field/enrol";
import { photosUnder, sealPhotos } from "../field/photos";
import { watchPosition } from "../field/position";
import { keepSettings, readSettings, type Settings } from "../field/settings";
import { Syncer, office, type SyncState } from "../field/sync";
import { choosing } from "../words/whose";
import { Drafts } from "./drafts.svelte";
import { Guard, isLocked } from "./guard.svelte";
import { Language } from "./language.svelte";
import { PersonKeys } from "./person-keys.svelte";
import { Recording, type StepOutcome } from "./recording.svelte";
import { Records } from "./records.svelte";
import { Reminders } from "./reminders";
import { PhoneStorage } from "./storage.svelte";
import { Trouble } from "./trouble.svelte";

export class AppState {
  standing = $state<Standing>({ is: "starting" });
  settings = $state<Settings>(readSettings());
  sync = $state.raw<SyncState>({ is: "idle", at: 0, why: "", differing: 0 });
  readonly calls: BookCalls;
  readonly trouble = new Trouble();
  readonly language = new Language();
  readonly records: Records;
  readonly recording: Recording;
  readonly drafts: Drafts;
  readonly storage: PhoneStorage;
  readonly person_keys: PersonKeys;
  readonly guard: Guard;
  readonly syncer: Syncer;
  readonly reminders: Reminders;
  readonly #core: Opened;

  constructor(core: Opened) {
    const { calls } = core;
    const operator = () => this.settings.operator;
    this.#core = core;
    this.calls = calls;
    this.records = new Records(calls, this.trouble);
    this.drafts = new Drafts(calls, this.trouble, () => this.standing.is === "ready");
    this.storage = new PhoneStorage(this.trouble);
    this.person_keys = new PersonKeys(calls, operator);
    this.recording = new Recording({
      calls,
      trouble: this.trouble,
      storage: this.storage,
      person_keys: this.person_keys,
      drafts: this.drafts,
      operator,
      recorded: (visit) => this.#recorded(visit),
      opened: () => this.#opened(),
    });
    this.syncer = new Syncer(
      calls,
      (state) => (this.sync = state),
      () => this.refresh(),
    );
    this.guard = new Guard(
      core,
      () => this.settings.lock_after,
      () => this.sync.is === "running" || this.person_keys.asking !== null,
      () => this.records.rows ?? [],
    );
    this.reminders = new Reminders({
      looks: async () => {
        if (this.standing.is !== "ready") return;
        await this.records.readView();
        await this.records.readOthers();
      },
      alerts: (loud) => {
        if (this.settings.reminders) alerts(loud);
      },
    });
    core.onStanding((standing) => this.#stand(standing));
    watchPosition(this.settings.position);
  }

  // ------------------------------------------------------------------------------ opening and locking
  #stand(standing: Standing): void {
    const came = standing.is === "ready" && this.standing.is !== "ready";
    if (isLocked(standing) && !isLocked(this.standing)) this.#shut();
    this.standing = standing;
    if (came) void this.#begin();
  }
  async #begin(): Promise<void> {
    await this.guard.read(this.calls);
    photosUnder(await this.calls.photoKey());
    await this.drafts.read();
    await this.refresh();
    this.syncer.start();
    this.reminders.opened();
    void sealPhotos();
  }
  /** Locked: nothing of the records stays on the screen or in the page. */
  #shut(): void {
    this.syncer.stop();
    photosUnder(null);
    this.records.shut();
    this.drafts.shut();
    this.recording.correction = null;
    this.person_keys.here = null;
    this.person_keys.asking = null;
    this.trouble.text = "";
  }
  takeOver(): void {
    this.#core.takeOver();
  }
  /** Whether an update or another tab may take over now: nothing half typed on screen, nothing running. */
  atRest(): boolean {
    return this.person_keys.asking === null && !document.querySelector("input:focus, textarea:focus");
  }

  // ------------------------------------------------------------------------------------------- asking
  /** Opens a car's record. */
  async open(visit: string): Promise<void> {
    if (this.records.turnTo(visit)) this.recording.correction = null;
    if (this.standing.is === "ready") await this.records.readView(visit);
  }
  async refresh(): Promise<void> {
    if (this.standing.is !== "ready") return;
    await this.trouble.attempt(async () => {
      await this.records.readLists();
      this.guard.note();
      await this.person_keys.look();
      await this.records.readView();
    });
    await this.storage.look();
  }
  meaning(visit: string, draft: Draft): Promise<Meaning | null> {
    return this.records.meaning(visit, draft, this.settings.operator);
  }
  /** Everything about the car that is open. */
  get view(): VisitView | null {
    return this.records.view;
  }
  get people(): Person[] {
    return this.records.people;
  }
  /** Whoever makes the entries, by name. */
  get operator_name(): string {
    return this.records.nameOf(this.settings.operator);
  }
  site(): SiteView | undefined {
    return this.records.site(this.settings.site);
  }

  // ---------------------------------------------------------------------------------------- recording
  record(visit: string, drafts: Draft[], step?: StepOutcome): Promise<boolean> {
    return this.recording.record(visit, drafts, step);
  }
  say(visit: string, ...says: Statement[]): Promise<boolean> {
    return this.recording.say(visit, ...says);
  }
  decide(visit: string, act: () => Promise<string[]>): Promise<boolean> {
    return this.recording.decide(visit, act);
  }
  async #recorded(visit: string): Promise<void> {
    await this.records.readView(visit);
    void this.refresh();
    this.syncer.soon();
  }
  async #opened(): Promise<void> {
    await this.refresh();
    this.syncer.soon();
  }

  // --------------------------------------------------------------------------------------- this phone
  change(settings: Partial<Settings>): void {
    // The phone changes hands: whoever held it holds it no more.
    const hands = settings.operator !== undefined && settings.operator !== this.settings.operator;
    if (hands && this.person_keys.here?.holder) void this.person_keys.lock();
    this.settings = { ...this.settings, ...settings };
    keepSettings(this.settings);
    if (hands) void this.language.follow(this.settings);
    if (settings.position !== undefined) watchPosition(settings.position);
  }
  /** Keeps what was chosen, so that it is offered the next time. */
  remember(chosen: Record<string, string>): void {
    this.change({ last: { ...this.settings.last, ...chosen } });
  }
  /** Speaks a language from now on: the person's who holds the phone, or else the phone's. */
  async chooseLanguage(tag: string): Promise<void> {
    if (await this.language.speak(tag)) this.change(choosing(tag, this.settings));
  }
  /**
   * Enrols. `key` is the server's key from the office's link (base64url), to know that nobody stands in
   * between.
   */
  async enrol(code: string, name: string, key = ""): Promise<boolean> {
    const done = await this.trouble.attempt(async () => {
      await enrol(this.calls, office(), code, name, key);
      return true;
    });
    if (!done) return false;
    // The records come while the person says who and where.
    await this.refresh();
    void this.syncer.afresh();
    return true;
  }
}
