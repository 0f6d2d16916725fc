// What a screen is held to.

export const BOUNDS = {
  /** Pixels of a target's side. */
  TOUCH: 48,
  /** Pixels of the side of a target that is pressed at the car in gloves. */
  GLOVE: 72,
  /** The contrast of a word with its ground. */
  TEXT: 7,
  /** The contrast of a shape, and of a target's edge, with its ground. */
  SHAPE: 3,
  /** Pixels of the smallest text. */
  SMALLEST: 15.8,
  /**
   * Not done at the car in gloves: going back, what is only here, reading history, settings; and the openings
   * on the drawing, which are drawn to scale and are also reached by the next step.
   */
  NOT_GLOVE: ".back, .only, .hit, .unit, .inst, summary",
  /**
   * Drawn to be looked through, or a part whose outline is measured: the tank wall, passages, hatching, the
   * light core of a dark hose.
   */
  DECORATION: [
    ".icon-cut",
    ".p-hair",
    ".p-floor",
    ".p-wall",
    ".p-bar-on-solid",
    ".p-bar-hot",
    ".p-on-solid",
    ".p-hose-core",
    ".p-needle",
    ".s-metal",
    ".s-void",
    ".s-hair",
    ".s-band",
    ".s-bandline",
    ".s-cutline",
  ].join(", "),
  /** What comes and goes by itself over a screen. */
  OVER: ".told",
};
