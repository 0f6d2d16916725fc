// What is shown of a page, and what an element is called when something is told of it. Everything here runs
// in the page.

/** The beginning of a text, on one line. */
export function short(text) {
  return (text ?? "").trim().replace(/\s+/g, " ").slice(0, 36);
}

export function named(element) {
  return short(element.getAttribute("aria-label") ?? element.textContent ?? "") || element.className;
}

export function shown(element) {
  return (
    !element.closest(".sr") &&
    element.getClientRects().length > 0 &&
    element.checkVisibility({ visibilityProperty: true })
  );
}
