// What is measured of one screen, inside the page: every target, every word, every shape. Returns what falls short, in words.
export const TOUCH = 48,
  GLOVE = 72,
  TEXT = 7,
  SHAPE = 3;
/** Not done at the car in gloves: going back, what is only here, reading history, settings; and the openings on the drawing, which are
 *  drawn to scale and are also reached by the next step. */
const NOT_GLOVE = ".back, .only, .hit, .unit, .inst, summary";
/** Drawn to be looked through, or a part whose outline is measured: the tank wall, passages, hatching, the light core of a dark hose. */
const DECORATION =
  ".icon-cut, .p-hair, .p-floor, .p-wall, .p-bar-on-solid, .p-bar-hot, .p-on-solid, .p-hose-core, .p-needle, .s-metal, .s-void, .s-hair, .s-band, .s-bandline, .s-cutline";

/** Measures the page's screen. `car` = what its head must say of the car it is bound to. */
export const measure = (page, car = null) =>
  page.evaluate(
    ({ TOUCH, GLOVE, TEXT, SHAPE, NOT_GLOVE, DECORATION, car }) => {
      const found = new Set(),
        short = (s) => (s ?? "").trim().replace(/\s+/g, " ").slice(0, 36);
      let worst = 99;
      const cache = new Map(),
        pen = Object.assign(document.createElement("canvas"), { width: 1, height: 1 }).getContext("2d", {
          willReadFrequently: true,
        });
      const rgb = (css) => {
        if (!cache.has(css)) {
          pen.clearRect(0, 0, 1, 1);
          pen.fillStyle = css;
          pen.fillRect(0, 0, 1, 1);
          cache.set(css, [...pen.getImageData(0, 0, 1, 1).data]);
        }
        return cache.get(css);
      };
      const light = ([r, g, b]) =>
        [r, g, b]
          .map((v) => (v / 255 <= 0.04045 ? v / 255 / 12.92 : ((v / 255 + 0.055) / 1.055) ** 2.4))
          .reduce((s, v, i) => s + v * [0.2126, 0.7152, 0.0722][i], 0);
      const ratio = (a, b) => {
        const [x, y] = [light(a), light(b)].sort((p, q) => q - p);
        return (x + 0.05) / (y + 0.05);
      };
      const ground = (el) => {
        for (let e = el; e; e = e.parentElement) {
          const c = rgb(getComputedStyle(e).backgroundColor);
          if (c[3] === 255) return c;
        }
        return [255, 255, 255, 255];
      };
      const shown = (el) =>
        !el.closest(".sr") &&
        el.getClientRects().length > 0 &&
        el.checkVisibility({ visibilityProperty: true });
      const over = ".told",
        body = document.querySelector(".body"),
        frame = body?.getBoundingClientRect();
      const named = (el) => short(el.getAttribute("aria-label") ?? el.textContent ?? "") || el.className;

      // targets: size, inside the screen, an edge one can see, none on top of another
      const targets = [
        ...document.querySelectorAll("button, a[href], input:not(.sr), textarea, summary"),
      ].filter(shown);
      for (const el of targets) {
        const r = el.getBoundingClientRect(),
          need = el.matches(NOT_GLOVE) || el.matches("input, textarea") ? TOUCH : GLOVE,
          cs = getComputedStyle(el);
        if (r.width < TOUCH - 0.1 || r.height < need - 0.1)
          found.add(`target ${r.width.toFixed(0)}x${r.height.toFixed(0)} < ${need}: ${named(el)}`);
        if (r.left < -0.5 || r.right > innerWidth + 0.5) found.add(`off the side: ${named(el)}`);
        const outside = ground(el.parentElement),
          edges = [];
        for (const side of ["Top", "Bottom"])
          if (parseFloat(cs[`border${side}Width`]) > 0 && cs[`border${side}Style`] !== "none")
            edges.push(rgb(cs[`border${side}Color`]));
        if (rgb(cs.backgroundColor)[3] === 255) edges.push(rgb(cs.backgroundColor));
        if (edges.length && Math.max(...edges.map((c) => ratio(c, outside))) < SHAPE)
          found.add(`edge under ${SHAPE}:1: ${named(el)}`);
        if (
          el.getAttribute("aria-pressed") === "true" &&
          !el.matches(".hit, .quietly") &&
          ["none", "normal"].includes(getComputedStyle(el, "::after").content)
        )
          found.add(`chosen by colour alone: ${named(el)}`);
        if (el.placeholder && ratio(rgb(getComputedStyle(el, "::placeholder").color), ground(el)) < TEXT)
          found.add(`placeholder under ${TEXT}:1: ${short(el.placeholder)}`);
        if (el.matches("input:not([type=file]), textarea") && el.scrollWidth > el.clientWidth + 1)
          found.add(`typed words cut: ${short(el.value || el.placeholder)}`);
      }
      const round = (el) => el.matches(".hit");
      targets.forEach((a, i) =>
        targets.slice(i + 1).forEach((b) => {
          if (
            a.contains(b) ||
            b.contains(a) ||
            a.closest(".trouble, .update") !== b.closest(".trouble, .update")
          )
            return;
          const p = a.getBoundingClientRect(),
            q = b.getBoundingClientRect();
          const deep =
            round(a) && round(b)
              ? p.width / 2 +
                q.width / 2 -
                Math.hypot(p.x + p.width / 2 - q.x - q.width / 2, p.y + p.height / 2 - q.y - q.height / 2)
              : Math.min(p.right - q.left, q.right - p.left, p.bottom - q.top, q.bottom - p.top);
          const apart = !a.closest(".body") !== !b.closest(".body"); // what scrolls passes under the foot
          if (deep > 6 && !apart)
            found.add(`targets overlap by ${deep.toFixed(0)}px: ${named(a)} and ${named(b)}`);
        }),
      );

      // words: contrast, size, cut off, one over another
      const lines = [];
      const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
      for (let t = walk.nextNode(); t; t = walk.nextNode()) {
        const el = t.parentElement,
          words = short(t.textContent);
        if (!words || !shown(el) || el.matches("textarea, script, style, option")) continue;
        const cs = getComputedStyle(el),
          svg = el.closest("svg"),
          halo = svg && cs.stroke !== "none" && parseFloat(cs.strokeWidth) > 0;
        const px =
          parseFloat(cs.fontSize) * (svg ? svg.getBoundingClientRect().width / svg.viewBox.baseVal.width : 1);
        const colour = rgb(svg ? cs.fill : cs.color),
          q = ratio(colour, halo ? rgb(cs.stroke) : ground(el));
        worst = Math.min(worst, q);
        if (q < TEXT) found.add(`text ${q.toFixed(2)}:1 "${words}"`);
        const fill = el.closest(".hold")?.querySelector("i");
        if (
          fill &&
          !el.closest(".armed") &&
          ratio(colour, rgb(getComputedStyle(fill).backgroundColor)) < TEXT
        )
          found.add(`text under ${TEXT}:1 while it fills "${words}"`);
        if (px < 15.8) found.add(`small text ${px.toFixed(1)}px "${words}"`);
        const range = document.createRange();
        range.selectNodeContents(t);
        for (const r of range.getClientRects()) {
          if (r.width < 1) continue;
          if (r.right > innerWidth + 0.5 || r.left < -0.5) found.add(`cut off at the side: "${words}"`);
          for (let e = el; e && e !== body && !e.matches(".screen, body"); e = e.parentElement) {
            const es = getComputedStyle(e),
              box = e.getBoundingClientRect(),
              hides = es.overflowX !== "visible" || e.matches("svg");
            const slack = r.height * 0.16; // a line's box is taller than its letters
            if (
              hides &&
              (r.right > box.right + 1 ||
                r.left < box.left - 1 ||
                r.bottom - slack > box.bottom + 1 ||
                r.top + slack < box.top - 1)
            )
              found.add(`cut: "${words}"`);
            if (
              e.matches("button, .who, section, .caution, .hold, .item, li, .key") &&
              !svg &&
              (r.right > box.right + 1 ||
                r.left < box.left - 1 ||
                r.bottom - slack > box.bottom + 1 ||
                r.top + slack < box.top - 1)
            )
              found.add(`spills: "${words}"`);
          }
          if (!el.closest(over))
            lines.push({
              words,
              el,
              svg: el.closest("text"),
              x: r.left,
              y: r.top + r.height * 0.18,
              right: r.right,
              bottom: r.bottom - r.height * 0.18,
              above: el.closest(".trouble, .update"),
            });
        }
      }
      lines.forEach((a, i) =>
        lines.slice(i + 1).forEach((b) => {
          if (
            (a.svg && a.svg === b.svg) ||
            a.above !== b.above ||
            !a.el.closest(".body") !== !b.el.closest(".body")
          )
            return;
          if (
            Math.min(a.right, b.right) - Math.max(a.x, b.x) > 2 &&
            Math.min(a.bottom, b.bottom) - Math.max(a.y, b.y) > 2
          )
            found.add(`words over words: "${a.words}" and "${b.words}"`);
        }),
      );

      // shapes
      for (const svg of document.querySelectorAll("svg")) {
        if (!shown(svg)) continue;
        const floor = svg.querySelector(".p-floor"),
          under = floor ? [rgb(getComputedStyle(floor).fill)] : [ground(svg)];
        for (const s of svg.querySelectorAll("path, rect, circle, polygon")) {
          if (s.matches(DECORATION) || s.closest("defs")) continue;
          const cs = getComputedStyle(s),
            inks = [cs.fill, cs.stroke]
              .filter((c) => c !== "none")
              .map(rgb)
              .filter((c) => c[3] > 128);
          const best = Math.min(...under.map((g) => Math.max(0, ...inks.map((c) => ratio(c, g)))));
          if (inks.length && best < SHAPE)
            found.add(
              `shape ${best.toFixed(2)}:1 ${s.getAttribute("class") ?? s.tagName} in ${svg.getAttribute("class")} (${short(svg.parentElement?.textContent)})`,
            );
        }
      }

      // the screen: the foot stands, something is left between head and foot, nothing lies over a word, the car is named
      const foot = document.querySelector(".foot")?.getBoundingClientRect();
      if (!foot || foot.bottom > innerHeight + 0.5) found.add("the foot is pushed out");
      if (frame && frame.height < 200) found.add(`only ${frame.height.toFixed(0)}px between head and foot`);
      if (body && body.scrollWidth > body.clientWidth + 1) found.add("scrolls sideways");
      for (const el of document.querySelectorAll(
        ".foot, .line, .keys, .head, .who, section, button, .caution, .lead, .trouble",
      ))
        if (shown(el) && el.clientWidth > 0 && el.scrollWidth > el.clientWidth + 1 && !el.matches(".hit"))
          found.add(`wider than its frame by ${el.scrollWidth - el.clientWidth}px: ${named(el)}`);
      for (const el of body?.querySelectorAll("*") ?? [])
        if (
          el.tagName !== "TEXTAREA" &&
          /auto|scroll/.test(getComputedStyle(el).overflowY) &&
          el.scrollHeight > el.clientHeight + 1
        )
          found.add(`scrolls inside what scrolls: ${short(el.textContent)}`);
      for (const el of document.querySelectorAll(
        ".body b, .body p, .body small, .body h1, .body h2, .body button, .foot button, .head button",
      )) {
        const r = el.getBoundingClientRect(),
          y = r.top + r.height / 2;
        if (
          !shown(el) ||
          !named(el) ||
          !el.textContent.trim() ||
          (el.closest(".body") && (y < frame.top + 1 || y > frame.bottom - 1))
        )
          continue;
        const top = document.elementFromPoint(r.left + r.width / 2, y);
        if (top && !top.closest(over) && !el.contains(top) && !top.contains(el))
          found.add(`covered: "${named(el)}" by ${named(top)}`);
      }
      if (car) {
        const head = short(document.querySelector(".head .mark, .carline")?.textContent).replace(/\s/g, "");
        if (!head.includes(car.number.replace(/\s/g, ""))) found.add(`does not say which car: "${head}"`);
        if (
          car.spot &&
          document.querySelector(".head .spotmark, .carline .spotmark")?.textContent !== car.spot
        )
          found.add("does not say where the car stands");
      }
      return {
        found: [...found],
        worst,
        scrolls: body ? Math.max(0, body.scrollHeight - body.clientHeight) : 0,
      };
    },
    { TOUCH, GLOVE, TEXT, SHAPE, NOT_GLOVE, DECORATION, car },
  );
