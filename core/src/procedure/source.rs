//! The source of a rule and how well it is known: read in the text, known from memory, or common practice
//! without a source.
//!
//! The steps of a procedure and the release gate (`view::gate`) use these types. The rules themselves are
//! defined there.

use serde::Serialize;

use crate::entry::vocabulary::Receiver;

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
    /// Returns the form shown to people: "law asks", "practice asks", "this record asks".
    pub fn spoken(self) -> &'static str {
        match self {
            AskedBy::Law => "law",
            AskedBy::Practice => "practice",
            AskedBy::ThisRecord => "this record",
        }
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
    pub cites: String,
    /// How well the source is known.
    pub standing: SourceStanding,
}

impl Source {
    /// Creates the source of a rule that is common practice.
    pub fn practice() -> Source {
        Source { cites: String::new(), standing: SourceStanding::NoSource }
    }

    /// Creates the source of a rule whose text was read.
    pub fn read(cites: &str) -> Source {
        Source { cites: cites.to_owned(), standing: SourceStanding::Read }
    }

    /// Creates the source of a rule known from memory.
    pub fn from_memory(cites: &str) -> Source {
        Source { cites: cites.to_owned(), standing: SourceStanding::FromMemory }
    }

    /// Returns one line for people.
    pub fn shown(&self) -> String {
        match (self.standing, self.cites.as_str()) {
            (SourceStanding::Read, cites) => format!("{cites}; read, check the current text"),
            (SourceStanding::FromMemory, cites) => {
                format!("{cites}; from memory, confirm before relying on it")
            }
            (SourceStanding::NoSource, "") => "common practice, no source".to_owned(),
            (SourceStanding::NoSource, cites) => cites.to_owned(),
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
    pub fn this_record(why: &str) -> Basis {
        let source = Source { cites: why.to_owned(), standing: SourceStanding::NoSource };
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
                    cites: format!(
                        "common practice; {} asks it of unloading into trucks only (interpretations 06-0114, 07-0136, 10-0104)",
                        source.cites
                    ),
                    standing: SourceStanding::NoSource,
                },
            },
            _ => Basis::law(source),
        }
    }
}
