/** What this phone was told about itself: who holds it, where, how it looks. Small and not part of any record. */
export interface Settings {
  lang: "en" | "es"; look: "auto" | "day" | "night"; scale: 1 | 1.15 | 1.3; pressure: string; temperature: string; volume: string; torque: string;
  operator: string; site: string; position: boolean;
}
const PLACE = "farsiding.settings";
const plain: Settings = { lang: "en", look: "auto", scale: 1, pressure: "psi", temperature: "°F", volume: "gal", torque: "ft·lbf", operator: "", site: "", position: false };

export function readSettings(): Settings {
  try {
    return { ...plain, ...(JSON.parse(localStorage.getItem(PLACE) ?? "{}") as Partial<Settings>) };
  } catch {
    return { ...plain };
  }
}
export function keepSettings(settings: Settings): void {
  try {
    localStorage.setItem(PLACE, JSON.stringify(settings));
  } catch {
    // A place that keeps nothing is told to the person by the storage check; the choice holds until the page closes.
  }
}
