// What the people of the played siding say, as statements of the record. All of it is invented.

export const LINES = ["liquid_a", "liquid_b", "vapour"];

export const amount = (value, unit) => ({ text: String(value), unit, value });

export const reading = (measured, place, purpose, value, unit, instrument) => ({
  reading: { measured, place, purpose, amount: amount(value, unit), ...(instrument ? { instrument } : {}) },
});

export const psi = (purpose, value, gauge = "Gauge 7") =>
  reading("pressure", "car", purpose, value, "psi", gauge);

/** Statements of one fitting, each as its kind and what more is said. */
export const fitted = (fitting, ...says) => says.map(([kind, more]) => ({ [kind]: { fitting, ...more } }));

/** A line that was shut, listened at, taken off and closed. */
export const shut = (fitting) =>
  fitted(
    fitting,
    ["valve", { position: "shut" }],
    ["listen", { heard: "quiet" }],
    ["line", { connected: false }],
    ["closure", { state: "tool_tight" }],
    ["effort", { part: "valve", amount: amount(31, "ft·lbf") }],
    ["threads", { engaged: amount(5.5, "turns") }],
  );

/** Lines that were opened, connected and put to use. */
export const opened = (...fittings) =>
  fittings.flatMap((fitting) =>
    fitted(
      fitting,
      ["closure", { state: "open" }],
      ["line", { connected: true }],
      ["valve", { position: "open" }],
    ),
  );

export const paper = (car) => ({
  paper: {
    car,
    un_number: "UN1978",
    product: "Propane",
    billed: amount(32650, "gal"),
    relative_density: amount(0.508, "1"),
    odorised: true,
    shipper: "Demo shipper",
  },
});

/** A car that was received. */
export const arrived = (car) => [
  paper(car),
  { car_number_again: { car } },
  { car_capacity: { capacity: amount(33700, "gal") } },
  { car_fittings: { fittings: [...LINES, "gauging_device", "thermometer_well", "sample_line"] } },
  { protection: { what: "blue_sign", set: true } },
  { protection: { what: "hand_brake", set: true } },
  psi("arrival", 118, "Gauge 2"),
  reading("temperature", "car", "arrival", 61, "°F", "Thermometer 1"),
  reading("outage", "car", "arrival", 14.25, "in"),
  { car_diameter: { diameter: amount(119, "in") } },
  reading("temperature", "air", "arrival", 64, "°F", "Thermometer 1"),
];

/** A car that was proven empty. */
export const proven = [
  reading("temperature", "car", "final", 58, "°F", "Thermometer 1"),
  { empty_sign: { sign: "rod_at_bottom", seen: true } },
  { empty_sign: { sign: "vapour_at_liquid_valve", seen: true } },
  { empty_sign: { sign: "frost_ring", seen: false } },
  reading("temperature", "car_low", "empty_proof", 58, "°F", "Thermometer 1"),
  psi("empty_proof", 29.4),
];

/** A car that was closed up and sealed. */
export const closed = [
  ...LINES.flatMap(shut),
  ...fitted(
    "sample_line",
    ["valve", { position: "shut" }],
    ["listen", { heard: "quiet" }],
    ["closure", { state: "tool_tight" }],
  ),
  ...["gauging_device", "thermometer_well"].flatMap((fitting) =>
    fitted(fitting, ["closure", { state: "tool_tight" }], ["threads", { engaged: amount(5, "turns") }]),
  ),
  psi("final", 4.2),
  { cover: { closed: true, pinned: true, bolts_in_place: 4, bolts_required: 4 } },
  { seal: { event: "applied", place: "housing_pin", number: "0042913", kind: "cable", intact: true } },
  { protection: { what: "blue_sign", set: false } },
];
