/**
 * The words for codes that stand in texts: a code is shown in the language that is spoken, what somebody
 * typed as they typed it. Lives here: which family of words a field's codes are in. The codes themselves are
 * the core's (`entry::coded`).
 */
import { own } from "./own-text";
import type { Say } from "./strings";

/** A code that is words of its own, such as "placards in place", as the end of an id. */
const ending = (text: string): string =>
  text
    .trim()
    .replace(/[^A-Za-z0-9]+/g, "_")
    .replace(/_$/, "");

const shown = (family: string, text: string, say: Say, as: Say | Say["capital"] = say.capital): string => {
  const id = `${family}-${ending(text)}`;
  return say.has(id) ? as(id) : own(text);
};
/** How somebody was told, in the middle of a sentence. */
export const toldShown = (how: string, say: Say): string => shown("told", how, say, say);
/** What is looked at. */
export const checkShown = (what: string, say: Say): string => shown("checked", what, say);
/** What an incident came from. */
export const sourceShown = (source: string, say: Say): string => shown("incident_source", source, say);
/** Where a leak is. */
export const leakAtShown = (at: string, say: Say): string => shown("leak_at", at, say);
/** Whom somebody told of an incident. */
export const calledShown = (to: string, say: Say): string => shown("called", to, say);
/** Whom a contact is for. */
export const roleShown = (role: string, say: Say): string => shown("contact_role", role, say);
/** What was taken out: a thing a procedure names, with its fitting behind it, or as typed. */
export const itemShown = (item: string, say: Say): string => {
  const [first = "", ...rest] = item.trim().split(" "),
    fitting = `fitting-${rest.join("_")}`;
  return first === "adapter" && say.has(fitting)
    ? say("item-at", { item: say.capital("item-adapter"), fitting: say(fitting) })
    : own(item);
};
