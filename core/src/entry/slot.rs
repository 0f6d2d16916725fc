//! Slots: the name of what a statement speaks about, such as `fitting/liquid_a/valve`.
//!
//! Lives here: how every path is made ([`Slot`], one constructor for each kind of slot), the beginnings that groups of
//! paths share ([`under`]), and how a path is taken apart again ([`SlotParts`]). Does not live here: which statement
//! speaks to which slot (the table in `statement`), what stands in a slot (`view::slots`). Paths are signed with the
//! entry, so they are frozen: `tests/golden/slots.txt` holds those that were ever written.

use std::borrow::Cow;
use std::fmt;
use std::ops::Deref;

use super::vocabulary::{
    ClockEvent, EmptySign, Fitting, Measured, Part, Place, Protection, Purpose, SealPlace, TestDate,
};
use crate::ids::{DefectId, DeviceId, EntryId, HoldId, OperatorId, VisitId};

/// The path of a slot. It reads as the text it is.
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

/// The beginnings of paths that belong together, for looking through all of them.
pub mod under {
    /// Late entries that were let in.
    pub const ADMITTED: &str = "admitted/";
    /// Checks.
    pub const CHECKS: &str = "check/";
    /// Whom to call.
    pub const CONTACTS: &str = "contact/";
    /// Defects, each with its authority and how it was put right.
    pub const DEFECTS: &str = "defect/";
    /// Signs of liquid and the decision about it.
    pub const EMPTY: &str = "empty/";
    /// Final pressures, wherever they were read.
    pub const FINAL_PRESSURES: &str = "reading/final/pressure/";
    /// Everything at a fitting.
    pub const FITTINGS: &str = "fitting/";
    /// Holds.
    pub const HOLDS: &str = "hold/";
    /// Things that were taken out.
    pub const ITEMS: &str = "item/";
    /// Visits that are, or are not, one stay.
    pub const JOINED: &str = "joined/";
    /// People.
    pub const OPERATORS: &str = "operator/";
    /// Whether a person's key was confirmed or is over.
    pub const PERSON_KEYS: &str = "person_key/";
    /// Readings that have one truth.
    pub const READINGS: &str = "reading/";
    /// Seals.
    pub const SEALS: &str = "seal/";
    /// Seals that were issued.
    pub const SEAL_STOCKS: &str = "seal_stock/";
    /// Series: points that never disagree with one another.
    pub const SERIES: &str = "series/";
    /// Steps of the procedure.
    pub const STEPS: &str = "step/";
}

impl Slot {
    /// How the visit began.
    pub const OPENED: Slot = Slot::named("opened");
    /// The shipping paper.
    pub const PAPER: Slot = Slot::named("paper");
    /// The housing's cover.
    pub const COVER: Slot = Slot::named("cover");
    /// Whether the car is released.
    pub const RELEASED: Slot = Slot::named("released");
    /// Whether the car is taken as empty of liquid.
    pub const EMPTY_DECISION: Slot = Slot::named("empty/decision");
    /// The number as read a second time.
    pub const CAR_NUMBER_AGAIN: Slot = Slot::named("car_number/again");
    /// What is under the housing.
    pub const CAR_FITTINGS: Slot = Slot::named("car/fittings");
    /// The shell's capacity.
    pub const CAR_CAPACITY: Slot = Slot::named("car/capacity");
    /// The shell's inside diameter.
    pub const CAR_DIAMETER: Slot = Slot::named("car/diameter");
    /// The owner's outage table.
    pub const OUTAGE_TABLE: Slot = Slot::named("car/outage_table");
    /// What a site is.
    pub const SITE: Slot = Slot::named("site");
    /// What roles may do.
    pub const RULES: Slot = Slot::named("rules");
    /// Photographs.
    pub const PHOTOS: Slot = Slot::named("series/photo");
    /// Who gave the car over and who took it.
    pub const HANDOVERS: Slot = Slot::named("series/handover");
    /// Whether somebody is with the car.
    pub const ATTENDANCE: Slot = Slot::named("series/attendance");
    /// The weather.
    pub const WEATHER: Slot = Slot::named("series/weather");
    /// What went into trucks.
    pub const TRUCK_LOADS: Slot = Slot::named("series/truck_load");
    /// Remarks.
    pub const REMARKS: Slot = Slot::named("series/remark");
    /// Who holds the phone.
    pub const HELD_BY: Slot = Slot::named("series/held_by");
    /// No slot of its own: the author of an agreement or a withdrawal says what it speaks about.
    pub const NONE: Slot = Slot::named("");
    /// The final pressure at the car, which decides whether it may go.
    pub const FINAL_PRESSURE: Slot = Slot::named("reading/final/pressure/car");

    /// A slot that is the only one of its kind.
    pub const fn named(path: &'static str) -> Slot {
        Slot(Cow::Borrowed(path))
    }

    /// A slot that nothing but the row of its kind speaks of.
    pub(super) fn of(parts: &[&str]) -> Slot {
        Slot(Cow::Owned(parts.join("/")))
    }

    /// An event of the car's clock.
    pub fn clock(event: ClockEvent) -> Slot {
        Slot::of(&["clock", event.word()])
    }

    /// A reading: of one truth, or a point of a series, as its purpose has it.
    pub fn reading(purpose: Purpose, measured: Measured, place: Place) -> Slot {
        let group = if purpose.has_one_truth() { "reading" } else { "series" };
        Slot::of(&[group, purpose.word(), measured.word(), place.word()])
    }

    /// A step of the procedure, with its fitting where it repeats.
    pub fn step(step: &str) -> Slot {
        Slot::of(&["step", step])
    }

    /// Where a valve stands.
    pub fn valve(fitting: Fitting) -> Slot {
        Slot::of(&["fitting", fitting.word(), "valve"])
    }

    /// How far a plug or cap is in.
    pub fn closure(fitting: Fitting) -> Slot {
        Slot::of(&["fitting", fitting.word(), "closure"])
    }

    /// What was heard at a fitting.
    pub fn listen(fitting: Fitting) -> Slot {
        Slot::of(&["fitting", fitting.word(), "listen"])
    }

    /// The line on a fitting.
    pub fn line(fitting: Fitting) -> Slot {
        Slot::of(&["fitting", fitting.word(), "line"])
    }

    /// Threads engaged at a fitting.
    pub fn threads(fitting: Fitting) -> Slot {
        Slot::of(&["fitting", fitting.word(), "threads"])
    }

    /// Torque at a fitting's valve or closure.
    pub fn effort(fitting: Fitting, part: Part) -> Slot {
        Slot::of(&["series/effort", fitting.word(), part.word()])
    }

    /// A thing taken out: the same however its name is written.
    pub fn item(item: &str) -> Slot {
        Slot::of(&["item", &item.trim().to_lowercase()])
    }

    /// A seal as it is put on or taken off.
    pub fn seal(place: SealPlace) -> Slot {
        Slot::of(&["seal", place.word()])
    }

    /// A seal as it was found.
    pub fn seal_found(place: SealPlace) -> Slot {
        Slot::of(&["seal", place.word(), "found"])
    }

    /// A defect.
    pub fn defect(defect: &DefectId) -> Slot {
        Slot::of(&["defect", &defect.to_string()])
    }

    /// Who was told of a defect.
    pub fn forwarded(defect: &DefectId) -> Slot {
        Slot::of(&["series/forwarded", &defect.to_string()])
    }

    /// What an authority answered about a defect.
    pub fn authority(defect: &DefectId) -> Slot {
        Slot::of(&["defect", &defect.to_string(), "authority"])
    }

    /// How a defect was put right.
    pub fn resolved(defect: &DefectId) -> Slot {
        Slot::of(&["defect", &defect.to_string(), "resolved"])
    }

    /// A hold.
    pub fn hold(hold: &HoldId) -> Slot {
        Slot::of(&["hold", &hold.to_string()])
    }

    /// A protection.
    pub fn protection(what: Protection) -> Slot {
        Slot::of(&["protection", what.word()])
    }

    /// A sign that liquid is or is not left.
    pub fn empty_sign(sign: EmptySign) -> Slot {
        Slot::of(&["empty", sign.word()])
    }

    /// A check: the same however its name is written.
    pub fn check(what: &str) -> Slot {
        Slot::of(&["check", &what.trim().to_lowercase()])
    }

    /// Whether another visit is the same stay.
    pub fn joined(other: &VisitId) -> Slot {
        Slot::of(&["joined", &other.to_string()])
    }

    /// A blocker that was passed over.
    pub fn passed_over(blocker: &str) -> Slot {
        Slot::of(&["passed_over", blocker])
    }

    /// A test date marked on the car.
    pub fn car_test(test: TestDate) -> Slot {
        Slot::of(&["car/test", test.word()])
    }

    /// A tank of the site.
    pub fn tank(name: &str) -> Slot {
        Slot::of(&["tank", name])
    }

    /// An instrument of the site.
    pub fn instrument(name: &str) -> Slot {
        Slot::of(&["instrument", name])
    }

    /// A hose of the site.
    pub fn hose(name: &str) -> Slot {
        Slot::of(&["hose", name])
    }

    /// Whom to call for what.
    pub fn contact(role: &str) -> Slot {
        Slot::of(&["contact", role])
    }

    /// A range of seals that was issued, by its first number.
    pub fn seal_stock(from: &str) -> Slot {
        Slot::of(&["seal_stock", from])
    }

    /// A person.
    pub fn operator(operator: &OperatorId) -> Slot {
        Slot::of(&["operator", &operator.to_string()])
    }

    /// A person's key as a phone offered it.
    pub fn person_key(key: &DeviceId) -> Slot {
        Slot::of(&["series/person_key", &key.to_string()])
    }

    /// Whether a person's key was confirmed.
    pub fn person_key_confirmed(key: &DeviceId) -> Slot {
        Slot::of(&["person_key", &key.to_string(), "confirmed"])
    }

    /// Whether a person's key is over.
    pub fn person_key_ended(key: &DeviceId) -> Slot {
        Slot::of(&["person_key", &key.to_string(), "ended"])
    }

    /// A late entry that was let in.
    pub fn admitted(entry: &EntryId) -> Slot {
        Slot::of(&["admitted", &entry.to_string()])
    }

    /// A kind of statement that a later version may know.
    pub fn unrecognised(kind: &str) -> Slot {
        Slot::of(&["series/unrecognised", kind])
    }

    /// What every path at a fitting begins with.
    pub fn under_fitting(fitting: Fitting) -> String {
        [under::FITTINGS, fitting.word(), "/"].concat()
    }

    /// The path.
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// Whether the path is that of a series, whose points never disagree with one another.
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

/// A path taken apart. The words in it are as they stand: a later version may write words that are unknown here.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SlotParts<'p> {
    /// Something at a fitting.
    Fitting {
        /// The fitting's word.
        fitting: &'p str,
        /// What of it: `valve`, `closure`, `listen`, `line`, `threads`.
        part: &'p str,
    },
    /// A reading that has one truth.
    Reading {
        /// The purpose's word.
        purpose: &'p str,
        /// The word of what is measured.
        measured: &'p str,
        /// The place's word.
        place: &'p str,
    },
    /// A seal, as put on or taken off.
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
    /// One thing of a kind that is known by its own name: a protection, a check, an event of the clock, a fact of the car.
    One {
        /// Its name.
        what: &'p str,
    },
    /// Any other.
    Other,
}

impl<'p> SlotParts<'p> {
    /// Takes a path apart.
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
