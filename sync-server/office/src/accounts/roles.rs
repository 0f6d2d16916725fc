//! The rights of an account: four rights, and the roles that bundle them under familiar names.
//!
//! The table of roles is the only rule: pages ask for a right, never for a role. The rights of devices in a
//! record are separate, and are part of the devices' certificates.

/// A right of an account at the office.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Right {
    /// Read every record, take packets and look at lists.
    Read,
    /// Enter shipping papers, tariffs, issued and void seals, and letters about defects.
    Record,
    /// Settle accounts that differ, and let an inspector read a record.
    Settle,
    /// Enrol and revoke devices, manage accounts, and read the audit and the server's state.
    Administer,
}

impl Right {
    /// All rights, in order.
    pub const ALL: [Right; 4] = [Right::Read, Right::Record, Right::Settle, Right::Administer];

    /// Returns what the right allows, as part of a sentence.
    pub const fn words(self) -> &'static str {
        match self {
            Right::Read => "read records",
            Right::Record => "put papers, seals and letters in",
            Right::Settle => "settle and let inspectors read",
            Right::Administer => "look after devices and accounts",
        }
    }
}

/// A role, which is a bundle of rights.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AccountRole {
    /// May read and change nothing.
    Reader,
    /// May read and enter data.
    Clerk,
    /// May read, enter data and settle.
    Supervisor,
    /// Has all rights, including the management of devices and accounts.
    Administrator,
}

impl AccountRole {
    /// All roles, the one with the fewest rights first.
    pub const ALL: [AccountRole; 4] =
        [AccountRole::Reader, AccountRole::Clerk, AccountRole::Supervisor, AccountRole::Administrator];

    /// Returns the rights of the role.
    pub const fn rights(self) -> &'static [Right] {
        match self {
            AccountRole::Reader => &[Right::Read],
            AccountRole::Clerk => &[Right::Read, Right::Record],
            AccountRole::Supervisor => &[Right::Read, Right::Record, Right::Settle],
            AccountRole::Administrator => &Right::ALL,
        }
    }

    /// Returns whether the role includes a right.
    pub fn may(self, right: Right) -> bool {
        self.rights().contains(&right)
    }

    /// Returns the word under which the role is stored and shown.
    pub const fn as_str(self) -> &'static str {
        match self {
            AccountRole::Reader => "reader",
            AccountRole::Clerk => "clerk",
            AccountRole::Supervisor => "supervisor",
            AccountRole::Administrator => "administrator",
        }
    }

    /// Returns the role stored under a word. An unknown word, perhaps of a later version, is no role, so that
    /// it never gives more access than this version knows of.
    pub fn read(word: &str) -> Option<AccountRole> {
        AccountRole::ALL.into_iter().find(|role| role.as_str() == word)
    }

    /// Returns what the role may do, in words.
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
