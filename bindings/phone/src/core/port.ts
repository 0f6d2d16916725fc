/**
 * What the shell needs from the core, and the shapes it shows. The one seam: the mock and the real worker client both implement
 * `CorePort`. Lives here: types only. Words inside these values that are about the work (step titles, reasons, blockers) come
 * from the core and its procedure; words about the app itself are in `strings.ts`.
 */
import type { ClosureState, HousingPlanState, ListenState, ValveState } from "../look/housing-plan";

/** One statement in the core's own shape: externally tagged, snake_case (`{closure: {fitting, state}}`). */
export type Statement = { readonly [kind: string]: Readonly<Record<string, unknown>> };

export type Basis = { kind: "law" | "practice"; cite: string };
export type Stage = "receive" | "gauge" | "connect" | "transfer" | "recover" | "empty_proof" | "disconnect" | "final_pressure" | "close" | "release";

/** Enough of a car to find it and never mix it up. */
export interface CarLine {
  visit: string; mark: string; number: string;
  /** Position on the track, 1-based, and how many spots are drawn. */
  spot: number; spots: number; track: string;
  stage: Stage; step: number; steps: number;
  blockers: number; first_blocker: string; disagreements: number; only_here: number; hold: string | null;
}
export interface Blocker { code: string; what: string; basis: Basis; icon: "plug" | "valve" | "differ" | "item" | "photo" | "cover" | "reading" | "hold"; go: { screen: Screen; about: string } }
export interface FittingFacts {
  id: string;
  has_valve: boolean; has_closure: boolean; look_only: boolean;
  valve: ValveState; closure: ClosureState; listen: ListenState; line_connected: boolean;
  effort: { value: number; unit: string; usual_low: number; usual_high: number } | null;
  threads: number | null;
  /** One short line the core wants seen first ("by hand since 14:02"), or empty. */
  remark: string;
  history: { at: string; who: string; what: string; corrected: boolean }[];
  effort_trend: number[];
}
export type RecordChoice = { word: string; icon: string; statement: Statement };
export interface StepView {
  id: string; n: number; of: number; title: string; why: string; basis: Basis; caution: string;
  fitting: string | null; point: "valve" | "closure" | null; hiss: boolean; choices: RecordChoice[];
}
export interface InstrumentView { name: string; min: number; max: number; step: number; major: number; unit: string; grade: string; due: string; overdue: boolean }
export interface ReadingAsk { id: string; title: string; where: string; units: string[]; signed: boolean; instruments: InstrumentView[] }
export interface Meaning {
  value: number; plus_minus: number; unit: string;
  /** Computed figures with ±, each with the formula it came from. */
  figures: { label: string; value: string; plus_minus: string; unit: string; formula: string }[];
  findings: string[];
}
export interface Account { entry: string; who: string; device: string; at: string; clock: string; valve: ValveState; closure: ClosureState; word: string; statement: Statement }
export interface Disagreement { id: string; title: string; about: "valve" | "closure" | "other"; accounts: [Account, Account] }
export interface TallyItem { item: string; since: string; stands_in_for: string | null }
export interface ProofView {
  started_ms: number | null; needed_minutes: number;
  points: { minute: number; value: number; plus_minus: number }[];
  liquid_band: { low: number; high: number } | null; unit: string;
  signs: { sign: string; word: string; seen: boolean | null; good_when: boolean }[];
  verdict: string;
}
export interface SealView { place: string; number: string; kind: string; event: "found" | "applied" | "removed"; has_photo: boolean }
export interface CarView {
  car: CarLine; plan: HousingPlanState; facts: Record<string, FittingFacts>;
  cover: HousingPlanState["cover"]; next: StepView; readings: ReadingAsk[];
  blockers: Blocker[]; disagreements: Disagreement[]; tally: TallyItem[]; proof: ProofView; seals: SealView[];
}
export interface EmergencyCard { contacts: { name: string; phone: string; role: string }[]; shut_offs: { what: string; where: string }[]; product: string; un: string; guide: string }
export interface OnlyHere { entries: number; photos: number; photo_bytes: number; free_bytes: number; last_receipt: string; cars: { visit: string; mark: string; number: string; entries: number; photos: number }[] }
export interface Settings { lang: "en" | "es"; look: "auto" | "day" | "night"; scale: 1 | 1.15 | 1.3; pressure: string; temperature: string; volume: string; operator: string; site: string; enrolled: boolean }

export type Screen = "cars" | "new" | "car" | "history" | "step" | "more" | "reading" | "proof" | "tally" | "seal" | "defect" | "differ" | "gate" | "only_here" | "find" | "help" | "setup" | "carry" | "refused";

export interface CorePort {
  cars(): Promise<CarLine[]>;
  car(visit: string): Promise<CarView>;
  append(visit: string, statement: Statement, why?: { replaces: string[]; reason: string }): Promise<void>;
  /** What a typed value would mean, before it is recorded. Null while it cannot be read as a number. */
  meaning(visit: string, reading: string, typed: string, unit: string, instrument: string): Promise<Meaning | null>;
  emergency(): Promise<EmergencyCard>;
  only_here(): Promise<OnlyHere>;
  find(text: string): Promise<CarLine[]>;
  settings(): Promise<Settings>;
  keep_settings(s: Settings): Promise<void>;
  /** Half-typed things, kept durably so that a call, a reload or a flat battery loses nothing. */
  draft(key: string): Promise<string | null>;
  keep_draft(key: string, value: string | null): Promise<void>;
  /** Tells when anything shown may have changed. */
  watch(changed: () => void): () => void;
}
