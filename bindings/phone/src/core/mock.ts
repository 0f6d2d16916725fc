/**
 * A stand-in core for drawing and testing screens. Everything in it is INVENTED: cars, people, numbers, meanings.
 * Nothing is computed here; never part of a product build (see `#core` in vite.config.ts).
 */
import type { PlanFitting } from "../look/housing-plan";
import type { CarLine, CarView, CorePort, FittingFacts, Meaning, Settings, Statement } from "./port";

const line = (n: number, number: string, stage: CarLine["stage"], step: number, blockers: number, first: string, dis: number, only: number, hold: string | null = null): CarLine =>
  ({ visit: `v${n}`, mark: "QZQX", number, spot: n, spots: 4, track: "Track 2", stage, step, steps: 41, blockers, first_blocker: first, disagreements: dis, only_here: only, hold });
const cars: CarLine[] = [
  line(1, "104471", "transfer", 17, 9, "Liquid A valve open", 0, 3),
  line(2, "104417", "disconnect", 23, 5, "Liquid B plug by hand", 1, 14),
  line(3, "220086", "gauge", 6, 0, "", 0, 0, "Threads: one engaged"),
  line(4, "300512", "release", 41, 0, "", 0, 2),
];
const fact = (id: string, p: Partial<FittingFacts>): FittingFacts => ({ id, has_valve: false, has_closure: true, look_only: false, valve: "unknown", closure: "unknown", listen: "not_done", line_connected: false, effort: null, threads: null, remark: "", history: [], effort_trend: [], ...p });
const ef = (value: number) => ({ value, unit: "ft·lbf", usual_low: 20, usual_high: 40 });
const facts: Record<string, FittingFacts> = {
  liquid_a: fact("liquid_a", { has_valve: true, valve: "shut", closure: "tool_tight", listen: "quiet", effort: ef(31), threads: 5.5 }),
  liquid_b: fact("liquid_b", {
    has_valve: true, valve: "shut", closure: "hand_tight", listen: "quiet", effort: ef(46), threads: 5.5, remark: "Plug by hand, 4 min",
    effort_trend: [28, 30, 33, 38, 46],
    history: [
      { at: "14:02", who: "Ada", what: "Plug by hand", corrected: false }, { at: "14:01", who: "Ada", what: "Heard: quiet", corrected: false },
      { at: "13:58", who: "Ada", what: "Effort 46 ft·lbf", corrected: false }, { at: "13:57", who: "Ben", what: "Effort 64 ft·lbf", corrected: true },
      { at: "13:57", who: "Ada", what: "Valve shut", corrected: false },
    ],
  }),
  vapour: fact("vapour", { has_valve: true, valve: "open", closure: "open", line_connected: true }),
  gauging_device: fact("gauging_device", { closure: "tool_tight" }),
  sample_line: fact("sample_line", { has_valve: true, valve: "shut", closure: "tool_tight", listen: "quiet", effort: ef(22) }),
  thermometer_well: fact("thermometer_well", { closure: "open" }),
  relief_device: fact("relief_device", { has_closure: false, look_only: true }),
};
const place: Record<string, Omit<PlanFitting, "id" | "valve" | "closure" | "listen" | "line_connected">> = {
  liquid_a: { kind: "valve", along_in: -9.2, across_in: 0, outlet_deg: 180, label: { dx: -0.6, dy: -6.75, anchor: "middle" } },
  liquid_b: { kind: "valve", along_in: 9.2, across_in: 0, outlet_deg: 0, label: { dx: 0.6, dy: -6.75, anchor: "middle" } },
  vapour: { kind: "valve", along_in: 0, across_in: -8.8, outlet_deg: -90, label: { dx: 4.3, dy: -2.45, anchor: "start", stacked: true } },
  gauging_device: { kind: "cap", along_in: 0, across_in: 0, outlet_deg: 0, label: { dx: 0, dy: 3.6, anchor: "middle", stacked: true } },
  sample_line: { kind: "small_valve", along_in: -5.2, across_in: 8.6, outlet_deg: 180, label: { dx: 0.2, dy: 3.5, anchor: "middle" } },
  thermometer_well: { kind: "cap", along_in: 5.4, across_in: 8.6, outlet_deg: 0, label: { dx: 0.2, dy: 3.5, anchor: "middle" } },
  relief_device: { kind: "relief", along_in: 16.6, across_in: -15.2, outlet_deg: 0, outside: true, label: { dx: 2.9, dy: 4.4, anchor: "end" } },
};
let cover = { closed: false, pinned: false, bolts_in: 0, bolts_required: 4 };
let tally = [{ item: "Adapter 2", since: "13:20", stands_in_for: "liquid_b" as string | null }, { item: "Thermo well cap", since: "12:05", stands_in_for: "thermometer_well" as string | null }];
const proofStart = 1764028800000;
const listeners = new Set<() => void>();
const kept = (k: string) => localStorage.getItem(`mock.${k}`);

function view(visit: string): CarView {
  const car = cars.find((c) => c.visit === visit) ?? cars[1]!;
  const all = Object.values(facts);
  return {
    car, facts, cover,
    plan: {
      inside_diameter_in: 35, measured: false, turned: false, cover, next: "liquid_b",
      fittings: all.map((f) => ({ id: f.id, ...place[f.id]!, ...(f.has_valve ? { valve: f.valve } : {}), ...(f.has_closure ? { closure: f.closure } : {}), listen: f.listen, line_connected: f.line_connected, disagreement: f.id === "vapour" })),
    },
    next: facts.liquid_b!.closure === "hand_tight" && kept("step") !== "2" ? {
      id: "closure_tool_tight.liquid_b", n: 23, of: 41, title: "Plug tight, with a tool", fitting: "liquid_b", point: "closure", hiss: false,
      why: "Seat it and stop. Never crank it.", basis: { kind: "law", cite: "49 CFR 173.31(d)(1)" },
      caution: "Feet firm. Step, do not twist",
      choices: [
        { word: "Tight", icon: "plug_tight", statement: { closure: { fitting: "liquid_b", state: "tool_tight" } } },
        { word: "Not right", icon: "caution", statement: { step: { step: "closure_tool_tight.liquid_b", outcome: "not_right", note: "" } } },
      ],
    } : {
      id: "listen_coupled.vapour", n: 24, of: 41, title: "Listen, still coupled", fitting: "vapour", point: "closure", hiss: false,
      why: "A hiss means the valve passes. Now is the safe moment to deal with it.", basis: { kind: "practice", cite: "common practice, no source" },
      caution: "Stand out of the line of the coupling",
      choices: [
        { word: "Quiet", icon: "quiet", statement: { listen: { fitting: "vapour", heard: "quiet" } } },
        { word: "Hiss", icon: "hiss", statement: { listen: { fitting: "vapour", heard: "hiss" } } },
      ],
    },
    readings: [
      { id: "final_pressure", title: "Final car pressure", where: "At the car, on its own small plug", units: ["psig", "kPa", "bar"], signed: false, instruments: [
        { name: "Gauge 7", min: 0, max: 30, step: 1, major: 5, unit: "psig", grade: "2A", due: "2027-03", overdue: false },
        { name: "Gauge 2", min: 0, max: 300, step: 10, major: 5, unit: "psig", grade: "B", due: "2026-10", overdue: true }] },
      { id: "liquid_temperature", title: "Liquid temperature", where: "Thermometer well", units: ["°F", "°C"], signed: true, instruments: [{ name: "Thermometer 1", min: -40, max: 120, step: 5, major: 4, unit: "°F", grade: "±1", due: "2027-01", overdue: false }] },
    ],
    blockers: [
      { code: "closure_not_tool_tight.liquid_b", what: "Liquid B plug is by hand", basis: { kind: "law", cite: "49 CFR 173.31(d)(1)" }, icon: "plug", go: { screen: "car", about: "liquid_b" } },
      { code: "valve_disagreement.vapour", what: "Vapour valve: two accounts", basis: { kind: "practice", cite: "" }, icon: "differ", go: { screen: "differ", about: "d1" } },
      { code: "item_out", what: "2 things still out", basis: { kind: "practice", cite: "" }, icon: "item", go: { screen: "tally", about: "" } },
      { code: "cover", what: "Cover is open", basis: { kind: "law", cite: "49 CFR 173.31(d)(1)" }, icon: "cover", go: { screen: "car", about: "cover" } },
      { code: "seal_photo", what: "No photo of the seal", basis: { kind: "practice", cite: "" }, icon: "photo", go: { screen: "seal", about: "" } },
    ],
    disagreements: [{ id: "d1", title: "Vapour valve", about: "valve", accounts: [
      { entry: "e1", who: "Ada", device: "this phone", at: "14:02", clock: "clock good", valve: "shut", closure: "open", word: "Shut", statement: { valve: { fitting: "vapour", position: "shut" } } },
      { entry: "e2", who: "Ben", device: "other phone", at: "14:05", clock: "clock 3 min fast", valve: "open", closure: "open", word: "Open", statement: { valve: { fitting: "vapour", position: "open" } } }] }],
    tally,
    proof: {
      started_ms: proofStart, needed_minutes: 30, unit: "psig", liquid_band: { low: 88, high: 104 },
      points: [{ minute: 0, value: 40, plus_minus: 2 }, { minute: 10, value: 44, plus_minus: 2 }, { minute: 20, value: 46, plus_minus: 2 }],
      signs: [{ sign: "rod_at_bottom", word: "Rod at its bottom", seen: true, good_when: true }, { sign: "vapour_at_liquid_valve", word: "Only vapour at liquid valve", seen: null, good_when: true }, { sign: "frost_ring", word: "Frost ring on the shell", seen: false, good_when: false }],
      verdict: "Invented: no rise toward the liquid band so far",
    },
    seals: [{ place: "housing_pin", number: "0031187", kind: "cable", event: "found", has_photo: true }],
  };
}

export async function openCore(): Promise<CorePort> {
  return {
    cars: async () => cars,
    car: async (v) => view(v),
    async append(_visit, s: Statement) {
      const [kind, b] = Object.entries(s)[0]!;
      const f = facts[String(b.fitting)];
      if (f && kind === "valve") facts[f.id] = { ...f, valve: b.position as FittingFacts["valve"] };
      if (f && kind === "closure") facts[f.id] = { ...f, closure: b.state as FittingFacts["closure"], remark: "" };
      if (f && kind === "listen") facts[f.id] = { ...f, listen: b.heard as FittingFacts["listen"] };
      if (f && kind === "line") facts[f.id] = { ...f, line_connected: Boolean(b.connected) };
      if (kind === "cover") cover = { ...cover, ...(b as typeof cover) };
      if (kind === "item_in") tally = tally.filter((t) => t.item !== b.item);
      if (kind === "item_out") tally = [...tally, { item: String(b.item), since: "14:10", stands_in_for: null }];
      for (const l of listeners) l();
    },
    async meaning(_v, reading, typed, unit): Promise<Meaning | null> {
      const value = Number(typed.replace(",", "."));
      if (typed === "" || !Number.isFinite(value)) return null;
      // invented figures, so that the screen has something to show
      return { value, plus_minus: 0.2, unit, figures: reading === "final_pressure" ? [{ label: "Vapour left (invented)", value: "611", plus_minus: "9", unit: "lb", formula: "mock" }] : [], findings: value > 25 ? ["Near the end of this gauge's scale"] : [] };
    },
    emergency: async () => ({
      contacts: [{ name: "Fire and rescue", phone: "911", role: "First" }, { name: "Demo terminal, duty", phone: "555-0142", role: "Site" }, { name: "Demo carrier, dispatch", phone: "555-0177", role: "Carrier" }],
      shut_offs: [{ what: "Panel button", where: "Left of the gate, red cover" }, { what: "Liquid line valve", where: "Foot of the tower, yellow wheel" }],
      product: "Demo LPG", un: "UN1075", guide: "115",
    }),
    only_here: async () => ({ entries: 19, photos: 6, photo_bytes: 22_400_000, free_bytes: 3_100_000_000, last_receipt: "09:12", cars: cars.filter((c) => c.only_here).map((c) => ({ visit: c.visit, mark: c.mark, number: c.number, entries: c.only_here, photos: c.spot })) }),
    find: async (text) => cars.filter((c) => text !== "" && `${c.mark}${c.number}`.includes(text.toUpperCase())),
    settings: async () => ({ lang: "en", look: "auto", scale: 1, pressure: "psig", temperature: "°F", volume: "gal", operator: "Ada (demo)", site: "Demo siding", enrolled: true, ...(JSON.parse(kept("settings") ?? "{}") as Partial<Settings>) }),
    async keep_settings(s) { localStorage.setItem("mock.settings", JSON.stringify(s)); for (const l of listeners) l(); },
    draft: async (k) => kept(`draft.${k}`),
    async keep_draft(k, v) { if (v === null) localStorage.removeItem(`mock.draft.${k}`); else localStorage.setItem(`mock.draft.${k}`, v); },
    watch(f) { listeners.add(f); return () => listeners.delete(f); },
  };
}
