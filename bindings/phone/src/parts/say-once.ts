/**
 * Recording by a tap on a drawing or its keys: one tap is one entry. Lives here: what a second tap does while
 * the first is being written, which is nothing.
 */
import type { Statement } from "../core/shapes";
import type { Shell } from "./context";

/** Says a statement of the visit that is shown; false when it was not recorded. */
export function sayOnce(shell: Shell): (statement: Statement) => Promise<boolean> {
  let busy = false;
  return async (statement) => {
    if (busy) return false;
    busy = true;
    try {
      return await shell.app.say(shell.visit, statement);
    } finally {
      busy = false;
    }
  };
}
