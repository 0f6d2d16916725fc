// Pictures as a camera makes them, invented: drawn once by the browser as JPEG, then each made another by a comment inside. No test here.
import { createHash } from "node:crypto";

const drawn = new WeakMap();
/** Bytes of an invented scene with grain, 300 to 500 kB as phones make them. */
async function scene(page) {
  const base64 = await page.evaluate(async () => {
    const canvas = new OffscreenCanvas(1600, 1200),
      g = canvas.getContext("2d"),
      image = g.createImageData(1600, 1200);
    for (let i = 0; i < image.data.length; i += 4) {
      const x = (i / 4) % 1600,
        y = Math.floor(i / 6400),
        grain = Math.random() * 26;
      image.data[i] = 90 + 60 * Math.sin(x / 90) + grain;
      image.data[i + 1] = 100 + 50 * Math.sin(y / 70) + grain;
      image.data[i + 2] = 110 + 40 * Math.sin((x + y) / 120) + grain;
      image.data[i + 3] = 255;
    }
    g.putImageData(image, 0, 0);
    const bytes = new Uint8Array(
      await (await canvas.convertToBlob({ type: "image/jpeg", quality: 0.78 })).arrayBuffer(),
    );
    let text = "";
    for (let at = 0; at < bytes.length; at += 32_768)
      text += String.fromCharCode(...bytes.subarray(at, at + 32_768));
    return btoa(text);
  });
  return Buffer.from(base64, "base64");
}
/** `count` different pictures as files for an input, each with its SHA-256. */
export async function pictures(page, count, first = Math.floor(Math.random() * 1e9)) {
  const key = page.context();
  if (!drawn.has(key)) drawn.set(key, await scene(page));
  const one = drawn.get(key);
  return Array.from({ length: count }, (_, n) => {
    // A comment segment after the start of the image: its length counts itself.
    const text = Buffer.from(`demo picture ${first + n}${" ".repeat((n * 257) % 30_000)}`);
    const mark = Buffer.from([0xff, 0xfe, (text.length + 2) >> 8, (text.length + 2) & 255]);
    const buffer = Buffer.concat([one.subarray(0, 2), mark, text, one.subarray(2)]);
    return {
      name: `demo-${first + n}.jpg`,
      mimeType: "image/jpeg",
      buffer,
      sha256: createHash("sha256").update(buffer).digest("hex"),
    };
  });
}
