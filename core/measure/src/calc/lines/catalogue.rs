//! The list of formulas available to scripts.
//!
//! `farsiding calc --list` prints this table, and `lines::answer` reads a line according to it. The
//! description of a formula is defined in `schema`.

use super::schema::Formula;
use super::{judged, liquid, vapour, work};

/// Returns every formula in the order of listing.
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
