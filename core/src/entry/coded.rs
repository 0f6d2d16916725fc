//! Texts that hold a code where one exists, and free text otherwise: the choices that a shell offers, next to
//! what somebody types.
//!
//! A shell signs the code and shows it in its user's language, so every reader of the record sees the same
//! meaning. Free text stays as typed, and so does the text in older entries. On the wire both are one text,
//! so an entry made before its code existed reads the same as before. This module holds [`Coded`] and the
//! vocabularies of such fields. Codes are frozen like all wire words: they may be added but not renamed.

use std::borrow::Cow;
use std::fmt;

use serde::{Deserialize, Deserializer, Serialize, Serializer};

use super::vocabulary::words;
pub use super::vocabulary::{Called, IncidentSource, LeakAt, LeavesAs, Measured, SealKind};
use crate::{Message, message};

/// A code that may stand in a text field.
pub trait Code: Copy {
    /// Returns the code as it stands in an entry.
    fn text(self) -> Cow<'static, str>;
    /// Returns the code in plain English, for pages and packets.
    fn spoken(self) -> String;
    /// Returns the code as a message.
    fn message(self) -> Message;
    /// Parses the code. Only the exact text is accepted.
    fn read(text: &str) -> Option<Self>;
}

/// A code, or text that somebody typed.
#[derive(Clone, Debug, PartialEq, Eq)]
#[cfg_attr(test, derive(ts_rs::TS), ts(type = "string", concrete(C = Checked)))]
pub enum Coded<C> {
    /// A code of the vocabulary.
    Code(C),
    /// Text as typed.
    Typed(String),
}

impl<C: Code> Coded<C> {
    /// Reads a text of an entry: the code if it is one, otherwise text as typed.
    pub fn read(text: &str) -> Coded<C> {
        C::read(text).map_or_else(|| Coded::Typed(text.to_owned()), Coded::Code)
    }

    /// Reads a text that a person typed on a command line or a page. Capital letters, commas and hyphens are
    /// ignored in the search for a code; a text that is no code stays exactly as typed.
    pub fn typed(text: &str) -> Coded<C> {
        let blanks: String = text.to_lowercase().replace([',', ';'], " ");
        let blanks = blanks.split_whitespace().collect::<Vec<_>>().join(" ");
        let joined = blanks.replace([' ', '-'], "_");
        C::read(&blanks)
            .or_else(|| C::read(&joined))
            .map_or_else(|| Coded::Typed(text.to_owned()), Coded::Code)
    }

    /// Returns the text as it stands in an entry.
    pub fn text(&self) -> Cow<'_, str> {
        match self {
            Coded::Code(code) => code.text(),
            Coded::Typed(text) => Cow::Borrowed(text),
        }
    }

    /// Returns a code in English, and other text as typed.
    pub fn spoken(&self) -> Cow<'_, str> {
        match self {
            Coded::Code(code) => Cow::Owned(code.spoken()),
            Coded::Typed(text) => Cow::Borrowed(text),
        }
    }

    /// Returns a code as a message, and other text as typed.
    pub fn message(&self) -> Message {
        match self {
            Coded::Code(code) => code.message(),
            Coded::Typed(text) => Message::typed(text.trim()),
        }
    }

    /// Returns true if the text is empty.
    pub fn is_empty(&self) -> bool {
        self.text().is_empty()
    }
}

impl<C> Default for Coded<C> {
    fn default() -> Coded<C> {
        Coded::Typed(String::new())
    }
}

impl<C: Code> From<&str> for Coded<C> {
    fn from(text: &str) -> Coded<C> {
        Coded::read(text)
    }
}

impl<C: Code> From<String> for Coded<C> {
    fn from(text: String) -> Coded<C> {
        C::read(&text).map_or(Coded::Typed(text), Coded::Code)
    }
}

/// Writes a code in English, and other text as typed.
impl<C: Code> fmt::Display for Coded<C> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.spoken())
    }
}

impl<C: Code> Serialize for Coded<C> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.text())
    }
}

impl<'de, C: Code> Deserialize<'de> for Coded<C> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Coded<C>, D::Error> {
        String::deserialize(deserializer).map(Coded::from)
    }
}

macro_rules! code {
    ($($name:ident),+) => { $(
        impl Code for $name {
            fn text(self) -> Cow<'static, str> { Cow::Borrowed(self.word()) }
            fn spoken(self) -> String { $name::spoken(self) }
            fn message(self) -> Message { self.term() }
            fn read(text: &str) -> Option<$name> { $name::read(text) }
        }
    )+ };
}
code!(Told, OverrideReason, SealNote, ContactRole, Checked, Measured, SealKind);
code!(Called, IncidentSource, LeakAt, LeavesAs);

words!(
    /// How somebody was informed of a defect.
    Told as "told" {
        /// By voice: face to face, by telephone or radio.
        Voice = "voice",
        /// In writing.
        Writing = "writing",
    }
);
words!(
    /// Why items of a gate were overridden. Anything else is typed.
    OverrideReason as "override_reason" {
        /// It was done, and nobody made an entry at the time.
        DoneNotRecorded = "done_not_recorded",
        /// This car or site does not have what the item asks about.
        NotHere = "not_here",
        /// It was shown by other means, such as another instrument or a paper.
        OtherMeans = "other_means",
        /// The owner or the shipper said to go on.
        OwnerSaysSo = "owner_says_so",
        /// It cannot be done now, it was reported, and somebody else takes it over.
        Reported = "reported",
    }
);
words!(
    /// A remark about a seal that can be chosen without typing.
    SealNote as "seal_note" {
        /// No seal was found where one was expected.
        NoSealFound = "no_seal_found",
    }
);
words!(
    /// The purpose for which somebody is called.
    ContactRole as "contact_role" {
        /// To be called in an emergency.
        Emergency = "emergency",
        /// The carrier.
        Carrier = "carrier",
        /// The organisation's own office.
        Office = "office",
    }
);
words!(
    /// The checks that procedures and shells ask for. These codes contain blanks because they were in use as
    /// names before they became codes.
    Checked as "checked" {
        /// The relief device.
        ReliefDevice = "relief device",
        /// Hoses: service and test date.
        Hoses = "hoses: service and test date",
        /// The outside of the car.
        Outside = "outside of the car",
        /// Odorant.
        Odorant = "odorant",
        /// Room in the truck.
        RoomInTruck = "room in the truck",
        /// No tools left under the housing.
        NoTools = "no tools under the housing",
        /// Lines are clear of the car.
        LinesClear = "lines clear of the car",
        /// The outside of the car before it is offered.
        OutsideBeforeOffered = "outside of the car, before it is offered",
        /// The paper for the residue is made out.
        ResiduePaper = "residue paper made out",
        /// The paper for the load that the car keeps is made out.
        LoadedPaper = "loaded_paper",
        /// Placards are in place.
        Placards = "placards in place",
        /// The signs of empty that show at the plant.
        PlantSigns = "plant_signs",
        /// Plant valves are closed and hoses put away.
        PlantClosed = "plant_closed",
        /// Platform and ladder are up, and nothing is left on the car.
        PlatformUp = "platform_up",
        /// The liquid trap before the compressor is drained.
        TrapDrained = "trap_drained",
        /// The number on the car was read there and is the one on the paper that the office sent; nobody typed it.
        NumberAsOnPaper = "number_as_on_paper",
    }
);
words!(
    /// The direction the wind comes from.
    WindFrom as "wind_from" {
        /// North.
        North = "n",
        /// North-east.
        NorthEast = "ne",
        /// East.
        East = "e",
        /// South-east.
        SouthEast = "se",
        /// South.
        South = "s",
        /// South-west.
        SouthWest = "sw",
        /// West.
        West = "w",
        /// North-west.
        NorthWest = "nw",
    }
);
words!(
    /// The strength of the wind as a person feels it.
    WindForce as "wind_force" {
        /// No movement of air.
        Still = "still",
        /// Felt on the face.
        Light = "light",
        /// Lifts paper and dust.
        Fresh = "fresh",
        /// Hard to walk against.
        Strong = "strong",
    }
);
words!(
    /// An object that a procedure has taken out and that must be put back. In an entry the code is followed
    /// by the fitting's word with blanks: `adapter liquid a`.
    Item as "item" {
        /// An adapter on a fitting.
        Adapter = "adapter",
    }
);

/// The wind as chosen from a list: its direction, its strength, or both. An entry contains `nw light`, people
/// read "NW, light".
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Wind {
    from: Option<WindFrom>,
    force: Option<WindForce>,
}

impl Code for Wind {
    fn text(self) -> Cow<'static, str> {
        match (self.from, self.force) {
            (Some(from), Some(force)) => Cow::Owned(format!("{from} {force}")),
            (Some(from), None) => Cow::Borrowed(from.word()),
            (None, Some(force)) => Cow::Borrowed(force.word()),
            (None, None) => Cow::Borrowed(""),
        }
    }

    fn spoken(self) -> String {
        let from = self.from.map(|from| from.word().to_uppercase());
        let parts = [from, self.force.map(WindForce::spoken)];
        parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
    }

    fn message(self) -> Message {
        match (self.from, self.force) {
            (Some(from), Some(force)) => message!("wind-both", from = from.term(), force = force.term()),
            (Some(from), None) => from.term(),
            (None, Some(force)) => force.term(),
            (None, None) => Message::typed(""),
        }
    }

    fn read(text: &str) -> Option<Wind> {
        let (from, force) = match text.split_once(' ') {
            Some((from, force)) => (Some(WindFrom::read(from)?), Some(WindForce::read(force)?)),
            None => (WindFrom::read(text), WindForce::read(text)),
        };
        (from.is_some() || force.is_some()).then_some(Wind { from, force })
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;
    use crate::procedure::{Procedures, Record};
    use proptest::prelude::*;

    #[test]
    fn what_a_phone_of_any_language_signed_in_words_stays_as_typed() {
        let typed = Coded::<Told>::read("De voz");
        assert_eq!((typed.text(), typed.spoken()), ("De voz".into(), "De voz".into()));
        let code = Coded::<Told>::read("voice");
        assert_eq!(code, Coded::Code(Told::Voice));
        assert_eq!(serde_json::to_string(&code).unwrap(), "\"voice\"");
    }

    #[test]
    fn the_wind_is_said_in_english_and_kept_as_a_code() {
        for (text, spoken) in
            [("nw light", "NW, light"), ("s", "S"), ("still", "still"), ("NW, light", "NW, light")]
        {
            let wind = Coded::<Wind>::read(text);
            assert_eq!((wind.text().as_ref(), wind.spoken().as_ref()), (text, spoken));
        }
        assert_eq!(Coded::<Wind>::typed("NW, light").text(), "nw light", "typed on a command line");
        assert_eq!(Coded::<Wind>::typed("up the valley").text(), "up the valley");
    }

    /// Every check and object that a built-in procedure names is a code, so that a phone can show it in its
    /// language.
    #[test]
    fn what_the_procedures_ask_for_by_name_is_a_code() {
        for procedure in Procedures::built_in().unwrap().iter() {
            for record in
                procedure.steps.iter().flat_map(|step| step.records.iter().chain(step.may_record.iter()))
            {
                match record {
                    Record::Check { what } => assert!(Checked::read(what).is_some(), "{what}"),
                    Record::ItemOut { item } | Record::ItemIn { item } => {
                        let word = item.strip_suffix(" {fitting}").unwrap_or(item);
                        assert!(Item::read(word).is_some(), "{item}");
                    }
                    _ => {}
                }
            }
        }
    }

    proptest! {
        #[test]
        fn whatever_stands_in_an_entry_is_written_back_as_it_was(text in ".{0,40}") {
            let json = serde_json::to_string(&text).unwrap();
            let told: Coded<Told> = serde_json::from_str(&json).unwrap();
            prop_assert_eq!(serde_json::to_string(&told).unwrap(), json.clone());
            let wind: Coded<Wind> = serde_json::from_str(&json).unwrap();
            prop_assert_eq!(serde_json::to_string(&wind).unwrap(), json);
        }
    }
}
