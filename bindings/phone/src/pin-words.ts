/** What came of a PIN, in a sentence that says what can be done now. */
import type { Tried } from "./state/person-keys.svelte";
import type { Say } from "./strings";

export function pinWords(tried: Tried | null, say: Say): string {
  switch (tried?.is) {
    case "wrong":
      return say("phone-pin-wrong", { n: tried.left });
    case "waits":
      return say("phone-pin-waits", { at: hourAndMinute(tried.until) });
    case "locked":
      return say("phone-pin-locked");
    case "ended":
      return say("phone-pin-ended");
    case "weak":
      return say("phone-pin-weak");
    case "failed":
      return say.of(tried.why);
    default:
      return "";
  }
}

export function hourAndMinute(at: number): string {
  const when = new Date(at),
    two = (n: number) => String(n).padStart(2, "0");
  return `${two(when.getHours())}:${two(when.getMinutes())}`;
}
