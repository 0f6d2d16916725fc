/**
 * The mark of a car's place on the track, the same on every screen: the last figure of its spot, with the
 * track's before it where two tracks have cars, so that no two cars here wear the same mark. Drawing only.
 */
import type { VisitRow } from "./core/shapes";

const figures = (spot: string): string[] => spot.match(/\d+/g) ?? [];
export function spotMark(spot: string, rows: readonly VisitRow[]): string {
  const own = figures(spot),
    last = own.at(-1)?.slice(0, 3) ?? "",
    track = own.at(-2) ?? "";
  const tracks = new Set(rows.filter((row) => !row.released).map((row) => figures(row.spot).at(-2) ?? ""));
  return track !== "" && tracks.size > 1 ? `${track.slice(0, 2)}·${last}` : last;
}
