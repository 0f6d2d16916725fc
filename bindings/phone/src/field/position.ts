/**
 * Where the phone is, if the person allowed it: the last fix of the device, never waited for when an entry is
 * made.
 */
export interface Fix {
  latitude: number;
  longitude: number;
  accuracy_m: number;
}
let fix: (Fix & { at: number }) | undefined;
let watch: number | undefined;
const FRESH_MS = 120_000;

export function watchPosition(on: boolean): void {
  if (!("geolocation" in navigator)) return;
  if (!on && watch !== undefined) {
    navigator.geolocation.clearWatch(watch);
    watch = undefined;
    fix = undefined;
  } else if (on && watch === undefined) {
    watch = navigator.geolocation.watchPosition(
      (p) =>
        (fix = {
          latitude: p.coords.latitude,
          longitude: p.coords.longitude,
          accuracy_m: p.coords.accuracy,
          at: p.timestamp,
        }),
      () => (fix = undefined),
      { enableHighAccuracy: true, maximumAge: 60_000 },
    );
  }
}
/** The last fix, unless it is old. */
export function lastFix(): Fix | undefined {
  if (!fix || Date.now() - fix.at > FRESH_MS) return undefined;
  const { at: _, ...place } = fix;
  return place;
}
