/**
 * Enrolling with the office: it is asked who it is and what time it has, the core signs the code over both,
 * and the certificate that comes back is handed to the core. Lives here: the two requests. Not here: what is
 * signed (the core).
 */
import type { BookCalls } from "../core/calls";
import { answered, Said, saidBy } from "../said";

interface Who {
  organisation_key: string;
  server_time: number;
}
/** `key_statements`: what the organisation's root said of its keys; absent while it signs by itself. */
interface Enrolled {
  certificate: string;
  key_statements?: string[];
}

/** An answer of the office as JSON; its own sentence where it refuses. */
async function said<T>(reply: Response): Promise<T> {
  const text = await reply.text();
  if (reply.ok) return JSON.parse(text) as T;
  let why = "";
  try {
    why = (JSON.parse(text) as { message?: string }).message ?? "";
  } catch {
    // It was not the office that answered.
  }
  throw why === "" ? saidBy(reply) : new Error(why);
}

const bytes = (base64: string): Uint8Array => Uint8Array.from(atob(base64), (c) => c.charCodeAt(0));

/** The key in the office's link, base64url, as the hexadecimal digits the office says it in. */
const digits = (key: string): string =>
  [...atob(key.replace(/-/g, "+").replace(/_/g, "/"))]
    .map((c) => c.charCodeAt(0).toString(16).padStart(2, "0"))
    .join("");

/**
 * `key` is the server's key from the office's link, to know that nobody stands in between; empty when only a
 * code was typed.
 */
export async function enrol(
  calls: BookCalls,
  office: string | URL,
  code: string,
  name: string,
  key: string,
): Promise<void> {
  const address = new URL("enrol", office);
  const who = await said<Who>(await answered(fetch(address, { redirect: "error", cache: "no-store" })));
  // Before the code leaves this phone: another server must not learn it.
  if (key && digits(key) !== who.organisation_key) throw new Said({ message: "phone-enrol-other_server" });
  const request = await calls.enrolRequest(
    code,
    name,
    who.organisation_key,
    BigInt(Math.trunc(who.server_time)),
  );
  const sent = { method: "POST", body: request as BufferSource, redirect: "error" as const };
  const enrolled = await said<Enrolled>(
    await answered(fetch(address, { ...sent, headers: { "Content-Type": "application/cbor" } })),
  );
  const certificate = bytes(enrolled.certificate);
  const statements = (enrolled.key_statements ?? []).map(bytes);
  if (statements.length === 0) await calls.enrolled(who.organisation_key, certificate);
  else await calls.enrolledWith(who.organisation_key, statements, certificate);
}
