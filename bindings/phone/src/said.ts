/** A failure that a person is told in their language. Lives here: the error that carries a message. */
import type { Message } from "./core/views.generated";

export class Said extends Error {
  constructor(readonly says: Message) {
    super(says.message);
  }
}

/** A failure of the core as far as it is read here. */
export interface Failed {
  variant?: string;
  why?: string;
  message?: string;
  detail?: { says?: string };
}

/** What to tell the person: the core's message, or the text of a failure that has none. */
export function told(error: unknown): Message | string {
  if (error instanceof Said) return error.says;
  const failed = error as Failed;
  try {
    if (failed.detail?.says) return JSON.parse(failed.detail.says) as Message;
  } catch {
    // Then the text for the log is better than nothing.
  }
  return failed.why ?? failed.message ?? String(error);
}

/** Whether a request failed before anybody answered: the browser's text of it says nothing to people. */
export const unanswered = (error: unknown): boolean =>
  error instanceof TypeError ||
  (error instanceof DOMException && (error.name === "AbortError" || error.name === "TimeoutError"));

/** The answer to a request; where nobody answers, a failure that says what to do. */
export async function answered(request: Promise<Response>): Promise<Response> {
  try {
    return await request;
  } catch (error) {
    throw unanswered(error) ? new Said({ message: "phone-trouble-no_network" }) : error;
  }
}

/** What an answer with an error status says, where it says nothing itself. */
export const saidBy = (reply: Response): Said =>
  new Said({ message: "phone-sync-answered", args: { status: { typed: String(reply.status) } } });
