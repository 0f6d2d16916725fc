/**
 * What the core said of the records: the cars here, the open car's view, sites, people, what waits to be
 * sent. Lives here: asking and holding. Not here: making records (`recording.svelte.ts`), any rule of the
 * trade (the core's).
 */
import type { BookCalls } from "../core/calls";
import type {
  Draft,
  Meaning,
  Person,
  PreviewedVisit,
  VisitRow,
  SiteView,
  Status,
  VisitView,
} from "../core/shapes";
import { keepCard, readCard } from "../field/settings";
import { looksAfter } from "./reminders";
import type { Trouble } from "./trouble.svelte";

/**
 * Cars that left and of which the office has everything: how many, and as many of them as somebody looked at.
 */
interface Over {
  of: number;
  rows: VisitRow[];
}

export class Records {
  /** Cars that stand here, or of which the office lacks something. Nothing until the records are open. */
  rows = $state.raw<VisitRow[] | null>(null);
  over = $state.raw<Over>({ of: 0, rows: [] });
  /** Everything about the car that is open. */
  view = $state.raw<VisitView | null>(null);
  /** Other cars that stand here and are looked after with this phone, as they were read last. */
  others = $state.raw<VisitView[]>([]);
  /** Begun from the copy kept for the emergency card, which must not wait for anything. */
  sites = $state.raw<SiteView[]>(readCard());
  people = $state.raw<Person[]>([]);
  status = $state.raw<Status | null>(null);
  #looked_at = 0;
  #visit = "";
  #foreign: readonly string[] = [];
  readonly #calls: BookCalls;
  readonly #trouble: Trouble;

  constructor(calls: BookCalls, trouble: Trouble) {
    this.#calls = calls;
    this.#trouble = trouble;
  }
  /** Takes everything out of the page but whom to call. */
  shut(): void {
    this.rows = null;
    this.over = { of: 0, rows: [] };
    this.view = null;
    this.others = [];
    this.#foreign = [];
    this.people = [];
    this.status = null;
    this.sites = readCard();
  }

  /** Says which car is open from now on. Returns whether it is another one than before. */
  turnTo(visit: string): boolean {
    if (visit === this.#visit) return false;
    const left = this.view;
    const after = left && !left.release.released && this.#looksAfter(left) ? [left] : [];
    this.others = [...this.others, ...after].filter((one) => !one.header.visits.includes(visit));
    this.#visit = visit;
    this.#foreign = this.#foreign.filter((one) => one !== visit);
    this.view = null;
    return true;
  }
  #looksAfter(view: VisitView): boolean {
    return looksAfter(this.status?.device ?? "", view);
  }
  /**
   * Reads the cars that stand here beside the open one, and keeps those that are looked after with this
   * phone. One that is looked after with another phone is read again only once it was opened here.
   */
  async readOthers(): Promise<void> {
    const open = this.#visit;
    const others: VisitView[] = [];
    for (const row of this.rows ?? []) {
      const [visit] = row.visits;
      if (!visit || row.released || row.visits.includes(open) || this.#foreign.includes(visit)) continue;
      const view = await this.#trouble.attempt(
        async () => JSON.parse(await this.#calls.visit(visit)) as VisitView,
      );
      if (view && this.#looksAfter(view)) others.push(view);
      else if (view) this.#foreign = [...this.#foreign, visit];
    }
    // Whoever turned to another car meanwhile is reminded with the next look.
    if (open === this.#visit) this.others = others;
  }
  /** Reads a car's view. Cars never share a view, so an answer that comes late for another car is dropped. */
  async readView(visit = this.#visit): Promise<void> {
    if (!visit) return;
    const view = await this.#trouble.attempt(
      async () => JSON.parse(await this.#calls.visit(visit)) as VisitView,
    );
    if (view && visit === this.#visit) this.view = view;
  }
  /** Reads the lists. Fails where the core fails. */
  async readLists(): Promise<void> {
    const began = performance.now();
    const listed = () => performance.measure("listed", { start: began });
    const [rows, over, sites, people, status] = await Promise.all([
      this.#calls.standing(),
      this.#calls.over(0, this.#looked_at).finally(listed),
      this.#calls.sites(),
      this.#calls.people(),
      this.#calls.status(),
    ]);
    this.rows = JSON.parse(rows) as VisitRow[];
    this.over = JSON.parse(over) as Over;
    this.sites = Object.values(JSON.parse(sites) as Record<string, SiteView>); // by id
    keepCard(this.sites);
    this.people = JSON.parse(people) as Person[];
    this.status = JSON.parse(status) as Status;
  }
  async lookAtOver(most: number): Promise<void> {
    this.#looked_at = most;
    await this.#trouble.attempt(async () => {
      this.over = JSON.parse(await this.#calls.over(0, most)) as Over;
    });
  }
  async find(text: string): Promise<VisitRow[]> {
    const found = await this.#trouble.attempt(
      async () => JSON.parse(await this.#calls.find(text)) as VisitRow[],
    );
    return found ?? [];
  }
  /** What a draft would mean; nothing where the core refuses it, as it does what is half typed. */
  async meaning(visit: string, draft: Draft, operator: string): Promise<Meaning | null> {
    try {
      const then = await this.#calls.preview(visit, JSON.stringify([draft]), operator || "?");
      return (JSON.parse(then) as PreviewedVisit).meaning;
    } catch {
      return null;
    }
  }

  get enrolled(): boolean {
    return (this.status?.organisation_key ?? null) !== null;
  }
  /** Photographs whose bytes only this phone has. */
  get photos_here(): number {
    return this.status?.photos_waiting ?? 0;
  }
  /** A person by the name of the office's list; the code where the list does not have it. */
  nameOf(operator: string): string {
    return this.people.find((person) => person.operator === operator)?.name ?? operator;
  }
  /** The site of the open car, or the one this phone is at, or the only one known. */
  site(chosen: string): SiteView | undefined {
    const wanted = this.view?.header.site ?? chosen;
    return (
      this.sites.find((site) => site.id === wanted) ??
      this.sites.find((site) => site.id === chosen) ??
      (this.sites.length === 1 ? this.sites[0] : undefined)
    );
  }
}
