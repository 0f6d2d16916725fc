//! Which names of people the roster commits to, and which of them the office removed.

use std::collections::BTreeSet;

use super::Judged;
use crate::entry::Statement;
use crate::ids::Digest;

/// The commitments to people's names in the entries of a roster that count.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct NamesSaid {
    /// Every commitment that an entry about a person holds, also those that another one has followed.
    pub named: BTreeSet<Digest>,
    /// The commitments whose names were removed. An entry that removes a name does so for good: neither another
    /// entry nor a withdrawal brings the name back, and a person who is named anew has another commitment.
    pub forgotten: BTreeSet<Digest>,
}

impl NamesSaid {
    /// Reads the commitments from the judged roster.
    pub fn of<'e>(roster: impl IntoIterator<Item = Judged<'e>>) -> NamesSaid {
        let mut said = NamesSaid::default();
        for judged in roster.into_iter().filter(|judged| judged.verdict().counts()) {
            match &judged.entry().body.says {
                Statement::Operator(person) => said.named.extend(person.named),
                Statement::NameForgotten(removed) => said.forgotten.extend(&removed.named),
                _ => {}
            }
        }
        said
    }

    /// Returns true if a name with this commitment is kept.
    pub fn keeps(&self, named: &Digest) -> bool {
        self.named.contains(named) && !self.forgotten.contains(named)
    }
}
