// The addresses of the phone's screens, as they stand behind the `#` of its address.
const encoded = encodeURIComponent;

export const carScreen = (visit, fitting = "") => `car/${visit}/${fitting}`;
export const formScreen = (visit, kind, about = "") => `form/${visit}/${encoded(`${kind}|${about}`)}`;
export const photoScreen = (visit, of = "other") => `photo/${visit}/${encoded(`${of}|`)}`;
/** The keypad for what is answered in a slot, e.g. `car/capacity`. */
export const figureScreen = (visit, slot) => `figure/${visit}/${encoded(slot)}`;

/** The slot of a pressure at the car. Only the final one has one truth; the others are points of a series. */
export const pressureAsked = (purpose = "final") =>
  `${purpose === "final" ? "reading" : "series"}/${purpose}/pressure/car`;
export const pressureScreen = (visit, purpose) => figureScreen(visit, pressureAsked(purpose));
