// The addresses of the phone's screens, as they stand behind the `#` of its address.
const encoded = encodeURIComponent;

export const carScreen = (visit, fitting = "") => `car/${visit}/${fitting}`;
export const formScreen = (visit, kind, about = "") => `form/${visit}/${encoded(`${kind}|${about}`)}`;
export const photoScreen = (visit, of = "other") => `photo/${visit}/${encoded(`${of}|`)}`;
/** The keypad for what is asked, e.g. `{ statement: "car_capacity" }`. */
export const figureScreen = (visit, asked) => `figure/${visit}/${encoded(JSON.stringify(asked))}`;

/** What the keypad asks for when it asks for a pressure at the car. */
export const pressureAsked = (purpose = "final") => ({
  statement: "reading",
  measured: "pressure",
  place: "car",
  purpose,
  unit: "psi",
});
export const pressureScreen = (visit, purpose) => figureScreen(visit, pressureAsked(purpose));
