//! Texts that are codes where there is a code for them: what a shell offers to choose from, beside what somebody types.
//!
//! A shell signs a code and shows it in the language of whoever holds it; a record read anywhere else says the same. What
//! a person types freely stays text, and so does whatever older entries hold. On the wire both are one text, so that an
//! entry that was made before its code existed reads as it always did. Lives here: [`Coded`], and the vocabularies that
//! stand in such fields. Codes are frozen like every other word: added, never renamed.

use std::borrow::Cow;
use std::fmt;

use serde::{Deserialize, Deserializer, Serialize, Serializer};

use super::vocabulary::words;
pub use super::vocabulary::{Measured, SealKind};

/// What a code needs to stand in a text.
pub trait Code: Copy {
    /// As it stands in an entry.
    fn text(self) -> Cow<'static, str>;
    /// In plain English, for pages and packets.
    fn spoken(self) -> String;
    /// Reads it back; only the exact text is the code.
    fn read(text: &str) -> Option<Self>;
}

/// A code, or what somebody typed.
#[derive(Clone, Debug, PartialEq, Eq)]
#[cfg_attr(test, derive(ts_rs::TS), ts(type = "string", concrete(C = Checked)))]
pub enum Coded<C> {
    /// One of the vocabulary.
    Code(C),
    /// As typed.
    Typed(String),
}

impl<C: Code> Coded<C> {
    /// A text as it stands in an entry: the code it is, or else as typed.
    pub fn read(text: &str) -> Coded<C> {
        C::read(text).map_or_else(|| Coded::Typed(text.to_owned()), Coded::Code)
    }

    /// A text as a person typed it on a command line or a page: capitals, commas and hyphens do not keep it from being a
    /// code; what is none stays exactly as typed.
    pub fn typed(text: &str) -> Coded<C> {
        let blanks: String = text.to_lowercase().replace([',', ';'], " ");
        let blanks = blanks.split_whitespace().collect::<Vec<_>>().join(" ");
        let joined = blanks.replace([' ', '-'], "_");
        C::read(&blanks)
            .or_else(|| C::read(&joined))
            .map_or_else(|| Coded::Typed(text.to_owned()), Coded::Code)
    }

    /// As it stands in an entry.
    pub fn text(&self) -> Cow<'_, str> {
        match self {
            Coded::Code(code) => code.text(),
            Coded::Typed(text) => Cow::Borrowed(text),
        }
    }

    /// In English where it is a code, as typed where it is none.
    pub fn spoken(&self) -> Cow<'_, str> {
        match self {
            Coded::Code(code) => Cow::Owned(code.spoken()),
            Coded::Typed(text) => Cow::Borrowed(text),
        }
    }

    /// Whether nothing was said.
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

/// In English, or as typed.
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
            fn read(text: &str) -> Option<$name> { $name::read(text) }
        }
    )+ };
}
code!(Told, SealNote, ContactRole, Checked, Measured, SealKind);

words!(
    /// How somebody was told of a defect.
    Told {
        /// By voice: face to face, by telephone or radio.
        Voice = "voice",
        /// In writing.
        Writing = "writing",
    }
);
words!(
    /// What is noted of a seal without typing.
    SealNote {
        /// There was none where one is looked for.
        NoSealFound = "no_seal_found",
    }
);
words!(
    /// What somebody is called for.
    ContactRole {
        /// When something is wrong.
        Emergency = "emergency",
        /// The carrier.
        Carrier = "carrier",
        /// The organisation's own office.
        Office = "office",
    }
);
words!(
    /// What the procedures and shells ask to have looked at. These codes have blanks: they were in use as names before
    /// they were codes.
    Checked {
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
        /// Placards are in place.
        Placards = "placards in place",
    }
);
words!(
    /// Where the wind comes from.
    WindFrom {
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
    /// How strong the wind is, as a person feels it.
    WindForce {
        /// Nothing stirs.
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
    /// A thing a procedure has taken out that must come back. In an entry the fitting it is at stands behind it, its
    /// word with blanks: `adapter liquid a`.
    Item {
        /// An adapter on a fitting.
        Adapter = "adapter",
    }
);

/// The wind as chosen from a list: from where, how strong, or one of them. `nw light` in an entry, "NW, light" for people.
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

    /// A check or a thing that a built-in procedure asks for is a code, so that a phone shows it in its language.
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
