/** A span of time as a stopwatch shows it: minutes and seconds, and hours once there are any. Pure. */

const two = (n: number) => String(n).padStart(2, "0");

export function stopwatch(millis: number): string {
  const seconds = Math.max(0, Math.floor(millis / 1000));
  const minutes = Math.floor(seconds / 60);
  const hours = Math.floor(minutes / 60);
  const rest = two(seconds % 60);
  return hours > 0 ? `${hours}:${two(minutes % 60)}:${rest}` : `${minutes}:${rest}`;
}
