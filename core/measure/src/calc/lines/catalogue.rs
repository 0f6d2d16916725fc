//! The list of formulas there are for scripts.
//!
//! `farsiding calc --list` prints this table; `lines::answer` reads a line against it. Does not live here: how one of
//! them is described (`schema`).

use super::schema::Formula;
use super::{judged, liquid, vapour, work};

/// Every formula, in the order they are listed.
pub fn catalogue() -> &'static [Formula] {
    &[
        liquid::CTL,
        liquid::RD60_FORMULA,
        liquid::CTL_METRIC,
        liquid::BASE_DENSITY,
        vapour::DENSITY_RATIO,
        liquid::OUTAGE_VOLUME,
        liquid::OUTAGE_TABLE,
        liquid::NET_VOLUME,
        liquid::WEIGHT,
        work::QUANTITY,
        liquid::OVER_SHORT,
        vapour::PSAT,
        vapour::TSAT,
        vapour::VAPOUR_DENSITY,
        vapour::SUPERHEAT,
        vapour::RESIDUE,
        work::ARRIVAL_PRESSURE,
        work::OVERFILL,
        work::RECEIVER_ROOM,
        work::TRANSFER_RATE,
        work::PUMP_DOWN,
        judged::LEAK_HOLD,
        judged::EMPTY_PROOF,
        judged::WEAR,
        judged::FREEZE,
    ]
}
