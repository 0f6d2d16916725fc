//! The rows of the table of statement kinds: wire word, fields, act and sentence of each kind.
//!
//! This module holds the types of a row ([`StatementSpec`], [`Field`], [`Shape`], [`Vocabulary`]) and the
//! macro that turns rows into [`StatementKind`](super::StatementKind). The rows themselves are in
//! `statement`, and the rights that acts require in `authority`; how a field is typed is up to the shells.
//! Rows are read by `authority`, `view::story`, the command line's forms, the phone's forms
//! (`kinds_for_phone`), and every test that covers all kinds.

use super::certificate::Right;
use super::coded::{self, Coded};
use super::site_facts::{KeyKept, Unlocking};
use super::vocabulary as v;
use crate::Message;
use crate::units::Unit;

/// What a statement does in terms of rights. `authority::TABLE` states the right that each act requires and
/// where it may stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Act {
    /// Records an observation, action or reading of a stay.
    Record,
    /// Opens a stay, or corrects how it was opened.
    Open,
    /// States a fact about the car, which follows the car to later visits.
    KnowCar,
    /// Adds a remark or a photograph, which may stand in any document.
    Note,
    /// Settles a disagreement.
    Settle,
    /// Withdraws an entry: one's own with the right to record, another device's with
    /// [`Right::WithdrawOthers`].
    Withdraw,
    /// States whether two visits are one stay.
    Join,
    /// Lifts a hold.
    LiftHold,
    /// Passes over a blocker.
    PassOver,
    /// Signs that the stay is fit to unload.
    Clear,
    /// Releases the car.
    Release,
    /// States a fact about a site.
    KeepSite,
    /// Issues seals to a site.
    IssueSeals,
    /// States who belongs to the organisation, whose key is whose, or what roles may do.
    KeepPeople,
    /// Publishes a procedure of the organisation, or takes one back.
    PublishProcedure,
    /// Tells a site that a car is expected by a shipping paper, or takes the paper back.
    ExpectCar,
    /// Offers a key that a phone created for a person. It has no effect until it is confirmed.
    OfferKey,
    /// States that a person holds the phone.
    HoldPhone,
    /// Admits a late entry.
    Admit,
    /// A kind of a later version, which is kept but has no effect.
    Unknown,
}

/// The words that a field may hold, and the name of the vocabulary.
#[derive(Clone, Copy, Debug)]
pub struct Vocabulary {
    /// The name of the vocabulary in snake_case.
    pub name: &'static str,
    /// The words in order and in groups. With several groups, a text contains one word of each.
    pub groups: fn() -> Vec<Vec<&'static str>>,
    /// Converts a typed text to the text in the entry: a word, or the text as typed.
    pub typed: fn(&str) -> String,
    /// Converts a text of an entry to the form shown to people.
    pub message: fn(&str) -> Message,
}

impl Vocabulary {
    /// Returns all words in order, group by group.
    pub fn words(&self) -> Vec<&'static str> {
        (self.groups)().concat()
    }
}

/// The kind of content of a field.
#[derive(Clone, Copy, Debug)]
pub enum Shape {
    /// A short text, such as a name or a number on a paper.
    Text,
    /// A sentence, such as a reason or an observation.
    Prose,
    /// A person's code.
    Person,
    /// A car number as read.
    CarNumber,
    /// A day or month as typed.
    Date,
    /// One word of a vocabulary.
    Word(Vocabulary),
    /// Several words of a vocabulary.
    Words(Vocabulary),
    /// A word of a vocabulary, or free text.
    Coded(Vocabulary),
    /// An amount, with the unit that applies if none is typed.
    Amount(Unit),
    /// An amount whose default unit depends on the quantity named in the given other field.
    AmountOf(&'static str),
    /// Yes or no.
    YesNo,
    /// A whole number.
    Count,
    /// A point in time.
    Time,
    /// The rows of an outage table.
    Table,
    /// The id of a defect.
    Defect,
    /// The id of a hold.
    Hold,
    /// The id of an incident.
    Incident,
    /// The id of a leak.
    Leak,
    /// The id of a note for the next visit.
    Note,
    /// The digest of a photograph.
    Photo,
    /// The digest of an imported file.
    File,
    /// The commitment to a person's name.
    Commitment,
    /// Several of them.
    Commitments,
    /// A photograph: digest, length and media type.
    PhotoFile,
    /// The id of another visit.
    Visit,
    /// The id of a site.
    Site,
    /// The ids of sites.
    Sites,
    /// The id of another entry.
    Entry,
    /// The ids of other entries.
    Entries,
    /// The codes of items of a gate.
    Items,
    /// The last entry of a device, with its number.
    LastEntry,
    /// A public key.
    Key,
    /// The digest of a procedure's text.
    Procedure,
    /// The text of a procedure.
    ProcedureText,
    /// The nonce from which a visit's id was computed.
    Nonce,
}

/// A field of a statement.
#[derive(Clone, Copy, Debug)]
pub struct Field {
    /// The field's name on the wire.
    pub name: &'static str,
    /// The kind of content.
    pub shape: Shape,
    /// Whether a person who enters the statement must fill in the field.
    pub must: bool,
    /// The default value in typed form; without one the field is omitted.
    pub usual: Option<&'static str>,
    /// Whether a person fills in the field. Otherwise the program does (ids, digests, earlier entries).
    pub asked: bool,
}

/// Creates a required field.
pub const fn must(name: &'static str, shape: Shape) -> Field {
    Field { name, shape, must: true, usual: None, asked: true }
}

/// Creates an optional field.
pub const fn may(name: &'static str, shape: Shape) -> Field {
    Field { name, shape, must: false, usual: None, asked: true }
}

/// Creates a field with a default value.
pub const fn usually(name: &'static str, shape: Shape, usual: &'static str) -> Field {
    Field { name, shape, must: false, usual: Some(usual), asked: true }
}

/// Creates a field that the program fills in.
pub const fn given(name: &'static str, shape: Shape) -> Field {
    Field { name, shape, must: false, usual: None, asked: false }
}

/// The command that records a statement on the command line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TypedIn {
    /// The command for visits.
    Visit,
    /// The command for sites.
    Site,
    /// The command for the organisation's people.
    Roster,
    /// The command for decisions about signatures and rights.
    Rules,
}

/// Where the phone offers the statement.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OnPhone {
    /// On a screen of its own, or nowhere.
    OwnScreen,
    /// On a form generated from the fields. The named field, if any, is the form's subject and is not asked
    /// for.
    Form(Option<&'static str>),
}

/// A row of the table: everything that the program needs to know about a kind of statement.
#[derive(Clone, Copy, Debug)]
pub struct StatementSpec {
    /// The word on the wire. It is also the key of the sentence, of the title on the phone, and of the
    /// command.
    pub word: &'static str,
    /// The act.
    pub act: Act,
    /// Whether the statement is about the car rather than the stay and follows the car to its next visit. A
    /// withdrawal or an agreement goes where the entry it concerns goes.
    pub follows_the_car: bool,
    /// Whether the statement binds the person and therefore carries the person's own signature if there is a
    /// key. For mere observations, readings and actions it is enough to know who holds the phone.
    pub binds: bool,
    /// The fields in the order in which they are entered.
    pub fields: &'static [Field],
    /// The command that records the statement; `None` if it has a command of its own or none.
    pub typed_in: Option<TypedIn>,
    /// Where the phone offers the statement.
    pub on_phone: OnPhone,
}

impl StatementSpec {
    /// Creates a row with word, act and fields only.
    pub const fn of(word: &'static str, act: Act, fields: &'static [Field]) -> StatementSpec {
        StatementSpec {
            word,
            act,
            follows_the_car: false,
            binds: false,
            fields,
            typed_in: None,
            on_phone: OnPhone::OwnScreen,
        }
    }

    /// Returns the row with `follows_the_car` set.
    pub const fn follows_the_car(self) -> StatementSpec {
        StatementSpec { follows_the_car: true, ..self }
    }

    /// Returns the row with `binds` set.
    pub const fn binds(self) -> StatementSpec {
        StatementSpec { binds: true, ..self }
    }

    /// Returns the row with the command that records it.
    pub const fn typed_in(self, typed_in: TypedIn) -> StatementSpec {
        StatementSpec { typed_in: Some(typed_in), ..self }
    }

    /// Returns the row with a form on the phone.
    pub const fn phone_form(self) -> StatementSpec {
        StatementSpec { on_phone: OnPhone::Form(None), ..self }
    }

    /// Returns the row with a form on the phone whose subject is the field `about`.
    pub const fn phone_form_about(self, about: &'static str) -> StatementSpec {
        StatementSpec { on_phone: OnPhone::Form(Some(about)), ..self }
    }

    /// Returns the field of that name.
    pub fn field(&self, name: &str) -> Option<&'static Field> {
        self.fields.iter().find(|field| field.name == name)
    }

    /// Returns the fields that a person fills in, in the order of entry. The fields that the program fills in
    /// come after them.
    pub fn asked(&self) -> &'static [Field] {
        let asked = self.fields.iter().take_while(|field| field.asked).count();
        &self.fields[..asked]
    }
}

/// The row of kinds that only later versions know; they are kept but have no effect.
pub(super) static UNRECOGNISED: StatementSpec = StatementSpec::of("", Act::Unknown, &[]);

/// Defines one vocabulary per line: its constant, its name, its words, and their form for people.
macro_rules! vocabularies {
    ($($constant:ident $name:literal $family:literal $words:expr;)+) => { $(
        #[doc = concat!("The vocabulary `", $name, "`.")]
        pub const $constant: Vocabulary = Vocabulary {
            name: $name,
            groups: || vec![$words],
            typed: str::to_owned,
            message: |word| Message::term($family, word),
        };
    )+ };
}

/// Defines one vocabulary per line whose words stand in a text field that also accepts free text.
macro_rules! coded_vocabularies {
    ($($constant:ident $name:literal $code:ident $words:expr;)+) => { $(
        #[doc = concat!("The codes `", $name, "`.")]
        pub const $constant: Vocabulary = Vocabulary {
            name: $name,
            groups: || $words,
            typed: |text| Coded::<coded::$code>::typed(text).text().into_owned(),
            message: |text| Coded::<coded::$code>::read(text).message(),
        };
    )+ };
}

macro_rules! words_of {
    ($name:ident) => {
        v::$name::ALL.iter().map(|word| word.word()).collect()
    };
}
macro_rules! codes_of {
    ($name:ident) => {
        coded::$name::ALL.iter().map(|word| word.word()).collect()
    };
}

vocabularies! {
    FITTING "fitting" "fitting" words_of!(Fitting);
    VALVE_POSITION "valve_position" "valve_position" words_of!(ValvePosition);
    CLOSURE_STATE "closure_state" "closure" words_of!(ClosureState);
    HEARD "heard" "heard" words_of!(Heard);
    MEASURED "measured" "measured" words_of!(Measured);
    PLACE "place" "place" words_of!(Place);
    PURPOSE "purpose" "purpose" words_of!(Purpose);
    RECEIVER "receiver" "receiver" words_of!(Receiver);
    SEAL_PLACE "seal_place" "seal_place" words_of!(SealPlace);
    SEAL_EVENT "seal_event" "seal_event" words_of!(SealEvent);
    SEAL_KIND "seal_kind" "seal_kind" words_of!(SealKind);
    PHOTO_OF "photo_of" "photo_of" words_of!(PhotoOf);
    PROTECTION "protection" "protection" words_of!(Protection);
    CLOCK_EVENT "clock_event" "clock_event" words_of!(ClockEvent);
    PRECIPITATION "precipitation" "precipitation" words_of!(Precipitation);
    EMPTY_SIGN "empty_sign" "empty_sign" words_of!(EmptySign);
    PRESENCE "presence" "presence" words_of!(Presence);
    TEST_DATE "test_date" "test_date" words_of!(TestDate);
    STEP_OUTCOME "step_outcome" "step_outcome" words_of!(StepOutcome);
    PART "part" "part" words_of!(Part);
    GATE "gate" "gate" words_of!(Gate);
    GRADE "grade" "calc_grade" words_of!(ProductGrade);
    BILLED_BY "billed_by" "billed_by" words_of!(BilledBy);
    INSULATION "insulation" "insulation" words_of!(Insulation);
    INJURY "injury" "injury" words_of!(Injury);
    EVACUATION "evacuation" "evacuation" words_of!(Evacuation);
    LEFT_CONDITION "left_condition" "left_condition" words_of!(LeftCondition);
    CAR_LOAD "car_load" "car_load" words_of!(CarLoad);
    FEEL "feel" "feel" words_of!(Feel);
    PLUG_STATE "plug_state" "plug_state" words_of!(PlugState);
    COVER_PART "cover_part" "cover_part" words_of!(CoverPart);
    PART_STATE "part_state" "part_state" words_of!(PartState);
    TANK_MOMENT "tank_moment" "tank_moment" words_of!(TankMoment);
    GAUGING_KIND "gauging_kind" "gauging_kind" words_of!(GaugingKind);
    CAR_END "car_end" "car_end" words_of!(CarEnd);
    RIGHT "right" "right" Right::ALL.iter().map(|right| right.word()).collect();
    UNLOCKING "unlocking" "unlocking" [Unlocking::Act, Unlocking::Shift].map(Unlocking::word).to_vec();
    KEY_KEPT "key_kept" "key_kept" [KeyKept::Pin, KeyKept::Platform].map(KeyKept::word).to_vec();
}

coded_vocabularies! {
    TOLD "told" Told vec![codes_of!(Told)];
    OVERRIDE_REASON "override_reason" OverrideReason vec![codes_of!(OverrideReason)];
    SEAL_NOTE "seal_note" SealNote vec![codes_of!(SealNote)];
    CONTACT_ROLE "contact_role" ContactRole vec![codes_of!(ContactRole)];
    INCIDENT_SOURCE "incident_source" IncidentSource vec![codes_of!(IncidentSource)];
    CALLED "called" Called vec![codes_of!(Called)];
    LEAK_AT "leak_at" LeakAt vec![codes_of!(LeakAt)];
    LEAVES_AS "leaves_as" LeavesAs vec![codes_of!(LeavesAs)];
    CHECKED "checked" Checked vec![codes_of!(Checked)];
    WIND "wind" Wind vec![codes_of!(WindFrom), codes_of!(WindForce)];
    SEAL_KIND_OR_TEXT "seal_kind" SealKind vec![words_of!(SealKind)];
    MEASURED_OR_TEXT "measured" Measured vec![words_of!(Measured)];
}

/// Turns rows into the list of kinds and its methods. A row consists of the variant with the fields that its
/// slot and amounts need, the slot, the amounts, and the [`StatementSpec`].
///
/// A variant of [`Statement`](super::Statement) without a row does not compile.
macro_rules! statement_kinds {
    ($($kind:ident $fields:tt => $slot:expr, [$($amount:expr),*], $spec:expr;)+) => {
        /// A kind of statement: one variant for each known variant of [`Statement`], with the same name.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
        #[allow(missing_docs, reason = "each is documented at the variant of Statement with the same name")]
        pub enum StatementKind { $($kind),+ }

        impl StatementKind {
            /// Every kind, in the order of the table.
            pub const ALL: &'static [StatementKind] = &[$(StatementKind::$kind),+];

            /// Returns the kind's row.
            pub fn spec(self) -> &'static StatementSpec {
                match self {
                    $(StatementKind::$kind => {
                        static SPEC: StatementSpec = $spec;
                        &SPEC
                    })+
                }
            }
        }

        impl Statement {
            /// Returns the statement's kind, or `None` for one that only later versions know.
            pub fn known_kind(&self) -> Option<StatementKind> {
                match self {
                    $(Statement::$kind { .. } => Some(StatementKind::$kind),)+
                    Statement::Unrecognised { .. } => None,
                }
            }

            /// Returns the slot that this statement concerns. Different entries of one slot disagree, unless
            /// [`Statement::is_series`] is true.
            pub fn speaks_to(&self) -> Slot {
                match self {
                    $(#[allow(unused_variables, reason = "the slot and the amounts share one pattern")]
                    Statement::$kind $fields => $slot,)+
                    Statement::Unrecognised { kind } => Slot::unrecognised(kind),
                }
            }

            /// Returns the amounts in the statement, as somebody typed them.
            pub fn amounts(&self) -> impl Iterator<Item = &Amount> {
                let amounts: [Option<&Amount>; 5] = match self {
                    $(#[allow(unused_variables, reason = "the slot and the amounts share one pattern")]
                    Statement::$kind $fields => $crate::entry::spec::all_of([$(Option::<&Amount>::from($amount)),*]),)+
                    Statement::Unrecognised { .. } => [None; 5],
                };
                amounts.into_iter().flatten()
            }
        }
    };
}
pub(super) use statement_kinds;

/// Pads the amounts of a row to the same number for every kind.
pub(super) fn all_of<const N: usize, T: Copy>(given: [Option<T>; N]) -> [Option<T>; 5] {
    const { assert!(N <= 5, "a kind of statement holds at most five amounts") };
    std::array::from_fn(|at| given.get(at).copied().flatten())
}
