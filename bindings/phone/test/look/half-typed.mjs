// What is half typed on the screens that are looked at, as a call, a reload or a flat battery would leave it.
import { ASKED } from "./screens.mjs";

/** Keeps the drafts on the phone. */
export async function leavesHalfTyped(phone, visits) {
  for (const [key, fields] of Object.entries(draftsOf(visits)))
    await phone.asks("setDraft", key, JSON.stringify(fields));
  await phone.asks("setDraft", "/find", "104");
  await phone.asks("setDraft", `${visits.main}/tally`, "Adapter 3");
}

function draftsOf({ main, moving, held, ready }) {
  const figure = (visit, slot) => `${visit}/figure/${slot}`;
  return {
    [figure(main, ASKED.final)]: { typed: "4.2" },
    [figure(moving, ASKED.final)]: { typed: "38", instrument: "Gauge 7" },
    [figure(moving, ASKED.outage)]: { typed: "16.5" },
    [figure(main, ASKED.cold)]: { typed: "-12.5" },
    [figure(main, ASKED.effort)]: { typed: "72" },
    [figure(main, ASKED.threads)]: { typed: "1" },
    [figure(held, ASKED.truckLoad)]: { typed: "8750", word: "Truck 4" },
    [`${main}/seal`]: { number: "0042913", again: "0042918", kind: "cable" },
    [`${ready}/seal`]: { number: "0042913", again: "0042913", kind: "cable", place: "housing_pin" },
    "/new": { mark: "QZQX", number: "104417", again: "104417", spot: "Track 2, spot 6", receiver: "truck" },
    [`${main}/defect/liquid_b`]: { what: "Valve stem bent, wheel rubs on the wall", approval: "yes" },
    [`${main}/form/pass|closure_not_tool_tight.liquid_b`]: {
      why: "Plug seats by hand only; the owner knows",
    },
  };
}
