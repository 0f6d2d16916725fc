/**
 * The page's memory of what the core said: rows, the open car's view, drafts, people, sites, standing. Lives here: asking and holding.
 * Not here: any rule of the trade (the core's), any drawing (screens). One instance, made in `main.ts`.
 */
import type { BookCalls, Opened, Standing } from "./core/calls";
import type {
  Draft,
  Meaning,
  Person,
  PhotoRef,
  PreviewedVisit,
  Row,
  SiteView,
  Statement,
  Status,
  VisitView,
} from "./core/shapes";
import { enrol } from "./field/enrol";
import { keepPhoto, photosUnder, sealPhotos } from "./field/photos";
import { lastFix, watchPosition } from "./field/position";
import { LITTLE_ROOM, ROOM_FOR_RECORDS, installed, recordsLast, roomNow, type Room } from "./field/room";
import { keepCard, keepSettings, readCard, readSettings, type Settings } from "./field/settings";
import { Syncer, office, type SyncState } from "./field/sync";
import { Guard, isLocked } from "./guard.svelte";
import { People } from "./people.svelte";

export class Desk {
  standing = $state<Standing>({ is: "starting" });
  settings = $state<Settings>(readSettings());
  /** Cars that stand here, or of which the office lacks something. */
  rows = $state.raw<Row[] | null>(null);
  /** The others: how many, and as many of them as somebody looked at. */
  over = $state.raw<{ of: number; rows: Row[] }>({ of: 0, rows: [] });
  #looked_at = 0;
  view = $state.raw<VisitView | null>(null);
  /** Begun from the copy kept for the emergency card, which must not wait for anything. */
  sites = $state.raw<SiteView[]>(readCard());
  people = $state.raw<Person[]>([]);
  status = $state.raw<Status | null>(null);
  /** Photographs whose bytes only this phone has. */
  photos_here = $state(0);
  drafts = $state<Record<string, string>>({});
  room = $state.raw<Room | null>(null);
  sync = $state.raw<SyncState>({ is: "idle", at: 0, why: "" });
  /** What went wrong last, to be shown until it is read. */
  trouble = $state("");
  /** What was recorded last, shown for a moment. */
  told = $state("");
  /** An entry that is being put right, and the reason as it is typed. */
  instead = $state<{ visit: string; entry: string; sentence: string; why: string; screen: string } | null>(
    null,
  );
  /** Milliseconds from the last record handed in to its being on the disk. */
  durable_ms = $state(0);
  readonly calls: BookCalls;
  readonly syncer: Syncer;
  /** Keys and PINs. */
  readonly people_here: People;
  /** What protects this phone, and its lock. */
  readonly guard: Guard;
  #visit = "";
  #told: ReturnType<typeof setTimeout> | undefined;

  constructor(private readonly core: Opened) {
    this.calls = core.calls;
    this.people_here = new People(core.calls, () => this.settings.operator);
    this.syncer = new Syncer(
      core.calls,
      (state) => (this.sync = state),
      () => this.refresh(),
    );
    this.guard = new Guard(
      core,
      () => this.settings.lock_after,
      () => this.sync.is === "running" || this.people_here.asking !== null,
      () => this.rows ?? [],
    );
    core.onStanding((standing) => {
      const came = standing.is === "ready" && this.standing.is !== "ready";
      if (isLocked(standing) && !isLocked(this.standing)) this.#shut();
      this.standing = standing;
      if (came) void this.#begin();
    });
    watchPosition(this.settings.position);
  }
  async #begin(): Promise<void> {
    await this.guard.read(this.calls);
    photosUnder(await this.calls.photoKey());
    this.drafts = JSON.parse(await this.calls.drafts()) as Record<string, string>;
    await this.refresh();
    this.syncer.start();
    void sealPhotos();
  }
  /** Locked: nothing of the records stays on the screen or in the page. */
  #shut(): void {
    this.syncer.stop();
    photosUnder(null);
    this.rows = null;
    this.over = { of: 0, rows: [] };
    this.view = null;
    this.instead = null;
    this.drafts = {};
    this.people = [];
    this.status = null;
    this.people_here.here = null;
    this.people_here.asking = null;
    this.sites = readCard();
    this.trouble = "";
  }
  takeOver(): void {
    this.core.takeOver();
  }

  // -------------------------------------------------------------------------------------------- asking
  /** Opens a car's record; the cars of one track never share a view, so an answer that comes late for another car is dropped. */
  async open(visit: string): Promise<void> {
    if (visit !== this.#visit) {
      this.#visit = visit;
      this.view = null;
      this.instead = null;
    }
    if (visit && this.standing.is === "ready") await this.#read(visit);
  }
  async #read(visit: string): Promise<void> {
    const view = await this.attempt(async () => JSON.parse(await this.calls.visit(visit)) as VisitView);
    if (view && visit === this.#visit) this.view = view;
  }
  async refresh(): Promise<void> {
    if (this.standing.is !== "ready") return;
    await this.attempt(async () => {
      const began = performance.now();
      const [rows, over, sites, people, status] = await Promise.all([
        this.calls.standing(),
        this.calls.over(0, this.#looked_at).finally(() => performance.measure("listed", { start: began })),
        this.calls.sites(),
        this.calls.people(),
        this.calls.status(),
      ]);
      this.rows = JSON.parse(rows) as Row[];
      this.over = JSON.parse(over) as Desk["over"];
      this.sites = Object.values(JSON.parse(sites) as Record<string, SiteView>); // by id
      keepCard(this.sites);
      this.guard.note();
      this.people = JSON.parse(people) as Person[];
      this.status = JSON.parse(status) as Status;
      this.photos_here = this.status.photos_waiting;
      await this.people_here.look();
      if (this.#visit) await this.#read(this.#visit);
    });
    this.room = await roomNow();
  }
  async lookAtOver(most: number): Promise<void> {
    this.#looked_at = most;
    await this.attempt(async () => {
      this.over = JSON.parse(await this.calls.over(0, most)) as Desk["over"];
    });
  }
  async find(text: string): Promise<Row[]> {
    return (await this.attempt(async () => JSON.parse(await this.calls.find(text)) as Row[])) ?? [];
  }
  /** Whoever makes the entries, by name. */
  get name(): string {
    const code = this.settings.operator;
    return this.people.find((p) => p.operator === code)?.name ?? code;
  }
  get enrolled(): boolean {
    return (this.status?.organisation_key ?? null) !== null;
  }
  site(): SiteView | undefined {
    const wanted = this.view?.header.site ?? this.settings.site;
    return (
      this.sites.find((site) => site.id === wanted) ??
      this.sites.find((site) => site.id === this.settings.site) ??
      (this.sites.length === 1 ? this.sites[0] : undefined)
    );
  }
  /** What a draft would mean; nothing while it is half typed. */
  async meaning(visit: string, draft: Draft): Promise<Meaning | null> {
    try {
      const by = this.settings.operator || "?";
      const then = await this.calls.preview(visit, JSON.stringify([draft]), by);
      return (JSON.parse(then) as PreviewedVisit).meaning;
    } catch {
      return null; // half typed
    }
  }

  // ------------------------------------------------------------------------------------------ recording
  /** Records and returns whether it is on the disk. What was typed stays with the caller until then. */
  async record(
    visit: string,
    drafts: Draft[],
    step?: { id: string; outcome: string; note: string },
  ): Promise<boolean> {
    const instead = this.instead?.visit === visit && drafts[0] !== undefined ? this.instead : null;
    if (instead && instead.why.trim() === "") {
      this.trouble = "say_why";
      return false;
    }
    if (instead)
      drafts = drafts.map((draft, i) =>
        i === drafts.length - 1 ? { ...draft, replaces: [instead.entry], why: instead.why } : draft,
      );
    if (!(await this.#lasts()) || !(await this.people_here.before(drafts))) return false;
    const place = lastFix();
    const placed = JSON.stringify(place ? drafts.map((draft) => ({ ...draft, place })) : drafts);
    const began = performance.now();
    const done = await this.attempt(() =>
      step
        ? this.calls.recordStep(visit, step.id, step.outcome, step.note, placed, this.settings.operator)
        : this.calls.append(`visit:${visit}`, placed, this.settings.operator),
    );
    if (!done) return false;
    this.durable_ms = performance.measure("recorded", { start: began }).duration;
    if (instead) this.instead = null;
    return this.#recorded(visit);
  }
  say(visit: string, ...says: Statement[]): Promise<boolean> {
    return this.record(
      visit,
      says.map((s) => ({ says: s })),
    );
  }
  async decide(visit: string, act: () => Promise<string[]>): Promise<boolean> {
    // What the core decides with the person (settle, take back, pass over, release) binds in every case.
    if (!(await this.#lasts()) || !(await this.people_here.before())) return false;
    return (await this.attempt(act)) ? this.#recorded(visit) : false;
  }
  async #recorded(visit: string): Promise<boolean> {
    this.told = visit;
    clearTimeout(this.#told);
    this.#told = setTimeout(() => (this.told = ""), 1600);
    await this.#read(visit);
    void this.refresh();
    this.syncer.soon();
    return true;
  }
  /** Nothing is recorded where it would not last: see `field/room.ts`. */
  async #lasts(): Promise<boolean> {
    const lasts = await recordsLast();
    if (!lasts) this.trouble = "not_lasting";
    return lasts;
  }
  /** Whether the person has to do something before a record is made here. */
  get lasting(): boolean {
    return this.room === null || this.room.kept || installed();
  }
  get littleRoom(): boolean {
    return this.room !== null && this.room.told && this.room.free < LITTLE_ROOM;
  }
  async openVisit(visit: {
    car: string;
    site: string;
    receiver: string;
    spot: string;
  }): Promise<string | null> {
    if (!(await this.#lasts())) return null;
    const id = await this.attempt(() => this.calls.openVisit(JSON.stringify(visit), this.settings.operator));
    if (id) {
      await this.refresh();
      this.syncer.soon();
    }
    return id;
  }
  /** Keeps a picture's exact bytes; the entry that speaks of it comes after. */
  async photo(file: Blob): Promise<PhotoRef | null> {
    if (!(await this.#lasts())) return null;
    if (this.room?.told && this.room.free < ROOM_FOR_RECORDS) {
      this.trouble = "full";
      return null;
    }
    return this.attempt(() => keepPhoto(file, this.calls, !this.settings.photo_place));
  }

  // ---------------------------------------------------------------------------------------- half typed
  draft(key: string, or = ""): string {
    return this.drafts[key] ?? or;
  }
  keep(key: string, text: string): void {
    if (text === "") delete this.drafts[key];
    else this.drafts[key] = text;
    if (this.standing.is === "ready")
      void this.attempt(async () => {
        await this.calls.setDraft(key, text);
      });
  }
  fields(key: string): Record<string, string> {
    try {
      return JSON.parse(this.draft(key, "{}")) as Record<string, string>;
    } catch {
      return {};
    }
  }
  keepField(key: string, field: string, value: string): void {
    this.keep(key, JSON.stringify({ ...this.fields(key), [field]: value }));
  }

  // ------------------------------------------------------------------------------------------ this phone
  change(settings: Partial<Settings>): void {
    // The phone changes hands: whoever held it holds it no more.
    const hands = settings.operator !== undefined && settings.operator !== this.settings.operator;
    if (hands && this.people_here.here?.holder) void this.people_here.lock();
    this.settings = { ...this.settings, ...settings };
    keepSettings(this.settings);
    if (settings.position !== undefined) watchPosition(settings.position);
  }
  /** Enrols; `key` is the server's key from the office's link (base64url), to know that nobody stands in between. */
  async enrol(code: string, name: string, key = ""): Promise<boolean> {
    const done = await this.attempt(async () => {
      await enrol(this.calls, office(), code, name, key);
      return true;
    });
    // The records come while the person says who and where.
    if (done) {
      await this.refresh();
      this.syncer.soon(0);
    }
    return done ?? false;
  }
  async attempt<T>(act: () => Promise<T>): Promise<T | null> {
    try {
      return await act();
    } catch (error) {
      const said = error as { variant?: string; why?: string; message?: string };
      this.trouble = said.variant === "NotStored" ? "full" : (said.why ?? said.message ?? String(error));
      return null;
    }
  }
  /** Whether an update or another tab may take over now: nothing half typed on screen, nothing running. */
  atRest(): boolean {
    return this.people_here.asking === null && !document.querySelector("input:focus, textarea:focus");
  }
}
