/**
 * The page's end of the photographs: keeping them, finding the small picture, and sending originals to the
 * office piece by piece.
 */
import type { BookCalls, PhotoKey } from "../core/calls";
import type { PhotoRef } from "../core/shapes";
import { Said, saidBy } from "../said";
import type { FromPhotos, ToPhotos } from "./photo-worker";
import { OPEN, folderOf, unsealed } from "./photo-seal";

let worker: Worker | undefined;
let last = 0;
const open = new Map<number, (answer: FromPhotos) => void>();

function photoWorker(): Worker {
  if (!worker) {
    worker = new Worker(new URL("./photo-worker.ts", import.meta.url), { type: "module", name: "photos" });
    worker.onmessage = ({ data }: MessageEvent<FromPhotos>) => {
      open.get(data.id)?.(data);
      open.delete(data.id);
    };
  }
  return worker;
}

function ask(question: (id: number) => ToPhotos, move: Transferable[] = []): Promise<FromPhotos> {
  const id = ++last;
  return new Promise((resolve) => {
    open.set(id, resolve);
    photoWorker().postMessage(question(id), move);
  });
}

/**
 * A number of bytes that would still fit on this phone, at least half of all and up to a gigabyte; nothing
 * where that cannot be told.
 */
export async function fitting(): Promise<number | null> {
  const answer = await ask((id) => ({ id, room: true }));
  return "room" in answer && answer.room >= 0 ? answer.room : null;
}

/**
 * The key the photographs here are sealed under; nothing where the browser makes none, and while the phone is
 * locked.
 */
let under: PhotoKey | null = null;
export function photosUnder(key: PhotoKey | null): void {
  under = key;
}

/**
 * Seals what lies open from before. Takes minutes where there is much; what was not reached goes on the next
 * time.
 */
export async function sealPhotos(): Promise<void> {
  if (under) await ask((id) => ({ id, seal: under as PhotoKey }));
}

/** Removes photographs that left with the records of a site this phone no longer has. */
export async function removePhotos(digests: string[]): Promise<void> {
  if (digests.length > 0) await ask((id) => ({ id, remove: digests }));
}

/**
 * Writes the bytes to the disk and tells the book; only then the photograph may be spoken of in an entry.
 * `bare` takes the place it was taken at out of the file first: its digest is of what is kept.
 */
export async function keepPhoto(file: Blob, calls: BookCalls, bare: boolean): Promise<PhotoRef> {
  const bytes = await file.arrayBuffer();
  if (bytes.byteLength === 0) throw new Said({ message: "phone-trouble-no_picture" });
  const media = file.type || "image/jpeg";
  const answer = await ask((id) => ({ id, bytes, media, bare, under }), [bytes]);
  if ("room" in answer || "sealed" in answer || "removed" in answer) throw new Error("no answer");
  if ("failed" in answer)
    throw Object.assign(new Error(answer.failed), answer.full ? { variant: "NotStored" } : {});
  await calls.photoTaken(answer.sha256, BigInt(answer.length), media);
  return { sha256: answer.sha256, length: answer.length, media };
}

async function read(folder: string, name: string): Promise<File | null> {
  try {
    const kept = await (await navigator.storage.getDirectory()).getDirectoryHandle(folder);
    return await (await kept.getFileHandle(name)).getFile();
  } catch {
    return null;
  }
}
/** Sealed, or still open from before; it may be moved from one to the other meanwhile. */
async function file(name: string): Promise<Blob | null> {
  const sealed = async () => {
    const found = under && (await read(folderOf(under), name));
    return found && under ? unsealed(under, name, await found.arrayBuffer()) : null;
  };
  return (await sealed()) ?? (await read(OPEN, name)) ?? (await sealed());
}
export const original = (sha256: string): Promise<Blob | null> => file(sha256);
export const small = async (sha256: string): Promise<Blob | null> =>
  (await file(`${sha256}.small`)) ?? file(sha256);

const PIECE = 512 * 1024;
const base64 = (text: string) => btoa(String.fromCharCode(...new TextEncoder().encode(text)));
/** A connection that says nothing for so long is taken for gone, so that the next attempt can begin. */
const patience = () => AbortSignal.timeout(120_000);
const tus = { "Tus-Resumable": "1.0.0" };

/**
 * Sends one photograph, going on where an earlier attempt stopped (tus 1.0, creation). False when the office
 * knows no record of it yet: the record was put off, and the photograph goes after it another time.
 */
async function sendPhoto(photo: PhotoRef, bytes: Blob, office: URL, pass: string): Promise<boolean> {
  const auth = { Authorization: `Bearer ${pass}`, ...tus };
  const at = new URL(`photos/${photo.sha256}`, office);
  const offsetNow = async () => {
    const head = await fetch(at, {
      method: "HEAD",
      headers: auth,
      redirect: "error",
      cache: "no-store",
      signal: patience(),
    });
    const offset = head.headers.get("Upload-Offset");
    return head.ok && offset !== null ? Number(offset) : null;
  };
  let offset: number | null = await offsetNow();
  if (offset === null) {
    const made = await fetch(new URL("photos", office), {
      method: "POST",
      redirect: "error",
      signal: patience(),
      headers: {
        ...auth,
        "Upload-Length": String(photo.length),
        "Upload-Metadata": `sha256 ${base64(photo.sha256)},media ${base64(photo.media)}`,
      },
    });
    if (made.status === 409) return false;
    if (made.status !== 201) throw saidBy(made);
    offset = (await offsetNow()) ?? 0;
  }
  while (offset < photo.length) {
    const piece: ArrayBuffer = await bytes.slice(offset, offset + PIECE).arrayBuffer();
    const digest = btoa(String.fromCharCode(...new Uint8Array(await crypto.subtle.digest("SHA-256", piece))));
    const sent: Response = await fetch(at, {
      method: "PATCH",
      body: piece,
      redirect: "error",
      signal: patience(),
      headers: {
        ...auth,
        "Upload-Offset": String(offset),
        "Content-Type": "application/offset+octet-stream",
        "Content-Digest": `sha-256=:${digest}:`,
      },
    });
    const reached = sent.headers.get("Upload-Offset");
    if (!sent.ok || reached === null || Number(reached) <= offset) throw saidBy(sent);
    offset = Number(reached);
  }
  return true;
}

/** Photographs the office has not said, in a signed reply, that it holds. */
export const waitingPhotos = async (calls: BookCalls): Promise<PhotoRef[]> =>
  JSON.parse(await calls.photosWaiting()) as PhotoRef[];

/** Less than the office's passes live. */
const PASS_MS = 10 * 60_000;

/**
 * Sends what waits. Stops at the first trouble, and between two photographs when `hurry` says that records
 * want to go first; what was sent stays sent. Returns how many the office now has; the next meeting tells so
 * with its signature.
 */
export async function sendPhotos(calls: BookCalls, office: URL, hurry: () => boolean): Promise<number> {
  let sent = 0,
    pass = "",
    until = 0;
  for (const photo of await waitingPhotos(calls)) {
    if (hurry()) break;
    const bytes = await original(photo.sha256);
    if (!bytes) continue; // its bytes came by another phone's word, not by this camera
    if (Date.now() > until) {
      const asked = await fetch(new URL("pass", office), {
        method: "POST",
        body: (await calls.passRequest()) as BufferSource,
        redirect: "error",
        signal: patience(),
      });
      const reply = (await asked.json()) as { pass?: string };
      if (!asked.ok || !reply.pass) throw saidBy(asked);
      [pass, until] = [reply.pass, Date.now() + PASS_MS];
    }
    if (await sendPhoto(photo, bytes, office, pass)) sent++;
  }
  return sent;
}

/** What fits into a carry file beside the records. */
const CARRIED = 48_000_000;
/**
 * Hands the photographs of some visits over for the next carry file, those first that the office does not
 * have. Returns how many fitted.
 */
export async function photosToCarry(
  visits: string[],
  calls: BookCalls,
): Promise<{ photos: number; left: number }> {
  let photos = 0,
    left = 0,
    total = 0;
  for (const photo of JSON.parse(await calls.photosOf(visits)) as PhotoRef[]) {
    const bytes = total + photo.length <= CARRIED ? await original(photo.sha256) : null;
    if (!bytes) {
      left++;
      continue;
    }
    await calls.carryPhoto(new Uint8Array(await bytes.arrayBuffer()));
    total += photo.length;
    photos++;
  }
  return { photos, left };
}
/** Keeps the photographs of the carry file taken in last. */
export async function keepCarried(calls: BookCalls): Promise<number> {
  let kept = 0;
  for (let one = await calls.carriedPhoto(); one; one = await calls.carriedPhoto(), kept++)
    await keepPhoto(new Blob([one.bytes as BlobPart], { type: one.media }), calls, false);
  return kept;
}
