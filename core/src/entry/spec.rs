//! What a row of the table of statement kinds can say: its word on the wire, its fields, whose act it is, its sentence.
//!
//! Lives here: the types of a row ([`StatementSpec`], [`Field`], [`Shape`], [`Vocabulary`]) and the macro that turns
//! rows into [`StatementKind`](super::StatementKind). Does not live here: the rows (`statement`), what acts are allowed
//! to whom (`authority`), how a field is typed (a shell's business). Rows are read by `authority`, `view::story`, the
//! command line's forms, the phone's forms (`kinds_for_phone`) and by every test that speaks of every kind.

use super::certificate::Right;
use super::coded::{self, Coded};
use super::site_facts::{KeyKept, Unlocking};
use super::vocabulary as v;
use crate::units::Unit;

/// What a statement does, as far as rights are concerned. Which right each takes, and where it may stand, is
/// `authority::TABLE`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Act {
    /// Something seen, done, read or said during a stay.
    Record,
    /// A stay begins, or how it began is corrected.
    Open,
    /// Something known of the car that follows it.
    KnowCar,
    /// A remark or a photograph, which stands wherever it is needed.
    Note,
    /// A disagreement is settled.
    Settle,
    /// An entry is taken back: one's own by anybody who may record, another's by [`Right::WithdrawOthers`].
    Withdraw,
    /// Two records are, or are not, of one stay.
    Join,
    /// A hold is lifted.
    LiftHold,
    /// A blocker is passed over.
    PassOver,
    /// The car is released.
    Release,
    /// What a site is.
    KeepSite,
    /// Seals are issued to a site.
    IssueSeals,
    /// Who belongs to the organisation, whose key is whose, what roles may do.
    KeepPeople,
    /// A phone made a key for a person; without effect until it is confirmed.
    OfferKey,
    /// A person says that they hold the phone.
    HoldPhone,
    /// Late word is admitted.
    Admit,
    /// A later version's kind: kept whole, without effect.
    Unknown,
}

/// The words a field may hold, with its own name.
#[derive(Clone, Copy, Debug)]
pub struct Vocabulary {
    /// The vocabulary's name in snake_case.
    pub name: &'static str,
    /// Its words in order, in groups: where there are several, a text holds one word of each.
    pub groups: fn() -> Vec<Vec<&'static str>>,
    /// A text as a person typed it, as it stands in the entry: a word, or as typed.
    pub typed: fn(&str) -> String,
    /// A text of an entry as people say it.
    pub spoken: fn(&str) -> String,
}

impl Vocabulary {
    /// Every word in order; of several groups, those of the first before those of the second.
    pub fn words(&self) -> Vec<&'static str> {
        (self.groups)().concat()
    }
}

/// What a field holds.
#[derive(Clone, Copy, Debug)]
pub enum Shape {
    /// A name, a number on a paper, a few words.
    Text,
    /// A sentence: a reason, what was seen.
    Prose,
    /// A person's code.
    Person,
    /// A car's number, as read.
    CarNumber,
    /// A day or month, as typed.
    Date,
    /// One word of a vocabulary.
    Word(Vocabulary),
    /// Several words of a vocabulary.
    Words(Vocabulary),
    /// A word of a vocabulary, or any text.
    Coded(Vocabulary),
    /// An amount; the unit holds when none is typed.
    Amount(Unit),
    /// An amount whose usual unit depends on what another field says is measured.
    AmountOf(&'static str),
    /// Yes or no.
    YesNo,
    /// A whole number.
    Count,
    /// An instant.
    Time,
    /// An outage table's rows.
    Table,
    /// A defect.
    Defect,
    /// A hold.
    Hold,
    /// A photograph that was taken, by its digest.
    Photo,
    /// A photograph: digest, length and kind of file.
    PhotoFile,
    /// Another visit.
    Visit,
    /// A site.
    Site,
    /// Another entry.
    Entry,
    /// Other entries.
    Entries,
    /// The last entry of a device, with its number.
    LastEntry,
    /// A key's public half.
    Key,
    /// A procedure, by the digest of its text.
    Procedure,
    /// What a visit's id was made from.
    Nonce,
}

/// A field of a statement.
#[derive(Clone, Copy, Debug)]
pub struct Field {
    /// Its name, as on the wire.
    pub name: &'static str,
    /// What it holds.
    pub shape: Shape,
    /// Whether it must be given by whoever types the statement.
    pub must: bool,
    /// What it is when not given, as typed; nothing means it is left out.
    pub usual: Option<&'static str>,
    /// Whether a person gives it. Otherwise the program does: ids, digests, what stood before.
    pub asked: bool,
}

/// A field that must be given.
pub const fn must(name: &'static str, shape: Shape) -> Field {
    Field { name, shape, must: true, usual: None, asked: true }
}

/// A field that may be left out.
pub const fn may(name: &'static str, shape: Shape) -> Field {
    Field { name, shape, must: false, usual: None, asked: true }
}

/// A field that has a usual value.
pub const fn usually(name: &'static str, shape: Shape, usual: &'static str) -> Field {
    Field { name, shape, must: false, usual: Some(usual), asked: true }
}

/// A field that the program fills in.
pub const fn given(name: &'static str, shape: Shape) -> Field {
    Field { name, shape, must: false, usual: None, asked: false }
}

/// How the statement reads as a sentence.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sentence {
    /// `view::story` tells it in its own words.
    Told,
    /// A sentence with its fields' names in braces, each said as its shape is said.
    Filled(&'static str),
}

/// Which command of the command line records it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TypedIn {
    /// What is recorded in a visit.
    Visit,
    /// What is known of a site.
    Site,
    /// What is known of the organisation's people.
    Roster,
    /// What the organisation decided about signatures and rights.
    Rules,
}

/// Where the phone asks for it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OnPhone {
    /// On a screen of its own, or nowhere.
    OwnScreen,
    /// On a form drawn from its fields. The field named here, if any, is what the form is about and not asked.
    Form(Option<&'static str>),
}

/// A row of the table: what every part of the program has to know of a kind of statement.
#[derive(Clone, Copy, Debug)]
pub struct StatementSpec {
    /// Its word on the wire. It is also the key of its sentence, of its title on the phone and of its command.
    pub word: &'static str,
    /// Whose act it is.
    pub act: Act,
    /// Whether it is known of the car rather than of the stay, and follows the car to its next visit. A withdrawal or
    /// an agreement goes where what it speaks about goes.
    pub follows_the_car: bool,
    /// Whether saying it binds the person: it carries the person's own signature where there is a key. What is merely
    /// seen, read or done is covered by who holds the phone.
    pub binds: bool,
    /// Its fields, in the order they are typed in.
    pub fields: &'static [Field],
    /// How it reads as a sentence.
    pub sentence: Sentence,
    /// Which command records it; nothing when it has a command of its own, or none.
    pub typed_in: Option<TypedIn>,
    /// Where the phone asks for it.
    pub on_phone: OnPhone,
}

impl StatementSpec {
    /// A row that says nothing but its word, its act and its fields.
    pub const fn of(word: &'static str, act: Act, fields: &'static [Field]) -> StatementSpec {
        StatementSpec {
            word,
            act,
            follows_the_car: false,
            binds: false,
            fields,
            sentence: Sentence::Told,
            typed_in: None,
            on_phone: OnPhone::OwnScreen,
        }
    }

    /// The same, following the car.
    pub const fn follows_the_car(self) -> StatementSpec {
        StatementSpec { follows_the_car: true, ..self }
    }

    /// The same, binding the person.
    pub const fn binds(self) -> StatementSpec {
        StatementSpec { binds: true, ..self }
    }

    /// The same, with its sentence.
    pub const fn reads(self, sentence: &'static str) -> StatementSpec {
        StatementSpec { sentence: Sentence::Filled(sentence), ..self }
    }

    /// The same, recorded by a command.
    pub const fn typed_in(self, typed_in: TypedIn) -> StatementSpec {
        StatementSpec { typed_in: Some(typed_in), ..self }
    }

    /// The same, asked for on a form of the phone.
    pub const fn phone_form(self) -> StatementSpec {
        StatementSpec { on_phone: OnPhone::Form(None), ..self }
    }

    /// The same, asked for on a form of the phone that is about what the field `about` names.
    pub const fn phone_form_about(self, about: &'static str) -> StatementSpec {
        StatementSpec { on_phone: OnPhone::Form(Some(about)), ..self }
    }

    /// The field of that name.
    pub fn field(&self, name: &str) -> Option<&'static Field> {
        self.fields.iter().find(|field| field.name == name)
    }

    /// The fields a person gives, in the order they are typed in. Those the program fills in stand behind them.
    pub fn asked(&self) -> &'static [Field] {
        let asked = self.fields.iter().take_while(|field| field.asked).count();
        &self.fields[..asked]
    }
}

/// The row of a kind that a later version may know: kept whole, without effect.
pub(super) static UNRECOGNISED: StatementSpec = StatementSpec::of("", Act::Unknown, &[]);

/// One vocabulary a line: its constant, its name, the words, how they are said.
macro_rules! vocabularies {
    ($($constant:ident $name:literal $words:expr, $spoken:expr;)+) => { $(
        #[doc = concat!("The vocabulary `", $name, "`.")]
        pub const $constant: Vocabulary = Vocabulary {
            name: $name,
            groups: || vec![$words],
            typed: str::to_owned,
            spoken: $spoken,
        };
    )+ };
}

/// One vocabulary a line whose words stand in a text that may hold anything else.
macro_rules! coded_vocabularies {
    ($($constant:ident $name:literal $code:ident $words:expr;)+) => { $(
        #[doc = concat!("The codes `", $name, "`.")]
        pub const $constant: Vocabulary = Vocabulary {
            name: $name,
            groups: || $words,
            typed: |text| Coded::<coded::$code>::typed(text).text().into_owned(),
            spoken: |text| Coded::<coded::$code>::read(text).spoken().into_owned(),
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

fn with_spaces(word: &str) -> String {
    word.replace('_', " ")
}

vocabularies! {
    FITTING "fitting" words_of!(Fitting),
        |word| v::Fitting::read(word).map_or_else(|| with_spaces(word), |fitting| fitting.name().to_owned());
    VALVE_POSITION "valve_position" words_of!(ValvePosition), with_spaces;
    CLOSURE_STATE "closure_state" words_of!(ClosureState), with_spaces;
    HEARD "heard" words_of!(Heard), with_spaces;
    MEASURED "measured" words_of!(Measured), with_spaces;
    PLACE "place" words_of!(Place), with_spaces;
    PURPOSE "purpose" words_of!(Purpose), with_spaces;
    RECEIVER "receiver" words_of!(Receiver), with_spaces;
    SEAL_PLACE "seal_place" words_of!(SealPlace), with_spaces;
    SEAL_EVENT "seal_event" words_of!(SealEvent), with_spaces;
    SEAL_KIND "seal_kind" words_of!(SealKind), with_spaces;
    PHOTO_OF "photo_of" words_of!(PhotoOf), with_spaces;
    PROTECTION "protection" words_of!(Protection), with_spaces;
    CLOCK_EVENT "clock_event" words_of!(ClockEvent), with_spaces;
    PRECIPITATION "precipitation" words_of!(Precipitation), with_spaces;
    EMPTY_SIGN "empty_sign" words_of!(EmptySign), with_spaces;
    PRESENCE "presence" words_of!(Presence), with_spaces;
    TEST_DATE "test_date" words_of!(TestDate), with_spaces;
    STEP_OUTCOME "step_outcome" words_of!(StepOutcome), with_spaces;
    PART "part" words_of!(Part), with_spaces;
    RIGHT "right" Right::ALL.iter().map(|right| right.word()).collect(), with_spaces;
    UNLOCKING "unlocking" [Unlocking::Act, Unlocking::Shift].map(Unlocking::word).to_vec(), with_spaces;
    KEY_KEPT "key_kept" [KeyKept::Pin, KeyKept::Platform].map(KeyKept::word).to_vec(), with_spaces;
}

coded_vocabularies! {
    TOLD "told" Told vec![codes_of!(Told)];
    SEAL_NOTE "seal_note" SealNote vec![codes_of!(SealNote)];
    CONTACT_ROLE "contact_role" ContactRole vec![codes_of!(ContactRole)];
    CHECKED "checked" Checked vec![codes_of!(Checked)];
    WIND "wind" Wind vec![codes_of!(WindFrom), codes_of!(WindForce)];
    SEAL_KIND_OR_TEXT "seal_kind" SealKind vec![words_of!(SealKind)];
    MEASURED_OR_TEXT "measured" Measured vec![words_of!(Measured)];
}

/// Turns rows into the list of kinds and what can be asked of a kind. A row is the variant with the fields its slot
/// and its amounts need, the slot, the amounts, and the [`StatementSpec`].
///
/// A variant of [`Statement`](super::Statement) without a row does not compile.
macro_rules! statement_kinds {
    ($($kind:ident $fields:tt => $slot:expr, [$($amount:expr),*], $spec:expr;)+) => {
        /// A kind of statement: one for each variant of [`Statement`] that this version knows, with the same name.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
        #[allow(missing_docs, reason = "each is documented at the variant of Statement with the same name")]
        pub enum StatementKind { $($kind),+ }

        impl StatementKind {
            /// Every kind, in the order of the table.
            pub const ALL: &'static [StatementKind] = &[$(StatementKind::$kind),+];

            /// Its row.
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
            /// Its kind; nothing for one that only a later version knows.
            pub fn known_kind(&self) -> Option<StatementKind> {
                match self {
                    $(Statement::$kind { .. } => Some(StatementKind::$kind),)+
                    Statement::Unrecognised { .. } => None,
                }
            }

            /// The slot this statement speaks about. Entries of one slot that differ disagree, unless
            /// [`Statement::is_series`].
            pub fn speaks_to(&self) -> Slot {
                match self {
                    $(#[allow(unused_variables, reason = "the slot and the amounts share one pattern")]
                    Statement::$kind $fields => $slot,)+
                    Statement::Unrecognised { kind } => Slot::unrecognised(kind),
                }
            }

            /// The amounts it holds, each as somebody typed it.
            pub fn amounts(&self) -> impl Iterator<Item = &Amount> {
                let amounts: [Option<&Amount>; 2] = match self {
                    $(#[allow(unused_variables, reason = "the slot and the amounts share one pattern")]
                    Statement::$kind $fields => $crate::entry::spec::first_two([$(Option::<&Amount>::from($amount)),*]),)+
                    Statement::Unrecognised { .. } => [None, None],
                };
                amounts.into_iter().flatten()
            }
        }
    };
}
pub(super) use statement_kinds;

/// The amounts of a row, brought to the same number for every kind.
pub(super) fn first_two<const N: usize, T: Copy>(given: [Option<T>; N]) -> [Option<T>; 2] {
    const { assert!(N <= 2, "a kind of statement holds at most two amounts") };
    [given.first().copied().flatten(), given.get(1).copied().flatten()]
}
