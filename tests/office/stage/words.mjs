// What words stand on a page, and where they do not fit. All but the judging runs in the page.
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";

const SCENARIO = "demo/scenario";
/**
 * Laws and publications stay as they are cited in every language; nothing else of these files is shown so.
 */
const CITED = [
  ["core/procedures", /\b(?:cites|except) = "([^"]+)"/g],
  ["core/measure/src/calc/sources.rs", /: &str =\s+"([^"]+)";/g],
];

/** English words that no Spanish or French text has. */
const ENGLISH_WORDS =
  "the and of with without this that until which your not was were are has have " +
  "been what when who how where " +
  "every nothing nobody there here they them its than then will must may only " +
  "other others after before again";
const ENGLISH = new RegExp(`(?<!\\p{L})(${ENGLISH_WORDS.replaceAll(" ", "|")})(?!\\p{L})`, "iu");

/** What is the same in every language: times, numbers, fingerprints of keys, units that are no words. */
const SAME = new RegExp(
  String.raw`\b(Farsiding|UTC|[CM][SD]T|SHA-256|CFR|CTL|psia|[GM]B|CSV|JSON|https?|UN\d+|ZZQX|QQQX|` +
    String.raw`\d{4}-\d\d(-\d\d)?|\d\d:\d\d|[0-9a-f]{64}|[0-9a-f]{8}|[0-9a-f]{4}( [0-9a-f]{4})+|\d+)\b`,
  "g",
);

/** Every text below a folder, as one. */
function textBelow(folder) {
  return readdirSync(folder, { withFileTypes: true })
    .map((file) => {
      const path = join(folder, file.name);
      return file.isDirectory() ? textBelow(path) : readFileSync(path, "utf8");
    })
    .join("\n");
}

/** Every citation, as one text. */
const citations = CITED.flatMap(([place, form]) =>
  [...(place.endsWith(".rs") ? readFileSync(place, "utf8") : textBelow(place)).matchAll(form)].map(
    ([, citation]) => citation,
  ),
).join("\n");

const plain = (text) => text.replace(/[\s"'“”’]+/g, " ").toLowerCase();
const known = [textBelow(SCENARIO), citations].map(plain).join(" ");

/** Returns the texts of a page that a reader sees, each with its surroundings. */
export function textsOf(page) {
  return page.evaluate(() => {
    const texts = [];
    const sees = (element) => element.checkVisibility({ visibilityProperty: true });
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    while (walker.nextNode()) {
      const element = walker.currentNode.parentElement;
      const foreign = element.closest("script, code, pre, .code, .mark, [lang]:not(html)");
      const isDrawn = element.closest("svg text");
      if (!foreign && !isDrawn && sees(element)) texts.push(walker.currentNode.textContent);
    }
    // A text of a drawing may stand on several lines.
    for (const drawn of document.querySelectorAll("svg text")) if (sees(drawn)) texts.push(drawn.textContent);
    for (const named of document.querySelectorAll("[aria-label], [alt], [placeholder], [title]"))
      if (!named.closest(".mark, [lang]:not(html)"))
        for (const name of ["aria-label", "alt", "placeholder", "title"])
          if (named.hasAttribute(name)) texts.push(named.getAttribute(name));
    texts.push(document.title);
    return texts.map((text) => text.trim()).filter(Boolean);
  });
}

/**
 * Returns what of a text in the made-up language is not from the catalogues: these put brackets around
 * each of
 * their pieces, and what a message was given stands between.
 */
const outside = (text) => text.replace(/\[[^[\]]*\]/g, "\n").split("\n");

/** Returns the texts in the made-up language that nobody typed and no catalogue has. */
export function untranslated(texts, typed) {
  const typedTexts = typed.map(plain);
  const isTyped = (piece) => {
    const words = plain(piece).replace(/^[^\p{L}\p{N}]+|[^\p{L}\p{N}]+$/gu, "");
    return words === "" || known.includes(words) || typedTexts.some((text) => text.includes(words));
  };
  const pieces = texts.flatMap(outside).flatMap((text) => text.replace(SAME, "\n").split(/[\n·,;:()/|…]+/));
  return [
    ...new Set(pieces.filter((piece) => /\p{L}{2}/u.test(piece) && !isTyped(piece)).map((p) => p.trim())),
  ];
}

/** Returns what was typed of a page, as it stands on the page in the made-up language. */
export const typedOn = (texts) =>
  texts
    .flatMap(outside)
    .map((text) => text.trim())
    .filter((t) => t.length > 2);

/** Returns the texts of a page in another language that have an English word which nobody typed. */
export function english(texts, typed) {
  const longestFirst = [...typed].sort((a, b) => b.length - a.length);
  const without = (text) => longestFirst.reduce((rest, piece) => rest.replaceAll(piece, "\n"), text);
  const isEnglish = (piece) => ENGLISH.test(piece) && !known.includes(plain(piece).trim());
  return texts.filter((text) =>
    without(text)
      .split(/[\n·,;:()/|…«»“”"]+/)
      .some(isEnglish),
  );
}

/** Returns the texts that are cut off, or that reach over the edge of the window. */
export function clipped(page) {
  return page.evaluate(() => {
    const cut = [];
    for (const element of document.querySelectorAll("main *, header *, footer *")) {
      const own = [...element.childNodes].some((n) => n.nodeType === Node.TEXT_NODE && n.textContent.trim());
      if (!own || !element.checkVisibility({ visibilityProperty: true })) continue;
      if (element.closest(".skip, .sr, svg, script, option")) continue;
      const style = getComputedStyle(element);
      const hides =
        style.overflowX !== "visible" && style.overflowX !== "auto" && style.overflowX !== "scroll";
      const says = element.textContent.trim().replace(/\s+/g, " ").slice(0, 60);
      if (hides && element.scrollWidth > element.clientWidth + 1) cut.push(`cut off: ${says}`);
      const box = element.getBoundingClientRect();
      const over = box.right > innerWidth + 1 || box.left < -1;
      if (over && box.width > 0 && !element.closest(".wide, nav")) cut.push(`over the edge: ${says}`);
    }
    for (const drawn of document.querySelectorAll("main svg text")) {
      const frame = drawn.closest("svg").getBoundingClientRect();
      const box = drawn.getBoundingClientRect();
      const outside = box.left < frame.left - 2 || box.right > frame.right + 2;
      if (outside && frame.width > 0) cut.push(`over the drawing's edge: ${drawn.textContent}`);
    }
    return [...new Set(cut)];
  });
}
