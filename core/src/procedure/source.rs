//! The source of a rule and how well it is known: read in the text, known from memory, or common practice
//! without a source.
//!
//! The steps of a procedure and the release gate (`view::gate`) use these types. The rules themselves are
//! defined there.

use serde::{Deserialize, Serialize};

use crate::entry::vocabulary::Receiver;
use crate::{Arg, Joint, Message, message};

/// Who asks for something to be done or recorded.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum AskedBy {
    /// A law that binds this kind of unloading.
    Law,
    /// The practice of the trade.
    Practice,
    /// This record, which cannot be relied on later without it.
    ThisRecord,
}

impl AskedBy {
    /// Returns the word for people: law, practice, this record.
    pub fn term(self) -> Message {
        let word = match self {
            AskedBy::Law => "law",
            AskedBy::Practice => "practice",
            AskedBy::ThisRecord => "this_record",
        };
        Message::term("asked_by", word)
    }
}

/// How well a source is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum SourceStanding {
    /// The text was read in public material.
    Read,
    /// The text is known from memory only.
    FromMemory,
    /// There is no source: the rule is common practice or needed by the record itself.
    NoSource,
}

/// The source of a rule.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Source {
    /// The citation; empty if there is nothing to cite.
    pub cites: Message,
    /// How well the source is known.
    pub standing: SourceStanding,
    /// The day on which the text was read, if it is known.
    pub read_on: Option<String>,
}

/// Whom a law binds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Binds {
    /// Whoever unloads a car, into whatever.
    Unloading,
    /// Whoever transloads from the car into trucks.
    Transloading,
    /// The employer who unloads into a fixed tank.
    FixedTank,
    /// Whoever offers the car to the carrier, with residue too.
    Offeror,
    /// Whoever gave out or received the shipping paper.
    PaperKeeper,
    /// Whoever has the product in hand.
    Possessor,
}

impl Binds {
    /// Returns true if the law applies to unloading into this receiver; while it is unknown, every law does.
    pub fn applies(self, receiver: Option<Receiver>) -> bool {
        match self {
            Binds::Transloading => receiver != Some(Receiver::FixedTank),
            Binds::FixedTank => receiver != Some(Receiver::Truck),
            Binds::Unloading | Binds::Offeror | Binds::PaperKeeper | Binds::Possessor => true,
        }
    }

    /// Returns whom it binds, for people.
    pub fn term(self) -> Message {
        let word = match self {
            Binds::Unloading => "unloading",
            Binds::Transloading => "transloading",
            Binds::FixedTank => "fixed_tank",
            Binds::Offeror => "offeror",
            Binds::PaperKeeper => "paper_keeper",
            Binds::Possessor => "possessor",
        };
        Message::term("binds", word)
    }
}

/// A law behind a step.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Law {
    /// The source.
    pub source: Source,
    /// Whom it binds; `None` for a law of which the text says no more than that it applies.
    pub binds: Option<Binds>,
    /// Whether the citation says whom it binds.
    pub names_whom: bool,
}

/// What a source cites: a document as it names itself, or a message.
pub trait Cites {
    /// Returns it as a message.
    fn cited(self) -> Message;
}

impl Cites for &str {
    fn cited(self) -> Message {
        Message::typed(self)
    }
}

impl Cites for String {
    fn cited(self) -> Message {
        Message::typed(self)
    }
}

impl Cites for Message {
    fn cited(self) -> Message {
        self
    }
}

impl Source {
    /// Creates the source of a rule that is common practice.
    pub fn practice() -> Source {
        Source { cites: Message::default(), standing: SourceStanding::NoSource, read_on: None }
    }

    /// Creates the source of a rule whose text was read.
    pub fn read(cites: impl Cites) -> Source {
        Source { cites: cites.cited(), standing: SourceStanding::Read, read_on: None }
    }

    /// Creates the source of a rule known from memory.
    pub fn from_memory(cites: impl Cites) -> Source {
        Source { cites: cites.cited(), standing: SourceStanding::FromMemory, read_on: None }
    }

    /// Returns the source with the day on which its text was read.
    #[must_use]
    pub fn on(self, day: impl Into<String>) -> Source {
        Source { read_on: Some(day.into()), ..self }
    }

    /// Returns the source in words.
    pub fn message(&self) -> Message {
        let cites = self.cites.clone();
        match self.standing {
            SourceStanding::Read => match &self.read_on {
                Some(day) => message!("basis-read-on", cites = cites, day = Arg::typed(day)),
                None => message!("basis-read", cites = cites),
            },
            SourceStanding::FromMemory => message!("basis-from-memory", cites = cites),
            SourceStanding::NoSource if cites.is_empty() => Message::new("basis-practice"),
            SourceStanding::NoSource => cites,
        }
    }
}

/// Who asks for something, and the source.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Basis {
    /// Who asks.
    pub asked_by: AskedBy,
    /// The source of the rule.
    pub source: Source,
}

impl Basis {
    /// Creates the basis of a rule that is common practice.
    pub fn practice() -> Basis {
        Basis { asked_by: AskedBy::Practice, source: Source::practice() }
    }

    /// Creates the basis of something that the record itself needs.
    pub fn this_record(why: Message) -> Basis {
        let source = Source { cites: why, standing: SourceStanding::NoSource, read_on: None };
        Basis { asked_by: AskedBy::ThisRecord, source }
    }

    /// Creates the basis of a law that applies to every unloading.
    pub fn law(source: Source) -> Basis {
        Basis { asked_by: AskedBy::Law, source }
    }

    /// Creates the basis of a rule of 49 CFR 174.67, which applies to transloading into trucks but not to
    /// unloading into a fixed tank (PHMSA interpretations 06-0114, 07-0136 and 10-0104, read). For a fixed
    /// tank the rule counts as practice; while the receiver is unknown it is shown as law.
    pub fn transloading(source: Source, receiver: Option<Receiver>) -> Basis {
        match receiver {
            Some(Receiver::FixedTank) => Basis {
                asked_by: AskedBy::Practice,
                source: Source {
                    cites: message!("basis-transloading-only", cites = source.cites),
                    standing: SourceStanding::NoSource,
                    read_on: None,
                },
            },
            _ => Basis::law(source),
        }
    }

    /// Returns the basis of what several laws ask for: those that apply to this receiver, each with whom it
    /// binds. If none does, it is practice, and the laws are named as what they are.
    pub fn of_laws(laws: &[Law], receiver: Option<Receiver>) -> Basis {
        let [first, ..] = laws else { return Basis::practice() };
        if !first.names_whom {
            return match (first.binds, receiver) {
                (Some(Binds::Transloading), _) => Basis::transloading(first.source.clone(), receiver),
                (Some(Binds::FixedTank), Some(Receiver::Truck)) => Basis::practice(),
                _ => Basis::law(first.source.clone()),
            };
        }
        let applies = |law: &&Law| law.binds.is_none_or(|binds| binds.applies(receiver));
        let here: Vec<&Law> = laws.iter().filter(applies).collect();
        if here.is_empty() {
            let cites = message!("basis-binds-others", cites = Law::listed(laws.iter()));
            let source = Source { cites, standing: SourceStanding::NoSource, read_on: None };
            return Basis { asked_by: AskedBy::Practice, source };
        }
        let cites = message!("basis-laws", laws = Law::listed(here.iter().copied()));
        Basis::law(Source { cites, ..first.source.clone() })
    }
}

impl Law {
    fn listed<'l>(laws: impl Iterator<Item = &'l Law>) -> Arg {
        Arg::list(Joint::Semicolon, laws.map(Law::message))
    }

    fn message(&self) -> Message {
        let cites = self.source.cites.clone();
        match self.binds {
            Some(binds) => message!("basis-law", cites = cites, whom = binds.term()),
            None => cites,
        }
    }
}
