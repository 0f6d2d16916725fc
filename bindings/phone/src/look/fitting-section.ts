/**
 * A fitting cut through and seen from the side: disc on or off its seat, plug in, half in or out, hose on.
 * Lives here: the drawing as a pure function. Not here: words, product logic. Shown by the step and
 * disagreement screens.
 */
import type { FittingView } from "../core/shapes";

type Recorded<Slot extends "valve" | "closure"> = NonNullable<FittingView[Slot]>["value"] | "unknown";
type ValveState = Recorded<"valve">;
type ClosureState = Recorded<"closure">;

export interface SectionState {
  valve: ValveState;
  closure: ClosureState;
  line_connected: boolean;
  hiss: boolean;
  /** Where the needle points: what to work on or listen at. */
  point?: "valve" | "closure";
  /** Narrow drawing without room for the hose, for two side by side. */
  narrow?: boolean;
}

const path = (look: string, d: string) => `<path class="${look}" d="${d}"/>`;

/** The cover plate, and on it flange, angle body and bonnet with the passages cut out. */
function body(): string[] {
  const outside = "M92 176V164H108V76Q108 62 122 62H136V50H164V62H252V126H192V164H208V176z";
  return [
    path("s-metal", "M0 176H390V190H0z"),
    path("s-edge", "M0 176H390"),
    path("s-metal s-line", outside),
    path("s-void", "M132 176V118H124V80Q124 76 130 76H252V112H176V118H168V176z"),
    path("s-line2", "M132 176V118H124V80Q124 76 130 76H252M252 112H176V118H168V176"),
  ];
}

/** Stem, disc and wheel, all `lift` higher when the valve is open, and then what flows. */
function stem(valve: ValveState, lift: number): string[] {
  if (valve === "unknown")
    return [
      `<rect class="s-dash" x="120" y="94" width="60" height="22"/>`,
      path("s-dash", "M150 50V22M112 18H188"),
    ];
  const look = valve === "open" ? "s-hotfill" : "s-solid";
  const [top, shoulder, tip] = [102 + lift, 112 + lift, 120 + lift];
  return [
    `<rect class="${look}" x="145" y="${24 + lift}" width="10" height="84"/>`,
    path(look, `M126 ${top}H174V${shoulder}L166 ${tip}H134L126 ${shoulder}z`),
    `<rect class="${look}" x="104" y="${20 + lift}" width="92" height="14" rx="7"/>`,
    ...(valve === "open" ? [path("s-flow", "M150 170V126M142 134l8 -9l8 9M190 94H232M224 86l9 8l-9 8")] : []),
  ];
}

/** The hose that is on, as far as there is room for it. */
function hose(end: number): string[] {
  const out = [path("s-metal s-line", `M284 72H${end}V116H284z`)];
  for (let x = 298; x < end; x += 14) out.push(path("s-thin", `M${x} 72V116`));
  return [...out, path("s-solid", "M252 58H284V130H252z"), path("s-cutline", "M268 58V130")];
}

/** The plug: in, half in, or lying beside the opening. */
function plug(closure: ClosureState, narrow: boolean): string[] {
  const beside = path("s-dash", "M0 10H26V40H0zM26 -2H50V52H26z");
  switch (closure) {
    case "tool_tight":
      return [path("s-solid", "M216 78H252V110H216z"), path("s-solid", "M252 58H284V130H252z")];
    case "hand_tight":
      return [
        path("s-hollow", "M236 79H272V109H236z"),
        path("s-hotthin", "M244 79V109M252 79V109M260 79V109"),
        path("s-hollow", "M272 60H302V128H272z"),
        path("s-hotfill", "M272 94H302V128H272z"),
      ];
    case "open":
      return [
        path("s-hot", "M254 72l14 -12M254 116l14 12"),
        ...(narrow ? [] : [`<g transform="translate(318 122)">${beside}</g>`]),
      ];
    default:
      return [path("s-dash", "M252 58H284V130H252z")];
  }
}

function needle(point: SectionState["point"], lift: number): string[] {
  if (point === "closure") return [path("s-needle", "M268 50L254 2H282z")];
  if (point === "valve") return [path("s-needle", `M96 ${27 + lift}L44 ${12 + lift}V${42 + lift}z`)];
  return [];
}

const HISS = "M262 50l-6 -16l14 2l-4 -20M284 52l6 -14l10 8l8 -18M270 138l-6 12l14 0l-2 16";

export function fittingSection(s: SectionState): string {
  const narrow = s.narrow ?? false;
  const lift = s.valve === "open" ? -26 : 0;
  const drawn = [
    ...body(),
    ...stem(s.valve, lift),
    ...(s.line_connected ? hose(narrow ? 320 : 390) : plug(s.closure, narrow)),
    ...(s.hiss ? [path("s-hot", HISS)] : []),
    ...needle(s.point, lift),
  ];
  const box = narrow ? "80 -14 244 206" : "0 -14 390 206";
  return `<svg class="section" viewBox="${box}" aria-hidden="true" focusable="false">${drawn.join("")}</svg>`;
}
