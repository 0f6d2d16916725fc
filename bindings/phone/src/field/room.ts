/** What the browser promises about storage: asked and told, never assumed. Nothing here deletes anything. */
export interface Room { kept: boolean; used: number; free: number }
/** Free space below which the phone says so before it hurts: about forty photographs. */
export const LITTLE_ROOM = 150_000_000;

export async function roomNow(): Promise<Room> {
  const storage = navigator.storage;
  if (!storage?.estimate) return { kept: false, used: 0, free: 0 };
  const [kept, { usage = 0, quota = 0 }] = await Promise.all([storage.persisted?.() ?? false, storage.estimate()]);
  return { kept, used: usage, free: Math.max(0, quota - usage) };
}
/** Asks the browser to keep the records until the person removes them. */
export async function askToKeep(): Promise<boolean> {
  const storage = navigator.storage;
  return (await storage?.persisted?.()) || (await storage?.persist?.()) || false;
}
