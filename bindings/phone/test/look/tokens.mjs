// The colours of the phone's look, token against token, by day and by night.
import { readFileSync } from "node:fs";
import { inPhone } from "../stage/programs.mjs";
import { ratio } from "../stage/measure/colour.mjs";

/** A token, the token of the ground it stands on, and the contrast it needs. */
const PAIRS = [
  ["ink", "ground", 7],
  ["ink", "plate", 7],
  ["ink-2", "ground", 7],
  ["ink-2", "plate", 7],
  ["ink", "press", 7],
  ["needle", "ground", 7],
  ["needle", "plate", 7],
  ["on-needle", "needle", 7],
  ["on-ink", "ink", 7],
  ["on-caution", "caution", 7],
  ["caution-edge", "ground", 3],
  ["rule", "ground", 3],
  ["rule", "plate", 3],
];

/** Which pairs of tokens fall short of the contrast they need, in words. */
export function tokensFallingShort() {
  const css = readFileSync(inPhone("src/look/tokens.css"), "utf8");
  const [day, night] = css.split('[data-look="night"]');
  return [...pairsFallingShort("day", day), ...pairsFallingShort("night", night)];
}

function pairsFallingShort(look, css) {
  const colours = css.matchAll(/--([a-z0-9-]+):\s*(#[0-9a-f]{6})/g);
  const tokens = Object.fromEntries([...colours].map(([, name, colour]) => [name, rgbOf(colour)]));
  return PAIRS.map(([words, ground, need]) => ({
    need,
    pair: `${look} ${words} on ${ground}`,
    is: ratio(tokens[words], tokens[ground]),
  }))
    .filter(({ is, need }) => !(is >= need))
    .map(({ pair, is, need }) => `${pair}: ${is.toFixed(2)}:1, needs ${need}`);
}

const rgbOf = (hex) => [1, 3, 5].map((at) => parseInt(hex.slice(at, at + 2), 16));
