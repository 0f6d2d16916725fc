// Every screen in both looks at 390x844: takes a picture, runs axe (with the 7:1 rule), and measures every target's size, every text's
// contrast, and whether anything is cut off. Exits 1 if anything falls short. `node test/look.mjs [screen]`
import { chromium } from "playwright-core";
import { readFileSync, mkdirSync, writeFileSync } from "node:fs";
import { SITE } from "./story.mjs";
import { stage } from "./stage.mjs";

const { url, visits: [, v2, v3], launch, close } = await stage();
const q = (o) => encodeURIComponent(JSON.stringify(o)), e = encodeURIComponent;
const SCREENS = {
  cars: "cars", new: "new", car: `car/${v2}/liquid_b`, car_cap: `car/${v2}/thermometer_well`, car_cover: `car/${v2}/cover`, car_relief: `car/${v2}/relief_device`, step: `step/${v2}`, step_found: `step/${v3}/line_as_found.liquid_a`, step_paper: `step/${v3}/paper`, step_tight: `step/${v2}/closure_tight.liquid_b`, steps: `steps/${v2}`, more: `more/${v2}`,
  figure: `figure/${v2}/${q({ statement: "reading", measured: "pressure", place: "car", purpose: "final", unit: "psi" })}`, effort: `figure/${v2}/${q({ statement: "effort", fitting: "liquid_b", part: "valve" })}`, threads: `figure/${v2}/${q({ statement: "threads", fitting: "liquid_b" })}`,
  ask_protections: `ask/${v2}/protections`, ask_readings: `ask/${v2}/readings`, form_paper: `form/${v2}/${e("paper|")}`, form_weather: `form/${v2}/${e("weather|")}`, form_pass: `form/${v2}/${e("pass|closure_not_tool_tight.liquid_b")}`, form_decision: `form/${v2}/${e("empty_decision|")}`, form_hold: `form/${v2}/${e("hold|")}`, form_fittings: `form/${v2}/${e("car_fittings|")}`,
  proof: `proof/${v2}`, tally: `tally/${v2}`, seal: `seal/${v2}/applied`, defect: `defect/${v2}/liquid_b`, defects: `defects/${v3}`, holds: `holds/${v3}`, differ: `differ/${v2}`, gate: `gate/${v2}`, blocker: `blocker/${v2}/closure_not_tool_tight.liquid_b`, history: `history/${v2}/liquid_b`, photo: `photo/${v2}/${e("other|")}`,
  only_here: "only_here", find: "find", help: `help/${v2}`, setup: "setup", enrol: "enrol", who: "who", where: "where", carry: "carry", refused: "refused",
};
const TOUCH = 48, GLOVE = 72, TEXT = 7;
// Not done at the car in gloves: reading history, opening the housing's small fittings (each also reached by Next step), settings.
const NOT_GLOVE = ".back, .only, .hit, .quietly, .calm, .title .key, .unit, .inst, .update .key, summary";
const out = process.env.OUT ?? new URL("../dist-look/", import.meta.url).pathname;
mkdirSync(out, { recursive: true });
const axe = readFileSync(new URL("../node_modules/axe-core/axe.min.js", import.meta.url), "utf8");
const browser = await launch();
const scale = process.env.SCALE, lang = process.env.LANG_UI;
let bad = 0, worst = 99;
const only = process.argv[2];
for (const look of ["day", "night"]) {
  const ctx = await browser.newContext({ viewport: { width: 390, height: 844 }, deviceScaleFactor: 2, hasTouch: true, isMobile: true, colorScheme: look === "night" ? "dark" : "light", serviceWorkers: "block" });
  await ctx.addInitScript(([sc, la, site]) => {
    delete Navigator.prototype.serviceWorker; // pictures of the app, not of its cache
    if (location.protocol === "about:") return;
    localStorage.setItem("farsiding.settings", JSON.stringify({ operator: "ada", site, ...(sc ? { scale: Number(sc) } : {}), ...(la ? { lang: la } : {}) }));
  }, [scale, lang, SITE]);
  const page = await ctx.newPage();
  page.on("pageerror", (e) => { console.log("PAGE ERROR", e.message); bad++; });
  for (const [name, hash] of Object.entries(SCREENS)) {
    if (only && !name.startsWith(only)) continue;
    await page.goto("about:blank");
    await page.goto(`${url}#${hash}`);
    await page.waitForFunction(() => document.querySelector(".screen .foot") && !/Opening the/.test(document.body.innerText));
    await page.evaluate(() => document.fonts.ready);
    await page.waitForTimeout(350);
    await page.screenshot({ path: `${out}${name}-${look}${scale ? `-x${scale}` : ""}${lang ? `-${lang}` : ""}.png` });
    const m = await page.evaluate(({ TOUCH, GLOVE, TEXT, NOT_GLOVE }) => {
      const found = []; let worst = 99;
      const rgb = (s) => { const c = document.createElement("canvas").getContext("2d"); c.fillStyle = s; c.fillRect(0, 0, 1, 1); return [...c.getImageData(0, 0, 1, 1).data]; };
      const lum = ([r, g, b]) => { const f = (v) => ((v /= 255) <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4); return 0.2126 * f(r) + 0.7152 * f(g) + 0.0722 * f(b); };
      const ratio = (a, b) => { const [x, y] = [lum(a), lum(b)].sort((p, q) => q - p); return (x + 0.05) / (y + 0.05); };
      const ground = (el) => { for (let e = el; e; e = e.parentElement) { const c = rgb(getComputedStyle(e).backgroundColor); if (c[3] === 255) return c; } return rgb(getComputedStyle(document.body).backgroundColor); };
      const shown = (el) => !el.closest(".sr") && el.getClientRects().length > 0;
      for (const el of document.querySelectorAll("button, a[href], input:not(.sr), textarea, summary")) {
        const r = el.getBoundingClientRect(), who = (el.getAttribute("aria-label") ?? el.textContent.trim()).slice(0, 40);
        const need = el.matches(NOT_GLOVE) || el.tagName === "INPUT" || el.tagName === "TEXTAREA" ? TOUCH : GLOVE;
        if (r.width < TOUCH - 0.1 || r.height < need - 0.1) found.push(`target ${r.width.toFixed(0)}x${r.height.toFixed(0)} < ${need}: ${who}`);
        if (r.left < -0.5 || r.right > innerWidth + 0.5) found.push(`off the side: ${who}`);
      }
      const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
      for (let t = walk.nextNode(); t; t = walk.nextNode()) {
        const el = t.parentElement; if (!t.textContent.trim() || !shown(el) || el.tagName === "TEXTAREA") continue;
        const cs = getComputedStyle(el), svg = el.closest("svg");
        let px = parseFloat(cs.fontSize); if (svg) { const k = svg.getBoundingClientRect().width / svg.viewBox.baseVal.width; px *= k; }
        const over = el.closest(".hold")?.querySelector("i");
        const g = svg && cs.stroke !== "none" && svg.classList.contains("plan") ? rgb(cs.stroke) : ground(el);
        const q = ratio(rgb(svg ? cs.fill : cs.color), g); worst = Math.min(worst, q);
        if (q < TEXT) found.push(`text ${q.toFixed(2)}:1 "${t.textContent.trim().slice(0, 30)}"`);
        if (over) { const h = ratio(rgb(cs.color), rgb(getComputedStyle(over).backgroundColor)); if (h < TEXT) found.push(`text on fill ${h.toFixed(2)}:1`); }
        if (px < 15.8) found.push(`small text ${px.toFixed(1)}px "${t.textContent.trim().slice(0, 30)}"`);
        const range = document.createRange(); range.selectNodeContents(t); const b = range.getBoundingClientRect();
        if (b.right > innerWidth + 0.5 || b.left < -0.5) found.push(`cut off at the side: "${t.textContent.trim().slice(0, 30)}"`);
        const box = el.closest("button, .who, section"); if (box && !svg) { const w = box.getBoundingClientRect(); if (b.right > w.right + 1 || b.left < w.left - 1 || (box.tagName === "BUTTON" && (b.bottom > w.bottom + 4 || b.top < w.top - 4))) found.push(`spills: "${t.textContent.trim().slice(0, 30)}"`); }
      }
      // nothing lies over a word
      for (const el of document.querySelectorAll(".body b, .body p, .body small, .body h1, .body h2, .foot button")) {
        if (!shown(el) || !el.textContent.trim()) continue; const r = el.getBoundingClientRect(), x = r.left + r.width / 2, y = r.top + r.height / 2, frame = el.closest(".foot") ? document.body : el.closest(".body"), f = frame.getBoundingClientRect();
        if (y < f.top || y > f.bottom) continue; const top = document.elementFromPoint(x, y); if (top && !el.contains(top) && !top.contains(el)) found.push(`covered: "${el.textContent.trim().slice(0, 30)}"`);
      }
      // labels of the drawing must not lie over each other
      const labels = [...document.querySelectorAll(".plan text")].map((x) => [x.textContent, x.getBoundingClientRect()]).filter(([s]) => s);
      labels.forEach(([s, a], i) => labels.slice(i + 1).forEach(([u, b]) => { if (a.left < b.right - 1 && b.left < a.right - 1 && a.top < b.bottom - 6 && b.top < a.bottom - 6) found.push(`plan words collide: "${s}" and "${u}"`); }));
      const body = document.querySelector(".body"); const scrolls = body ? body.scrollHeight - body.clientHeight : 0;
      return { found, worst, scrolls };
    }, { TOUCH, GLOVE, TEXT, NOT_GLOVE });
    await page.evaluate(axe);
    const a = await page.evaluate(async () => (await window.axe.run(document, { rules: { "color-contrast-enhanced": { enabled: true } } })).violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.target.join(" ")).slice(0, 3).join(" | ")}`));
    worst = Math.min(worst, m.worst);
    const all = [...m.found, ...a.map((x) => `axe ${x}`)];
    bad += all.length;
    console.log(`${look} ${name}: text >= ${m.worst.toFixed(2)}:1${m.scrolls > 1 ? `, scrolls ${m.scrolls}px` : ""}${all.length ? "" : ", nothing found"}`);
    for (const x of all) console.log("   ", x);
  }
  await ctx.close();
}
// shapes: token against token
const css = readFileSync(new URL("../src/look/tokens.css", import.meta.url), "utf8");
const lumHex = (h) => [1, 3, 5].map((i) => parseInt(h.slice(i, i + 2), 16) / 255).map((v) => (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4)).reduce((s, v, i) => s + v * [0.2126, 0.7152, 0.0722][i], 0);
const cr = (a, b) => { const [x, y] = [lumHex(a), lumHex(b)].sort((p, q) => q - p); return (x + 0.05) / (y + 0.05); };
const lines = [];
for (const [look, block] of [["day", css.split('[data-look="night"]')[0]], ["night", css.split('[data-look="night"]')[1]]]) {
  const t = Object.fromEntries([...block.matchAll(/--([a-z0-9-]+):\s*(#[0-9a-f]{6})/g)].map((m) => [m[1], m[2]]));
  for (const [f, g, need] of [["ink", "ground", 7], ["ink", "plate", 7], ["ink-2", "ground", 7], ["ink-2", "plate", 7], ["ink", "press", 7], ["needle", "ground", 7], ["needle", "plate", 7], ["on-needle", "needle", 7], ["on-ink", "ink", 7], ["on-caution", "caution", 7], ["caution-edge", "ground", 3], ["rule", "ground", 3], ["rule", "plate", 3], ["needle", "ink", 0]]) {
    const q = cr(t[f], t[g]); lines.push(`${look.padEnd(6)}${f.padEnd(13)}on ${g.padEnd(9)}${q.toFixed(2).padStart(6)}:1  needs ${need || "-"}`); if (q < need) { bad++; console.log("TOKEN", lines.at(-1)); }
  }
}
if (process.env.TOKENS) writeFileSync(process.env.TOKENS, lines.join("\n") + "\n");
// contact sheets
if (!only && !scale && !lang) for (const look of ["day", "night"]) {
  const names = Object.keys(SCREENS);
  for (let i = 0, s = 1; i < names.length; i += 6, s++) {
    const p = await browser.newPage({ viewport: { width: 1956, height: 700 } });
    const imgs = names.slice(i, i + 6).map((n) => `<img width=320 src="data:image/png;base64,${readFileSync(`${out}${n}-${look}.png`).toString("base64")}">`).join("");
    await p.setContent(`<body style="margin:0;display:flex;gap:6px;background:#777">${imgs}</body>`); await p.screenshot({ path: `${out}sheet-${look}-${s}.png` }); await p.close();
  }
}
await browser.close(); await close();
console.log(bad ? `${bad} things found` : "nothing found", `· lowest text contrast ${worst.toFixed(2)}:1`);
process.exit(bad ? 1 : 0);
