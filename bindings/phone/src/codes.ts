/**
 * The words for codes that stand in texts: a code is shown in the phone's language, what somebody typed as
 * they typed it. Lives here: which catalogue a field's codes are in. The codes themselves are the core's
 * (`entry::coded`).
 */
import { own } from "./own-text";
import { has, type Say } from "./strings";

const shown = (catalogue: string, text: string, say: Say): string => {
  const key = `${catalogue}.${text.trim()}`;
  return has(key) ? say(key) : own(text);
};
/** How somebody was told. */
export const toldShown = (how: string, say: Say): string => shown("how", how, say);
/** What is looked at. */
export const checkShown = (what: string, say: Say): string => shown("check", what, say);
/** Whom a contact is for. */
export const roleShown = (role: string, say: Say): string => shown("role", role, say);
/** What was taken out: a thing a procedure names, with its fitting behind it, or as typed. */
export const itemShown = (item: string, say: Say): string => {
  const [first = "", ...rest] = item.trim().split(" "),
    fitting = `fitting.${rest.join("_")}`;
  return first === "adapter" && has(fitting) ? `${say("item.adapter")}: ${say(fitting)}` : own(item);
};
