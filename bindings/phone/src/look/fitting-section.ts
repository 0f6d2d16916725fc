/**
 * A fitting cut through and seen from the side: disc on or off its seat, plug in, half in or out, hose on.
 * Lives here: the drawing as a pure function. Not here: words, product logic. Shown by the step and
 * disagreement screens.
 */
import type { ClosureState, ValveState } from "./housing-plan";

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

export function fittingSection(s: SectionState): string {
  const out: string[] = [];
  const open = s.valve === "open",
    unknown = s.valve === "unknown";
  const lift = open ? -26 : 0;
  // cover plate
  out.push(`<path class="s-metal" d="M0 176H390V190H0z"/><path class="s-edge" d="M0 176H390"/>`);
  // body: flange, angle body, bonnet; passages cut out of it
  out.push(
    `<path class="s-metal s-line" d="M92 176V164H108V76Q108 62 122 62H136V50H164V62H252V126H192V164H208V176z"/>`,
  );
  out.push(`<path class="s-void" d="M132 176V118H124V80Q124 76 130 76H252V112H176V118H168V176z"/>`);
  out.push(`<path class="s-line2" d="M132 176V118H124V80Q124 76 130 76H252M252 112H176V118H168V176"/>`);
  // stem, wheel, disc
  if (unknown) {
    out.push(`<rect class="s-dash" x="120" y="94" width="60" height="22"/>`);
    out.push(`<path class="s-dash" d="M150 50V22M112 18H188"/>`);
  } else {
    const hot = open ? " s-hotfill" : " s-solid";
    out.push(`<rect class="${hot.trim()}" x="145" y="${24 + lift}" width="10" height="${84}"/>`);
    out.push(
      `<path class="${hot.trim()}" d="M126 ${102 + lift}H174V${112 + lift}L166 ${120 + lift}H134L126 ${112 + lift}z"/>`,
    );
    out.push(`<rect class="${hot.trim()}" x="104" y="${20 + lift}" width="92" height="14" rx="7"/>`);
    if (open) out.push(`<path class="s-flow" d="M150 170V126M142 134l8 -9l8 9M190 94H232M224 86l9 8l-9 8"/>`);
  }
  // closure or hose
  const end = s.narrow ? 320 : 390;
  if (s.line_connected) {
    out.push(`<path class="s-metal s-line" d="M284 72H${end}V116H284z"/>`);
    for (let x = 298; x < end; x += 14) out.push(`<path class="s-thin" d="M${x} 72V116"/>`);
    out.push(`<path class="s-solid" d="M252 58H284V130H252z"/><path class="s-cutline" d="M268 58V130"/>`);
  } else if (s.closure === "tool_tight") {
    out.push(
      `<path class="s-solid" d="M216 78H252V110H216z"/><path class="s-solid" d="M252 58H284V130H252z"/>`,
    );
  } else if (s.closure === "hand_tight") {
    out.push(
      `<path class="s-hollow" d="M236 79H272V109H236z"/><path class="s-hotthin" d="M244 79V109M252 79V109M260 79V109"/>`,
    );
    out.push(
      `<path class="s-hollow" d="M272 60H302V128H272z"/><path class="s-hotfill" d="M272 94H302V128H272z"/>`,
    );
  } else if (s.closure === "open") {
    out.push(`<path class="s-hot" d="M254 72l14 -12M254 116l14 12"/>`);
    if (!s.narrow)
      out.push(
        `<g transform="translate(318 122)"><path class="s-dash" d="M0 10H26V40H0zM26 -2H50V52H26z"/></g>`,
      );
  } else {
    out.push(`<path class="s-dash" d="M252 58H284V130H252z"/>`);
  }
  if (s.hiss)
    out.push(
      `<path class="s-hot" d="M262 50l-6 -16l14 2l-4 -20M284 52l6 -14l10 8l8 -18M270 138l-6 12l14 0l-2 16"/>`,
    );
  // the needle
  if (s.point === "closure") out.push(`<path class="s-needle" d="M268 50L254 2H282z"/>`);
  if (s.point === "valve")
    out.push(`<path class="s-needle" d="M96 ${27 + lift}L44 ${12 + lift}V${42 + lift}z"/>`);
  const box = s.narrow ? "80 -14 244 206" : "0 -14 390 206";
  return `<svg class="section" viewBox="${box}" aria-hidden="true" focusable="false">${out.join("")}</svg>`;
}
