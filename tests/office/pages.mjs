// The office's pages as a person at the office meets them, in a real browser over the demonstration's
// records. Everything in those records is invented. The stories share one played office and are told in this
// order.
import "./stories/demonstration.mjs";
import "./stories/day.mjs";
import "./stories/packet.mjs";
import "./stories/settlement.mjs";
import "./stories/inquiry.mjs";
import "./stories/inspector.mjs";
import "./stories/devices.mjs";
import "./stories/papers.mjs";
import "./stories/procedures.mjs";
import "./stories/revoked.mjs";
import "./stories/sign-out.mjs";
import "./stories/without-script.mjs";
import "./stories/second-factor.mjs";
import "./stories/looks.mjs";
import "./stories/languages.mjs";
import "./stories/damage.mjs";
