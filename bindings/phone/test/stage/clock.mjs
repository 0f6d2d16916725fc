// Clocks that are wrong, as code that is put before a script of the app.

/** A clock that is ahead by so many milliseconds, for a page or a worker. */
export const clockAhead = (ms) => `{
  const Real = Date;
  globalThis.Date = class extends Real {
    constructor(...given) {
      if (given.length) super(...given);
      else super(Real.now() + ${ms});
    }
    static now() {
      return Real.now() + ${ms};
    }
  };
}
`;

/**
 * A worker's clock that is set back by a message `{ back: milliseconds }`, so that what happened hours ago is
 * recorded so.
 */
export const CLOCK_SET_BACK = `{
  const Real = Date;
  let back = 0;
  addEventListener("message", (event) => {
    if (event.data.back === undefined) return;
    back = event.data.back;
    event.stopImmediatePropagation();
  });
  self.Date = class extends Real {
    constructor(...given) {
      if (given.length) super(...given);
      else super(Real.now() - back);
    }
    static now() {
      return Real.now() - back;
    }
  };
}
`;
