/**
 * Reads a printed code from a picture just taken, where the browser can. Without it the number is typed
 * twice.
 */
interface Detector {
  detect(image: ImageBitmap): Promise<{ rawValue: string }[]>;
}
type Scope = typeof globalThis & { BarcodeDetector?: new () => Detector };
const Made = (globalThis as Scope).BarcodeDetector;
export const canScan = Made !== undefined;

export async function scanFrom(picture: Blob): Promise<string | null> {
  if (!Made) return null;
  const image = await createImageBitmap(picture);
  try {
    return (await new Made().detect(image))[0]?.rawValue ?? null;
  } catch {
    return null;
  } finally {
    image.close();
  }
}
