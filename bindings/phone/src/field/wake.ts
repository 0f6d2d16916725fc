/**
 * Keeps the screen lit while a car is open, where the browser can; taken again after the phone was locked.
 */
let lock: WakeLockSentinel | undefined;
let wanted = false;

async function take(): Promise<void> {
  if (
    !wanted ||
    document.visibilityState !== "visible" ||
    !("wakeLock" in navigator) ||
    (lock && !lock.released)
  )
    return;
  try {
    lock = await navigator.wakeLock.request("screen");
  } catch {
    // Low battery or a browser that will not: the screen goes dark as it always did.
  }
}
document.addEventListener("visibilitychange", () => void take());

export function keepAwake(on: boolean): void {
  wanted = on;
  if (on) void take();
  else void lock?.release().catch(() => {});
}
