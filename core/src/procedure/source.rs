//! Where a rule comes from, said honestly: read, remembered, or nothing but practice.
//!
//! Used by the steps of a procedure and by the release gate (`view::gate`). The rules themselves do
//! not live here.

use serde::Serialize;

use crate::entry::vocabulary::Receiver;

/// Who asks for something.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum AskedBy {
    /// A law that binds this kind of unloading.
    Law,
    /// The practice of the trade.
    Practice,
    /// This record, so that it can be relied on later.
    ThisRecord,
}

impl AskedBy {
    /// As said to people: "law asks", "practice asks", "this record asks".
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
    /// Known from memory.
    FromMemory,
    /// No source: common practice, or the tool's own need.
    NoSource,
}

/// Where a rule comes from.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Source {
    /// What is cited; empty when there is nothing to cite.
    pub cites: String,
    /// How well it is known.
    pub standing: SourceStanding,
}

impl Source {
    /// Common practice without a source.
    pub fn practice() -> Source {
        Source { cites: String::new(), standing: SourceStanding::NoSource }
    }

    /// A text that was read.
    pub fn read(cites: &str) -> Source {
        Source { cites: cites.to_owned(), standing: SourceStanding::Read }
    }

    /// A text known from memory.
    pub fn from_memory(cites: &str) -> Source {
        Source { cites: cites.to_owned(), standing: SourceStanding::FromMemory }
    }

    /// One line for people.
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

/// Who asks, and on what ground.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Basis {
    /// Who asks.
    pub asked_by: AskedBy,
    /// On what ground.
    pub source: Source,
}

impl Basis {
    /// Common practice, no source.
    pub fn practice() -> Basis {
        Basis { asked_by: AskedBy::Practice, source: Source::practice() }
    }

    /// What the record itself needs.
    pub fn this_record(why: &str) -> Basis {
        let source = Source { cites: why.to_owned(), standing: SourceStanding::NoSource };
        Basis { asked_by: AskedBy::ThisRecord, source }
    }

    /// A law that binds every unloading.
    pub fn law(source: Source) -> Basis {
        Basis { asked_by: AskedBy::Law, source }
    }

    /// A rule of 49 CFR 174.67, which binds transloading into trucks and not unloading into a fixed
    /// tank (PHMSA interpretations 06-0114, 07-0136 and 10-0104, read). For a fixed tank it is
    /// practice; while the receiver is unknown it is shown as law.
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
