/**
 * The statements that screens of their own make, out of what stands in their fields. Lives here: the shape
 * of each. Everything that is chosen goes in as a code; only what a person typed is text.
 */
import type { KnownStatement, PhotoRef, Statement } from "./core/shapes";
import { SLOTS } from "./core/statement-kinds.generated";

export const newId = (): string =>
  [...crypto.getRandomValues(new Uint8Array(16))].map((b) => b.toString(16).padStart(2, "0")).join("");
const photoOf = (kept: string | undefined): PhotoRef | null => (kept ? (JSON.parse(kept) as PhotoRef) : null);
export const sealAsRead = (typed: string): string => typed.trim().toUpperCase();

/** A seal found, put on or taken off, after its photograph. */
export function sealSays(d: Record<string, string>): Statement[] {
  const photo = photoOf(d.photo),
    number = sealAsRead(d.number ?? ""),
    none = d.event === "found" && number === "" && (d.again ?? "") === "";
  const says: Statement[] = photo ? [{ photo: { photo, of: "seal", about: SLOTS.seal(d.place ?? "") } }] : [];
  says.push({
    seal: {
      event: d.event,
      place: d.place,
      number,
      ...(d.kind ? { kind: d.kind } : {}),
      intact: d.intact !== "no",
      ...(photo ? { photo: photo.sha256 } : {}),
      note: (d.note ?? "").trim() || (none ? "no_seal_found" : ""),
      ...((d.because ?? "").trim() ? { because: d.because!.trim() } : {}),
    },
  });
  return says;
}

/** A defect, its photograph, and who was told of it by voice. */
export function defectSays(d: Record<string, string>, fitting: string, defect = newId()): Statement[] {
  const photo = photoOf(d.photo);
  const says: Statement[] = [
    {
      defect: {
        defect,
        ...(fitting ? { fitting } : {}),
        what: (d.what ?? "").trim(),
        needs_authority: d.approval === "yes",
        ...(photo ? { photo: photo.sha256 } : {}),
      },
    },
  ];
  if (photo) says.push({ photo: { photo, of: "defect", about: SLOTS.defect(defect) } });
  if (d.told) says.push({ forwarded: { defect, to: d.told.trim(), how: "voice" } });
  return says;
}

/** A line that is put on, with the hose that was chosen for it; every other statement as it is. */
export const withHose = (says: KnownStatement, hose: string): KnownStatement =>
  hose && typeof says === "object" && "line" in says && says.line.connected
    ? { line: { ...says.line, hose } }
    : says;
