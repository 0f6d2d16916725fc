// Whether every word on a screen is in the language that is spoken. In the made-up language every text of a
// catalogue stands in brackets, so that what stands outside of them was never in a catalogue; in a real one
// no word of a list of plain English words stands. What people typed, and names, are left out first.

/** Whole texts that stand as they are: the site's, a sign's words by law, a machine's own error. */
const WHOLE = [
  /Panel\s+button:\s+left\s+of\s+the\s+gate,\s+red\s+cover/g,
  /Liquid\s+line\s+valve:\s+foot\s+of\s+the\s+tower,\s+yellow\s+wheel/g,
  /Demo\s+rule:\s+radio\s+on\s+channel\s+4\./g,
  /Tank\s+Car\s+Connected/g,
  /\b(NoStorage|Broken): .*/g,
];
/** What people typed at the played siding, the names of its people, devices, gauges and cars; and codes. */
const TYPED = [
  /\b[A-Z]{4} ?\d{2,6}\b/g,
  /\b(QZQX|ZZQX)\b/g,
  /\b(Ada|Ben)( \(demo\))?/g,
  /\bph?one [a-z]+( in [a-zA-Z-]+)?\b/g,
  /\bada\b|\bben\b|\boffice\b(?= 's)/g,
  /Demo siding|Demo gas plant( north)?|Demo terminal, duty|Demo carrier, dispatch|Fire and rescue/g,
  /Etc\/GMT[+-]\d+/g,
  /Track \d+(, spot \d+)?/g,
  /Gauge \d+|Thermometer \d+|Truck \d+|Adapter \d+/g,
  /\b[0-9a-f]{6,}\b/g,
  /English \(Pseudo-Accents\)/g,
  /\bFarsiding\b|\bUN\d{4}\b|\bFarsiding[^ ]*/g,
];
/** Names of languages, which stand as each calls itself, and what is typed into fields. */
const LEFT_OUT = ["body [lang]", ".field", "textarea", "input"];
/** Plain English words that no Spanish or French text has. */
const ENGLISH = new RegExp(
  // The edge of a word, where letters may have accents.
  String.raw`(?<!\p{L})(${[
    "the and not with this that from was were has have been before after of is are it be by at",
    "open opened closed record recorded tank hose leak gauge reading seal release released check step steps",
    "when which who what why your you cannot nothing here there only sent nobody left read keep hold",
    "entry entries something went wrong",
  ]
    .join(" ")
    .replaceAll(" ", "|")})(?!\p{L})`,
  "giu",
);

/** Texts on the screen that nobody translated, in words. `typed` are further texts that people typed. */
export async function untranslated(page, language, typed = []) {
  const texts = await page.evaluate(visibleTexts, LEFT_OUT);
  const found = new Set();
  for (const text of texts) {
    const rest = withoutTyped(text, typed);
    const english =
      language === "en-XA"
        ? (withoutBrackets(rest).match(/\p{L}{3,}/gu) ?? []).filter((word) => !UNITS.has(word))
        : (rest.match(ENGLISH) ?? []).filter((word) => word !== word.toUpperCase());
    if (english.length) found.add(`not translated (${english.slice(0, 4).join(", ")}): ${text.slice(0, 90)}`);
  }
  return [...found];
}

/** Units stand in figures as drawn. */
const UNITS = new Set(["psi", "psig", "lbf", "gal", "kPa", "bar", "min"]);

const withoutTyped = (text, typed) => {
  let rest = text;
  for (const one of WHOLE) rest = rest.replace(one, " ");
  for (const one of typed) rest = rest.replaceAll(one, " ");
  for (const one of TYPED) rest = rest.replace(one, " ");
  return rest;
};
/** What is in brackets may hold what was filled in, in brackets again. */
function withoutBrackets(text) {
  let rest = text,
    before;
  do {
    before = rest;
    rest = rest.replace(/\[[^[\]]*\]/g, " ");
  } while (rest !== before);
  return rest;
}

/** Runs in the page. */
function visibleTexts(left_out) {
  const shown = (element) => element.checkVisibility({ visibilityProperty: true });
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  const texts = [];
  for (let node = walk.nextNode(); node; node = walk.nextNode()) {
    const text = node.textContent.trim(),
      element = node.parentElement;
    if (text === "" || !element || !shown(element)) continue;
    if (element.closest(left_out.join(",")) || element.closest("script, style")) continue;
    texts.push(text);
  }
  for (const element of document.querySelectorAll("[aria-label]"))
    if (shown(element)) texts.push(element.getAttribute("aria-label"));
  for (const element of document.querySelectorAll("[placeholder]")) texts.push(element.placeholder);
  return texts;
}
