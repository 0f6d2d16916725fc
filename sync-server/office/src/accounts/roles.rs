//! What an account may do: four rights, and the roles that bundle them under names people use.
//!
//! The table of roles is the whole rule: pages ask for a right, never for a role. What devices may say in a
//! record is another matter and stands in their certificates.

/// Something an account may do at the office.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Right {
    /// Read every record, take packets, look at lists.
    Read,
    /// Put things in: shipping papers, tariffs, seals issued and void, letters about defects.
    Record,
    /// Decide: settle accounts that differ, let an inspector read a record.
    Settle,
    /// Enrol and revoke devices, look after accounts, read the audit and the server's state.
    Administer,
}

impl Right {
    /// Every right, in order.
    pub const ALL: [Right; 4] = [Right::Read, Right::Record, Right::Settle, Right::Administer];

    /// Returns what it lets somebody do, for a sentence.
    pub const fn words(self) -> &'static str {
        match self {
            Right::Read => "read records",
            Right::Record => "put papers, seals and letters in",
            Right::Settle => "settle and let inspectors read",
            Right::Administer => "look after devices and accounts",
        }
    }
}

/// A bundle of rights.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AccountRole {
    /// Reads, changes nothing.
    Reader,
    /// Reads and puts things in.
    Clerk,
    /// Reads, puts things in, settles.
    Supervisor,
    /// All of it, and looks after devices and accounts.
    Administrator,
}

impl AccountRole {
    /// Every role, the one that may least first.
    pub const ALL: [AccountRole; 4] =
        [AccountRole::Reader, AccountRole::Clerk, AccountRole::Supervisor, AccountRole::Administrator];

    /// Returns what it bundles.
    pub const fn rights(self) -> &'static [Right] {
        match self {
            AccountRole::Reader => &[Right::Read],
            AccountRole::Clerk => &[Right::Read, Right::Record],
            AccountRole::Supervisor => &[Right::Read, Right::Record, Right::Settle],
            AccountRole::Administrator => &Right::ALL,
        }
    }

    /// Returns whether it holds a right.
    pub fn may(self, right: Right) -> bool {
        self.rights().contains(&right)
    }

    /// Returns the word it is stored and shown under.
    pub const fn as_str(self) -> &'static str {
        match self {
            AccountRole::Reader => "reader",
            AccountRole::Clerk => "clerk",
            AccountRole::Supervisor => "supervisor",
            AccountRole::Administrator => "administrator",
        }
    }

    /// Returns the role stored under a word. A word of a later version is none: it must never open more than
    /// this version knows of.
    pub fn read(word: &str) -> Option<AccountRole> {
        AccountRole::ALL.into_iter().find(|role| role.as_str() == word)
    }

    /// Returns what it may do, as a person says it.
    pub fn words(self) -> String {
        let words: Vec<&str> = self.rights().iter().map(|right| right.words()).collect();
        words.join("; ")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_role_may_what_the_one_before_may_and_more() {
        for pair in AccountRole::ALL.windows(2) {
            if let [less, more] = pair {
                assert!(less.rights().iter().all(|right| more.may(*right)), "{less:?} {more:?}");
                assert!(less.rights().len() < more.rights().len());
            }
        }
    }

    #[test]
    fn a_word_of_a_later_version_is_no_role() {
        for role in AccountRole::ALL {
            assert_eq!(AccountRole::read(role.as_str()), Some(role));
        }
        assert_eq!(AccountRole::read("office"), None);
        assert_eq!(AccountRole::read("Administrator "), None);
    }
}
