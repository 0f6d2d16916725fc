/**
 * Where the person is, as it stands in the address, so that a reload comes back to it: `#screen/visit/about`.
 * Pure.
 */
import type { Place, Screen } from "./context";

/** An enrolment link of the office brings its code behind this. */
const ENROL = "#enrol=";

export function placeOf(hash: string): Place {
  if (hash.startsWith(ENROL)) return { screen: "enrol", visit: "", about: hash };
  const [screen, visit, about] = hash.slice(1).split("/").map(decodeURIComponent);
  return { screen: (screen || "cars") as Screen, visit: visit ?? "", about: about ?? "" };
}

export const hashOf = ({ screen, visit, about }: Place): string =>
  `#${[screen, visit, about].map(encodeURIComponent).join("/")}`;
