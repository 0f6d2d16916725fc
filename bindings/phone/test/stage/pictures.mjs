// Pictures as a camera makes them, all invented: scenes with grain, which are drawn once by the browser and
// then made different by a comment inside each file; and plain boards with a word or two on them.
import { createHash } from "node:crypto";

const scenes = new WeakMap();

/**
 * `count` different pictures as files for an input, each with its SHA-256 and 300 to 500 kB, as phones make
 * them.
 */
export async function pictures(page, count, first = Math.floor(Math.random() * 1e9)) {
  const context = page.context();
  if (!scenes.has(context)) scenes.set(context, Buffer.from(await page.evaluate(drawsScene), "base64"));
  const scene = scenes.get(context);
  return Array.from({ length: count }, (_, n) => {
    const text = `demo picture ${first + n}${" ".repeat((n * 257) % 30_000)}`;
    const buffer = withComment(scene, text);
    return {
      name: `demo-${first + n}.jpg`,
      mimeType: "image/jpeg",
      buffer,
      sha256: createHash("sha256").update(buffer).digest("hex"),
    };
  });
}

/** One different picture each time. */
export const aPicture = async (page, first) => (await pictures(page, 1, first))[0];

/** Puts a comment segment after the start of a JPEG. The segment's length counts its own two bytes. */
function withComment(jpeg, text) {
  const words = Buffer.from(text);
  const mark = Buffer.from([0xff, 0xfe, (words.length + 2) >> 8, (words.length + 2) & 255]);
  return Buffer.concat([jpeg.subarray(0, 2), mark, words, jpeg.subarray(2)]);
}

/** Runs in the page: draws an invented scene and returns it as a JPEG in base64. */
async function drawsScene() {
  const canvas = new OffscreenCanvas(1600, 1200);
  const pen = canvas.getContext("2d");
  const image = pen.createImageData(1600, 1200);
  for (let i = 0; i < image.data.length; i += 4) {
    const x = (i / 4) % 1600;
    const y = Math.floor(i / 6400);
    const grain = Math.random() * 26;
    image.data[i] = 90 + 60 * Math.sin(x / 90) + grain;
    image.data[i + 1] = 100 + 50 * Math.sin(y / 70) + grain;
    image.data[i + 2] = 110 + 40 * Math.sin((x + y) / 120) + grain;
    image.data[i + 3] = 255;
  }
  pen.putImageData(image, 0, 0);
  const blob = await canvas.convertToBlob({ type: "image/jpeg", quality: 0.78 });
  const bytes = new Uint8Array(await blob.arrayBuffer());
  let text = "";
  for (let at = 0; at < bytes.length; at += 32_768)
    text += String.fromCharCode(...bytes.subarray(at, at + 32_768));
  return btoa(text);
}

/** A board with words on a ground of one colour, as a file for an input. */
export async function aBoard(page, words, ground) {
  const bytes = await page.evaluate(drawsBoard, [words, ground]);
  return { name: "camera.jpg", mimeType: "image/jpeg", buffer: Buffer.from(bytes) };
}

/** Runs in the page: draws the board and returns the bytes of a JPEG. */
async function drawsBoard([words, ground]) {
  const canvas = new OffscreenCanvas(1200, 900);
  const pen = canvas.getContext("2d");
  pen.fillStyle = ground;
  pen.fillRect(0, 0, 1200, 900);
  pen.fillStyle = "#d9d5c8";
  pen.font = "800 150px sans-serif";
  pen.textAlign = "center";
  words.forEach((word, line) => pen.fillText(word, 600, 380 + line * 190));
  const blob = await canvas.convertToBlob({ type: "image/jpeg", quality: 0.8 });
  return [...new Uint8Array(await blob.arrayBuffer())];
}
