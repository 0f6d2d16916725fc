/** How far a clock is off, in words: nothing below a minute. Times themselves are the core's to show. */
import type { Say } from "../strings";

export function clockWords(ahead_millis: number | null | undefined, say: Say): string {
  const minutes = Math.round((ahead_millis ?? 0) / 60_000),
    far = Math.abs(minutes);
  if (far === 0) return "";
  const DAY = 24 * 60,
    of = (unit: number) => Math.round(far / unit);
  const by =
    far < 120
      ? say("phone-span-minutes", { n: far })
      : far < 2 * DAY
        ? say("phone-span-hours", { n: of(60) })
        : far < 730 * DAY
          ? say("phone-span-days", { n: of(DAY) })
          : say("phone-span-years", { n: of(365.25 * DAY) });
  return say(minutes > 0 ? "phone-clock-fast" : "phone-clock-slow", { by });
}
