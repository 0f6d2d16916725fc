//! Slots: the names of what statements are about, such as `fitting/liquid_a/valve`.
//!
//! This module constructs every path ([`Slot`], with one constructor per kind of slot), defines the prefixes
//! that groups of paths share ([`under`]), and parses paths ([`SlotParts`]). Which statement belongs to which
//! slot is in the table in `statement`, and the content of slots in `view::slots`. Paths are signed with the
//! entry and are therefore frozen: `tests/golden/slots.txt` lists all that were ever written.

use std::borrow::Cow;
use std::fmt;
use std::ops::Deref;

use super::car_number::CarNumber;
use super::vocabulary::{
    ClockEvent, CoverPart, EmptySign, Fitting, Measured, Part, Place, Protection, Purpose, SealPlace,
    TestDate,
};
use crate::ids::{
    DefectId, DeviceId, Digest, EntryId, HoldId, IncidentId, LeakId, NoteId, OperatorId, VisitId,
};

/// The path of a slot. It dereferences to its text.
///
/// ```
/// use farsiding_core::entry::Slot;
/// use farsiding_core::entry::vocabulary::{Fitting, SealPlace};
///
/// assert_eq!(&*Slot::valve(Fitting::LiquidA), "fitting/liquid_a/valve");
/// assert_eq!(Slot::seal_found(SealPlace::HousingPin).to_string(), "seal/housing_pin/found");
/// ```
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Slot(Cow<'static, str>);

/// The common prefixes of paths that belong together, for searching all of them.
pub mod under {
    /// Late entries that were admitted.
    pub const ADMITTED: &str = "admitted/";
    /// Checks.
    pub const CHECKS: &str = "check/";
    /// Contacts.
    pub const CONTACTS: &str = "contact/";
    /// Defects, each with its authority's answer and its repair.
    pub const DEFECTS: &str = "defect/";
    /// Signs of remaining liquid, and the decision about it.
    pub const EMPTY: &str = "empty/";
    /// Final pressures, at any place.
    pub const FINAL_PRESSURES: &str = "reading/final/pressure/";
    /// Papers of cars that are expected at a site.
    pub const EXPECTED: &str = "expected/";
    /// Everything at a fitting.
    pub const FITTINGS: &str = "fitting/";
    /// Holds.
    pub const HOLDS: &str = "hold/";
    /// Incidents, each with its end and its closing.
    pub const INCIDENTS: &str = "incident/";
    /// Objects that were taken out.
    pub const ITEMS: &str = "item/";
    /// Statements whether two visits are one stay.
    pub const JOINED: &str = "joined/";
    /// Leaks, each with its check.
    pub const LEAKS: &str = "leak/";
    /// Notes for the next visit, each with what was done about it.
    pub const NEXT_TIME: &str = "next_time/";
    /// People.
    pub const OPERATORS: &str = "operator/";
    /// Confirmations and endings of persons' keys.
    pub const PERSON_KEYS: &str = "person_key/";
    /// Procedures of the organisation.
    pub const PROCEDURES: &str = "procedure/";
    /// Readings that have a single true value.
    pub const READINGS: &str = "reading/";
    /// Seals.
    pub const SEALS: &str = "seal/";
    /// Ranges of issued seals.
    pub const SEAL_STOCKS: &str = "seal_stock/";
    /// Series, whose points never disagree with one another.
    pub const SERIES: &str = "series/";
    /// Steps of the procedure.
    pub const STEPS: &str = "step/";
    /// What protects the track and the car.
    pub const PROTECTIONS: &str = "protection/";
}

impl Slot {
    /// The opening of the visit.
    pub const OPENED: Slot = Slot::named("opened");
    /// The shipping paper.
    pub const PAPER: Slot = Slot::named("paper");
    /// The housing's cover.
    pub const COVER: Slot = Slot::named("cover");
    /// The signing that the stay is fit to unload.
    pub const FIT_TO_UNLOAD: Slot = Slot::named("fit_to_unload");
    /// The last round of all closures.
    pub const LAST_ROUND: Slot = Slot::named("last_round");
    /// Items of gates that were overridden together.
    pub const OVERRIDDEN: Slot = Slot::named("series/overridden");
    /// The release of the car.
    pub const RELEASED: Slot = Slot::named("released");
    /// The decision whether the car is empty of liquid.
    pub const EMPTY_DECISION: Slot = Slot::named("empty/decision");
    /// The car number as read a second time.
    pub const CAR_NUMBER_AGAIN: Slot = Slot::named("car_number/again");
    /// The fittings under the housing.
    pub const CAR_FITTINGS: Slot = Slot::named("car/fittings");
    /// The shell's capacity.
    pub const CAR_CAPACITY: Slot = Slot::named("car/capacity");
    /// The shell's inside diameter.
    pub const CAR_DIAMETER: Slot = Slot::named("car/diameter");
    /// The owner's outage table.
    pub const OUTAGE_TABLE: Slot = Slot::named("car/outage_table");
    /// The profile of a site.
    pub const SITE: Slot = Slot::named("site");
    /// The rights of roles.
    pub const RULES: Slot = Slot::named("rules");
    /// Photographs.
    pub const PHOTOS: Slot = Slot::named("series/photo");
    /// Handovers of the car between people.
    pub const HANDOVERS: Slot = Slot::named("series/handover");
    /// Whether somebody attends the car.
    pub const ATTENDANCE: Slot = Slot::named("series/attendance");
    /// The words of whoever has the car that all is well.
    pub const CHECKED_IN: Slot = Slot::named("series/checked_in");
    /// The weather.
    pub const WEATHER: Slot = Slot::named("series/weather");
    /// Loads of trucks.
    pub const TRUCK_LOADS: Slot = Slot::named("series/truck_load");
    /// What receiving tanks showed before and after the transfer.
    pub const TANKS_GAUGED: Slot = Slot::named("series/tank_gauged");
    /// What the recovery of vapor is planned to reach.
    pub const RECOVERY_PLANNED: Slot = Slot::named("series/recovery_planned");
    /// Inspections by somebody from outside.
    pub const INSPECTIONS: Slot = Slot::named("series/inspection");
    /// When the car was left with nobody at it.
    pub const CAR_LEFT: Slot = Slot::named("series/car_left");
    /// Moves of the car during its stay.
    pub const CAR_MOVED: Slot = Slot::named("series/car_moved");
    /// How the car goes away.
    pub const OUTCOME: Slot = Slot::named("outcome");
    /// Remarks.
    pub const REMARKS: Slot = Slot::named("series/remark");
    /// The person who holds the phone.
    pub const HELD_BY: Slot = Slot::named("series/held_by");
    /// The empty path, for agreements and withdrawals, whose author states the slot.
    pub const NONE: Slot = Slot::named("");
    /// The final pressure at the car, on which its release depends.
    pub const FINAL_PRESSURE: Slot = Slot::named("reading/final/pressure/car");

    /// A slot with a fixed path.
    pub const fn named(path: &'static str) -> Slot {
        Slot(Cow::Borrowed(path))
    }

    /// Builds a path from its parts, for rows of the table that alone use it.
    pub(super) fn of(parts: &[&str]) -> Slot {
        Slot(Cow::Owned(parts.join("/")))
    }

    /// The slot of an event of the car's clock.
    pub fn clock(event: ClockEvent) -> Slot {
        Slot::of(&["clock", event.word()])
    }

    /// The slot of a reading. The purpose decides whether it has a single true value or is a series.
    pub fn reading(purpose: Purpose, measured: Measured, place: Place) -> Slot {
        let group = if purpose.has_one_truth() { "reading" } else { "series" };
        Slot::of(&[group, purpose.word(), measured.word(), place.word()])
    }

    /// The slot of a step of the procedure, including the fitting for a repeated step.
    pub fn step(step: &str) -> Slot {
        Slot::of(&["step", step])
    }

    /// The slot of a valve's position.
    pub fn valve(fitting: Fitting) -> Slot {
        Slot::of(&["fitting", fitting.word(), "valve"])
    }

    /// The slot of the state of a plug or cap.
    pub fn closure(fitting: Fitting) -> Slot {
        Slot::of(&["fitting", fitting.word(), "closure"])
    }

    /// The slot of what was heard at a fitting.
    pub fn listen(fitting: Fitting) -> Slot {
        Slot::of(&["fitting", fitting.word(), "listen"])
    }

    /// The slot of the line at a fitting.
    pub fn line(fitting: Fitting) -> Slot {
        Slot::of(&["fitting", fitting.word(), "line"])
    }

    /// The slot of the threads engaged at a fitting.
    pub fn threads(fitting: Fitting) -> Slot {
        Slot::of(&["fitting", fitting.word(), "threads"])
    }

    /// The slot of the torque at a fitting's valve or closure.
    pub fn effort(fitting: Fitting, part: Part) -> Slot {
        Slot::of(&["series/effort", fitting.word(), part.word()])
    }

    /// The slot of an object that was taken out; case and outer blanks of its name do not matter.
    pub fn item(item: &str) -> Slot {
        Slot::of(&["item", &item.trim().to_lowercase()])
    }

    /// The slot of a seal as applied or removed.
    pub fn seal(place: SealPlace) -> Slot {
        Slot::of(&["seal", place.word()])
    }

    /// The slot of a seal as found.
    pub fn seal_found(place: SealPlace) -> Slot {
        Slot::of(&["seal", place.word(), "found"])
    }

    /// The slot of a defect.
    pub fn defect(defect: &DefectId) -> Slot {
        Slot::of(&["defect", &defect.to_string()])
    }

    /// The slot of who was informed of a defect.
    pub fn forwarded(defect: &DefectId) -> Slot {
        Slot::of(&["series/forwarded", &defect.to_string()])
    }

    /// The slot of an authority's answer about a defect.
    pub fn authority(defect: &DefectId) -> Slot {
        Slot::of(&["defect", &defect.to_string(), "authority"])
    }

    /// The slot of a defect's repair.
    pub fn resolved(defect: &DefectId) -> Slot {
        Slot::of(&["defect", &defect.to_string(), "resolved"])
    }

    /// The slot of a hold.
    pub fn hold(hold: &HoldId) -> Slot {
        Slot::of(&["hold", &hold.to_string()])
    }

    /// The slot of an incident.
    pub fn incident(incident: &IncidentId) -> Slot {
        Slot::of(&["incident", &incident.to_string()])
    }

    /// The slot of the end of an incident's release.
    pub fn incident_stopped(incident: &IncidentId) -> Slot {
        Slot::of(&["incident", &incident.to_string(), "stopped"])
    }

    /// The slot of the closing of an incident.
    pub fn incident_closed(incident: &IncidentId) -> Slot {
        Slot::of(&["incident", &incident.to_string(), "closed"])
    }

    /// The slot of the calls and reports about an incident.
    pub fn incident_calls(incident: &IncidentId) -> Slot {
        Slot::of(&["series/incident_call", &incident.to_string()])
    }

    /// The slot of a leak.
    pub fn leak(leak: &LeakId) -> Slot {
        Slot::of(&["leak", &leak.to_string()])
    }

    /// The slot of the check of a leak.
    pub fn leak_checked(leak: &LeakId) -> Slot {
        Slot::of(&["leak", &leak.to_string(), "checked"])
    }

    /// The slot of a note for the next visit.
    pub fn next_time(note: &NoteId) -> Slot {
        Slot::of(&["next_time", &note.to_string()])
    }

    /// The slot of what was done about a note for the next visit.
    pub fn next_time_done(note: &NoteId) -> Slot {
        Slot::of(&["next_time", &note.to_string(), "done"])
    }

    /// The slot of how a valve turned.
    pub fn feel(fitting: Fitting) -> Slot {
        Slot::of(&["series/feel", fitting.word()])
    }

    /// The slot of the condition of a plug.
    pub fn plug(fitting: Fitting) -> Slot {
        Slot::of(&["series/plug", fitting.word()])
    }

    /// The slot of the condition of a part of the housing cover.
    pub fn cover_part(part: CoverPart) -> Slot {
        Slot::of(&["series/cover_part", part.word()])
    }

    /// The slot of the pressure in the hose at a fitting after it was drawn down.
    pub fn hose_pressure(fitting: Fitting) -> Slot {
        Slot::of(&["series/hose_pressure", fitting.word()])
    }

    /// The slot of a protection.
    pub fn protection(what: Protection) -> Slot {
        Slot::of(&["protection", what.word()])
    }

    /// The slot of a sign for or against remaining liquid.
    pub fn empty_sign(sign: EmptySign) -> Slot {
        Slot::of(&["empty", sign.word()])
    }

    /// The slot of a check; case and outer blanks of its name do not matter.
    pub fn check(what: &str) -> Slot {
        Slot::of(&["check", &what.trim().to_lowercase()])
    }

    /// The slot of whether another visit is the same stay.
    pub fn joined(other: &VisitId) -> Slot {
        Slot::of(&["joined", &other.to_string()])
    }

    /// The slot of a blocker that was passed over.
    pub fn passed_over(blocker: &str) -> Slot {
        Slot::of(&["passed_over", blocker])
    }

    /// The slot of a test date marked on the car.
    pub fn car_test(test: TestDate) -> Slot {
        Slot::of(&["car/test", test.word()])
    }

    /// The slot of a tank of the site.
    pub fn tank(name: &str) -> Slot {
        Slot::of(&["tank", name])
    }

    /// The slot of an instrument of the site.
    pub fn instrument(name: &str) -> Slot {
        Slot::of(&["instrument", name])
    }

    /// The slot of a hose of the site.
    pub fn hose(name: &str) -> Slot {
        Slot::of(&["hose", name])
    }

    /// The slot of the contact for a purpose.
    pub fn contact(role: &str) -> Slot {
        Slot::of(&["contact", role])
    }

    /// The slot of a range of issued seals, identified by its first number.
    pub fn seal_stock(from: &str) -> Slot {
        Slot::of(&["seal_stock", from])
    }

    /// The slot of a person.
    pub fn operator(operator: &OperatorId) -> Slot {
        Slot::of(&["operator", &operator.to_string()])
    }

    /// The slot of the removals of a person's name. Removals never disagree: each stands for its own names.
    pub fn name_forgotten(person: &OperatorId) -> Slot {
        Slot::of(&["series/name_forgotten", &person.to_string()])
    }

    /// The slot of a person's key as a phone offered it.
    pub fn person_key(key: &DeviceId) -> Slot {
        Slot::of(&["series/person_key", &key.to_string()])
    }

    /// The slot of the confirmation of a person's key.
    pub fn person_key_confirmed(key: &DeviceId) -> Slot {
        Slot::of(&["person_key", &key.to_string(), "confirmed"])
    }

    /// The slot of the ending of a person's key.
    pub fn person_key_ended(key: &DeviceId) -> Slot {
        Slot::of(&["person_key", &key.to_string(), "ended"])
    }

    /// The slot of an edition of the organisation's procedures.
    pub fn procedure(procedure: &Digest) -> Slot {
        Slot::of(&["procedure", &procedure.to_string()])
    }

    /// The slot of the paper by which a car is expected at a site.
    pub fn expected(car: &CarNumber) -> Slot {
        Slot::of(&["expected", &car.id().to_string()])
    }

    /// The slot of a late entry's admission.
    pub fn admitted(entry: &EntryId) -> Slot {
        Slot::of(&["admitted", &entry.to_string()])
    }

    /// The slot of a kind of statement that only later versions know.
    pub fn unrecognised(kind: &str) -> Slot {
        Slot::of(&["series/unrecognised", kind])
    }

    /// Returns the prefix of all paths at a fitting.
    pub fn under_fitting(fitting: Fitting) -> String {
        [under::FITTINGS, fitting.word(), "/"].concat()
    }

    /// Returns the path as text.
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// Returns true if the path is that of a series, whose points never disagree with one another.
    pub fn is_series(path: &str) -> bool {
        path.starts_with(under::SERIES)
    }
}

impl Deref for Slot {
    type Target = str;

    fn deref(&self) -> &str {
        &self.0
    }
}

impl fmt::Display for Slot {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl From<Slot> for String {
    fn from(slot: Slot) -> String {
        slot.0.into_owned()
    }
}

/// The parts of a path. Words are kept as they stand, because later versions may use unknown ones.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SlotParts<'p> {
    /// A path at a fitting.
    Fitting {
        /// The fitting's word.
        fitting: &'p str,
        /// The part: `valve`, `closure`, `listen`, `line` or `threads`.
        part: &'p str,
    },
    /// A reading that has a single true value.
    Reading {
        /// The purpose's word.
        purpose: &'p str,
        /// The word of the measured quantity.
        measured: &'p str,
        /// The place's word.
        place: &'p str,
    },
    /// A seal as applied or removed.
    Seal {
        /// The place's word.
        place: &'p str,
    },
    /// A defect itself.
    Defect {
        /// Its id.
        defect: &'p str,
    },
    /// A step of the procedure.
    Step {
        /// Its id.
        step: &'p str,
    },
    /// Whether another visit is the same stay.
    Joined {
        /// Its id.
        other: &'p str,
    },
    /// A slot identified by a name of its own: a protection, a check, an event of the clock, a fact of the
    /// car.
    One {
        /// Its name.
        what: &'p str,
    },
    /// Any other path.
    Other,
}

impl<'p> SlotParts<'p> {
    /// Parses a path.
    ///
    /// ```
    /// use farsiding_core::entry::{Slot, SlotParts};
    ///
    /// let at_valve = SlotParts::of("fitting/liquid_a/valve");
    /// assert_eq!(at_valve, SlotParts::Fitting { fitting: "liquid_a", part: "valve" });
    /// ```
    pub fn of(path: &'p str) -> SlotParts<'p> {
        if let Some(step) = path.strip_prefix(under::STEPS) {
            return SlotParts::Step { step };
        }
        if let Some(other) = path.strip_prefix(under::JOINED) {
            return SlotParts::Joined { other };
        }
        let parts: Vec<&str> = path.split('/').collect();
        match parts[..] {
            ["fitting", fitting, part] => SlotParts::Fitting { fitting, part },
            ["reading", purpose, measured, place] => SlotParts::Reading { purpose, measured, place },
            ["seal", place] => SlotParts::Seal { place },
            ["defect", defect] => SlotParts::Defect { defect },
            ["protection" | "check" | "clock" | "car", what] => SlotParts::One { what },
            _ => SlotParts::Other,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_path_is_taken_apart_into_the_words_it_was_made_of() {
        for fitting in Fitting::ALL {
            let all = [
                (Slot::valve(*fitting), "valve"),
                (Slot::closure(*fitting), "closure"),
                (Slot::listen(*fitting), "listen"),
                (Slot::line(*fitting), "line"),
                (Slot::threads(*fitting), "threads"),
            ];
            for (slot, part) in all {
                assert_eq!(SlotParts::of(&slot), SlotParts::Fitting { fitting: fitting.word(), part });
                assert!(slot.starts_with(&Slot::under_fitting(*fitting)));
            }
        }
        let reading = Slot::reading(Purpose::Final, Measured::Pressure, Place::Car);
        assert_eq!(reading, Slot::FINAL_PRESSURE);
        let parts = SlotParts::Reading { purpose: "final", measured: "pressure", place: "car" };
        assert_eq!(SlotParts::of(&reading), parts);
        let visit = VisitId([7; 16]);
        let (path, other) = (Slot::joined(&visit), visit.to_string());
        assert_eq!(SlotParts::of(&path), SlotParts::Joined { other: &other });
        assert_eq!(SlotParts::of(&Slot::step("bleed.liquid_a")), SlotParts::Step { step: "bleed.liquid_a" });
        assert_eq!(SlotParts::of(&Slot::check(" Odorant ")), SlotParts::One { what: "odorant" });
    }

    #[test]
    fn points_of_a_series_stand_in_a_series() {
        assert!(Slot::is_series(&Slot::reading(Purpose::Transfer, Measured::Pressure, Place::Car)));
        assert!(!Slot::is_series(&Slot::FINAL_PRESSURE));
    }
}
