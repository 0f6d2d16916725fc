// Colours as the browser draws them, and the contrast of two. Everything here runs in the page; `light` and
// `ratio` need none.

/** A colour of a style sheet as red, green, blue and opacity, each up to 255. */
export function rgb(css) {
  rgb.known ??= new Map();
  if (rgb.known.has(css)) return rgb.known.get(css);
  if (!rgb.pen) {
    const canvas = Object.assign(document.createElement("canvas"), { width: 1, height: 1 });
    rgb.pen = canvas.getContext("2d", { willReadFrequently: true });
  }
  rgb.pen.clearRect(0, 0, 1, 1);
  rgb.pen.fillStyle = css;
  rgb.pen.fillRect(0, 0, 1, 1);
  rgb.known.set(css, [...rgb.pen.getImageData(0, 0, 1, 1).data]);
  return rgb.known.get(css);
}

/** The relative luminance of a colour (WCAG 2). */
export function light([red, green, blue]) {
  const linear = (part) =>
    part / 255 <= 0.04045 ? part / 255 / 12.92 : ((part / 255 + 0.055) / 1.055) ** 2.4;
  return 0.2126 * linear(red) + 0.7152 * linear(green) + 0.0722 * linear(blue);
}

/** The contrast of two colours, from 1 to 21 (WCAG 2). */
export function ratio(one, other) {
  const [darker, lighter] = [light(one), light(other)].sort((a, b) => a - b);
  return (lighter + 0.05) / (darker + 0.05);
}

/** The colour an element stands on. */
export function ground(element) {
  for (let e = element; e; e = e.parentElement) {
    const colour = rgb(getComputedStyle(e).backgroundColor);
    if (colour[3] === 255) return colour;
  }
  return [255, 255, 255, 255];
}
