// Errors that cross the border between worker and page. Prototypes do not survive the crossing, so both ends
// use one class whose `variant` is what a screen decides by. Not here: words for people.

/** Variants made by the web layer itself; the API adds its own: `FarsidingError` in the generated code. */
export type WorkerVariant =
  /** The module broke off. The call may or may not have been carried out: look before doing it again. */
  | "Broken"
  /** The page has let go of the storage or closed the connection; nothing was carried out. */
  | "Closed"
  /** This place cannot keep records: private window, no secure context, or a browser too old. */
  | "NoStorage"
  /** No such call, or arguments it cannot take. */
  | "WrongCall"
  /** Another tab that has just ended still holds the files. */
  | "OpenElsewhere"
  /** The storage opens with a PIN, which was not given. */
  | "PinNeeded"
  /** It was another PIN; `until` says from when the next may be tried, milliseconds since 1970. */
  | "WrongPin"
  /** Too many wrong ones: wait until `until`. */
  | "PinWaits"
  /** The browser has lost the key of what is kept here. */
  | "KeyGone";

/** A failure as plain data. */
export interface FailureData {
  /** Name of the API's error type, or "Worker" for the web layer's own. */
  type: string;
  variant: string;
  /** For the log, in English. */
  why: string;
  /** The variant's fields, when the API gave any. */
  detail: Record<string, unknown>;
}

/** What every rejected call is rejected with. */
export class Failure extends Error implements FailureData {
  override readonly name = "Failure";
  readonly type: string;
  readonly variant: string;
  readonly why: string;
  readonly detail: Record<string, unknown>;

  constructor(data: FailureData) {
    super(`${data.type}.${data.variant}: ${data.why}`);
    this.type = data.type;
    this.variant = data.variant;
    this.why = data.why;
    this.detail = data.detail;
  }
}

/** A failure of the web layer itself. */
export function workerFailure(
  variant: WorkerVariant,
  why: string,
  detail: Record<string, unknown> = {},
): FailureData {
  return { type: "Worker", variant, why, detail };
}

/** Any thrown value as data. Generated errors carry `tag` and `inner`; all else is the caller's mistake. */
export function failureOf(thrown: unknown): FailureData {
  if (thrown instanceof Failure) {
    return { type: thrown.type, variant: thrown.variant, why: thrown.why, detail: thrown.detail };
  }
  const { tag, inner } = (thrown ?? {}) as { tag?: unknown; inner?: unknown };
  if (typeof tag === "string" && thrown instanceof Error) {
    const detail = typeof inner === "object" && inner !== null ? { ...inner } : {};
    const why = "why" in detail && typeof detail.why === "string" ? detail.why : thrown.message;
    return { type: typeOf(thrown, tag), variant: tag, why, detail };
  }
  return workerFailure(
    "WrongCall",
    thrown instanceof Error ? `${thrown.name}: ${thrown.message}` : String(thrown),
  );
}

/** Generated messages read "Type.Variant" with an optional ": text". */
function typeOf(error: Error, tag: string): string {
  const at = error.message.indexOf(`.${tag}`);
  return at > 0 ? error.message.slice(0, at) : "Error";
}

/**
 * Whether the module cannot be trusted after `thrown`: a trap (a Rust panic ends in one), an exhausted stack
 * or a panic reported by the generated code. The worker must be ended and a new one started.
 */
export function isFatal(thrown: unknown): boolean {
  if (thrown instanceof WebAssembly.RuntimeError) return true;
  if (!(thrown instanceof Error)) return false;
  return (
    thrown instanceof RangeError || thrown.name === "InternalError" || thrown.constructor.name === "RustPanic"
  );
}
