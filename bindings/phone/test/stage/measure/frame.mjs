// The frame of a screen: the foot stands, something is left between head and foot, nothing lies over a word,
// and the car is named. Everything here runs in the page.
import { named, short, shown } from "./telling.mjs";

export function measuresFrame({ found, bounds }, car) {
  const body = document.querySelector(".body");
  const frame = body?.getBoundingClientRect();
  const foot = document.querySelector(".foot")?.getBoundingClientRect();
  if (!foot || foot.bottom > innerHeight + 0.5) found.add("the foot is pushed out");
  if (frame && frame.height < 200) found.add(`only ${frame.height.toFixed(0)}px between head and foot`);
  if (body && body.scrollWidth > body.clientWidth + 1) found.add("scrolls sideways");

  const boxes = ".foot, .line, .keys, .head, .who, section, button, .caution, .lead, .trouble";
  for (const box of document.querySelectorAll(boxes)) {
    const wider = box.scrollWidth - box.clientWidth;
    if (shown(box) && box.clientWidth > 0 && wider > 1 && !box.matches(".hit"))
      found.add(`wider than its frame by ${wider}px: ${named(box)}`);
  }
  for (const element of body?.querySelectorAll("*") ?? []) {
    const mayScroll =
      element.tagName !== "TEXTAREA" && /auto|scroll/.test(getComputedStyle(element).overflowY);
    if (mayScroll && element.scrollHeight > element.clientHeight + 1)
      found.add(`scrolls inside what scrolls: ${short(element.textContent)}`);
  }

  const words = ".body b, .body p, .body small, .body h1, .body h2, .body button, .foot button, .head button";
  for (const element of document.querySelectorAll(words)) {
    if (!shown(element) || !named(element) || !element.textContent.trim()) continue;
    const box = element.getBoundingClientRect();
    const middle = box.top + box.height / 2;
    const scrolledAway = element.closest(".body") && (middle < frame.top + 1 || middle > frame.bottom - 1);
    if (scrolledAway) continue;
    const top = document.elementFromPoint(box.left + box.width / 2, middle);
    if (top && !top.closest(bounds.OVER) && !element.contains(top) && !top.contains(element))
      found.add(`covered: "${named(element)}" by ${named(top)}`);
  }

  if (!car) return;
  const head = short(document.querySelector(".head .mark, .carline")?.textContent).replace(/\s/g, "");
  if (!head.includes(car.number.replace(/\s/g, ""))) found.add(`does not say which car: "${head}"`);
  const spot = document.querySelector(".head .spotmark, .carline .spotmark")?.textContent;
  if (car.spot && spot !== car.spot) found.add("does not say where the car stands");
}
