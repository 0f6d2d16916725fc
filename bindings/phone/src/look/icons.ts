/**
 * Icons: our own drawings on a 24 grid, stroke 2.2, inherit the text colour. Never shown without a word
 * beside them, except back, close and delete, which carry an aria-label.
 */
const LINE =
  'fill="none" stroke="currentColor" stroke-width="2.2" stroke-linecap="square" stroke-linejoin="miter"';
const draw = (d: string, extra = "") =>
  `<svg class="icon" viewBox="0 0 24 24" ${LINE} aria-hidden="true" focusable="false">` +
  `<path d="${d}"/>${extra}</svg>`;
const solid = (d: string) => `<path d="${d}" fill="currentColor" stroke="none"/>`;
export const icons = {
  back: draw("M15 4L7 12l8 8"),
  forward: draw("M9 4l8 8-8 8"),
  down: draw("M4 9l8 8 8-8"),
  close: draw("M5 5l14 14M19 5L5 19"),
  erase: draw("M9 5h12v14H9L2 12zM12 9l6 6M18 9l-6 6"),
  tick: draw("M4 12l6 6L20 6"),
  plus: draw("M12 4v16M4 12h16"),
  minus: draw("M4 12h16"),
  threads: draw("M6 20L9 4M11 20l3-16M16 20l3-16"),
  more: draw("M4 6h16M4 12h16M4 18h16"),
  print: draw("M7 9V3h10v6M4 9h16v8h-3M7 17H4V9M7 13h10v8H7z"),
  turn: draw("M4 9a9 9 0 0 1 15-2M20 15a9 9 0 0 1-15 2M19 2v5h-5M5 22v-5h5"),
  ear: draw("M8 9a5 5 0 0 1 10 0c0 4-4 4-4 8a3 3 0 0 1-6 1"),
  /** An ear and a flat line: nothing comes. */
  quiet: draw("M2.5 8a4.5 4.5 0 0 1 9 0c0 4-3.5 4-3.5 8a3 3 0 0 1-5 2M15 12h7"),
  /** An ear and a jagged line: something passes. */
  hiss: draw("M2.5 8a4.5 4.5 0 0 1 9 0c0 4-3.5 4-3.5 8a3 3 0 0 1-5 2M14 9l2.5 6 2-8 2 7 2-4"),
  wrench: draw("M14 9L4 19l2 2L16 11M14 9a4 4 0 0 1 4-6l-2 3 2 2 3-2a4 4 0 0 1-5 5"),
  hand: draw("M7 20v-6L4 10l2-1 3 3V4h2v7V3h2v8V4h2v8V7h2v9l-3 5z"),
  plug_out: draw("M3 6h9M3 18h9", solid("M17 8h4v8h-4z")),
  plug_hand: draw("M3 6h8M3 18h8M14 4h6v16h-6z", solid("M14 12h6v8h-6z")),
  plug_tight: draw("M3 6h9M3 18h9", solid("M11 3h9v18h-9z")),
  valve_open: draw("M12 3a9 9 0 1 0 .01 0zM1 12h22"),
  valve_shut: draw(
    "M12 12",
    '<circle cx="12" cy="12" r="9" fill="currentColor"/>' +
      '<path class="icon-cut" d="M12 2v20" stroke="var(--icon-cut, var(--plate))" stroke-width="3.6"/>',
  ),
  caution: draw("M12 3L22 21H2z", `<path d="M12 10v5M12 17.600v1"/>`),
  stop: draw("M8 2h8l6 6v8l-6 6H8l-6-6V8zM7 12h10"),
  /** The housing seen from above: where the plan is. */
  plan: draw("M12 2.500a9.500 9.500 0 1 0 .01 0zM7 12h.01M17 12h.01M12 7h.01M12 17h.01"),
  skip: draw("M4 5l8 7-8 7zM14 5l8 7-8 7"),
  law: draw("M3 3h18v18H3z", `<path d="M7 8h10M7 12h10M7 16h6"/>`),
  practice: draw("M12 3a4 4 0 1 0 .01 0zM4 21c0-6 3-9 8-9s8 3 8 9"),
  camera: draw("M2 7h5l2-3h6l2 3h5v13H2zM12 10a3.5 3.5 0 1 0 .01 0z"),
  clock: draw("M12 3a9 9 0 1 0 .01 0zM12 7v5l4 3"),
  phone: draw("M7 2h10v20H7zM11 18.5h2"),
  office: draw("M3 21V9l9-6 9 6v12zM9 21v-7h6v7"),
  call: draw("M5 3l4 1 1 5-3 2c1 3 3 5 6 6l2-3 5 1 1 4c-9 4-20-7-16-16z"),
  differ: draw("M3 5h8v14H3zM13 5h8v14h-8z", solid("M13 12h8v7h-8z")),
  seal: draw("M12 13C4 11 5 3 12 3s8 8 0 10zM8 13h8v8H8z"),
  tally: draw("M5 4v16M9 4v16M13 4v16M17 4v16M2 17L21 7"),
  gauge: draw("M3 17a9 9 0 1 1 18 0M12 17l5-7", solid("M12 14.500a2.5 2.5 0 1 0 .01 0z")),
  car: draw("M2 9q0-2 2-2h16q2 0 2 2v5q0 2-2 2H4q-2 0-2-2zM9 7V4h6v3M6 16v3M18 16v3M1 21h22"),
  find: draw("M10 3a7 7 0 1 0 .01 0zM15.5 15.5L21 21"),
  carry: draw("M4 12v9h16v-9M12 3v12M7 8l5-5 5 5"),
  person: draw("M12 3a4 4 0 1 0 .01 0zM4 21c0-6 3-9 8-9s8 3 8 9"),
  hold: draw("M8 2h8l6 6v8l-6 6H8l-6-6V8zM9 8v8M15 8v8"),
  cover: draw("M2 20h20M4 20v-5h16v5M5 11L19 3"),
  scan: draw("M3 8V3h5M16 3h5v5M21 16v5h-5M8 21H3v-5M3 12h18"),
  back_in: draw("M4 12v9h16v-9M12 3v12M7 11l5 5 5-5"),
  take_in: draw("M4 12v9h16v-9M12 3v12M7 11l5 5 5-5"),
  this_record: draw("M5 3h14v18H5zM9 8h6M9 12h6"),
  dot: draw("M12 7a5 5 0 1 0 .01 0z"),
  half: draw("M12 5a7 7 0 1 0 .01 0z", solid("M12 5a7 7 0 0 1 0 14z")),
  away: draw("M9 3a4 4 0 1 0 .01 0zM2 21c0-6 3-9 7-9M14 16h8M18 12l4 4-4 4"),
  weather: draw(
    "M7 14a4 4 0 0 1 .5-8 5.5 5.5 0 0 1 10.500 2A3.500 3.500 0 0 1 17 14zM8 18l-1 3M13 18l-1 3M18 18l-1 3",
  ),
  truck: draw("M1 6h13v11H1zM14 10h5l4 4v3h-9M6 17v3M18 17v3"),
  hose_on: draw("M2 12h6M8 7v10M12 7v10M12 12h10"),
  hose_off: draw("M2 12h4M6 7v10M15 7v10M15 12h7"),
  language: draw(
    "M12 2.500a9.500 9.500 0 1 0 .01 0zM2.500 12h19M12 2.500q-8 9.500 0 19M12 2.500q8 9.500 0 19",
  ),
  sun: draw(
    "M12 7.5a4.5 4.5 0 1 0 .01 0zM12 1v2M12 21v2M1 12h2M21 12h2" +
      "M4 4l1.5 1.5M18.5 18.5L20 20M20 4l-1.5 1.5M5.5 18.5L4 20",
  ),
  auto: draw("M12 3a9 9 0 1 0 .01 0z", solid("M12 3a9 9 0 0 1 0 18z")),
  moon: draw("M19 15A8 8 0 1 1 10 4a7 7 0 0 0 9 11z"),
} as const;
export type IconName = keyof typeof icons;
