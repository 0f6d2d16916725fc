/**
 * A text without the marks that act outside it: control characters, marks of direction, separators. The same
 * marks as the core's `text::acts_outside`. Lives here: what may be set beside other words. Entries keep what
 * was typed.
 */
const ENDS_OF_LINES = /[\n\r\t\u2028\u2029]+/g;
const CONTROL = /[\u0000-\u001f\u007f-\u009f]/g;
const DIRECTION = /[\u061c\u200e\u200f\u2028-\u202e\u2066-\u206f]/g;
const HIDING = /[\ufff9-\ufffb\u{e0000}-\u{e007f}]/gu;

/** Ends of lines become blanks. */
export const own = (text: string): string =>
  text.replace(ENDS_OF_LINES, " ").replace(CONTROL, "").replace(DIRECTION, "").replace(HIDING, "");
