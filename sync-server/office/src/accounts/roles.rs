//! The rights of an account: five rights, and the roles that bundle them under familiar names.
//!
//! The table of roles is the only rule: pages ask for a right, never for a role. The rights of devices in a
//! record are separate, and are part of the devices' certificates.

use farsiding_core::{Arg, Joint, Message, message};

/// A right of an account at the office.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Right {
    /// Read every record, take packets and look at lists.
    Read,
    /// Enter shipping papers, tariffs, issued and void seals, and letters about defects.
    Record,
    /// Settle accounts that differ, and let an inspector read a record.
    Settle,
    /// Change and publish the organisation's procedures.
    Publish,
    /// Enrol and revoke devices, manage accounts, and read the audit and the server's state.
    Administer,
}

impl Right {
    /// All rights, in order.
    pub const ALL: [Right; 5] =
        [Right::Read, Right::Record, Right::Settle, Right::Publish, Right::Administer];

    /// Returns what the right allows, as part of a sentence.
    pub fn term(self) -> Message {
        Message::new(match self {
            Right::Read => "office-right-read",
            Right::Record => "office-right-record",
            Right::Settle => "office-right-settle",
            Right::Publish => "office-right-publish",
            Right::Administer => "office-right-administer",
        })
    }
}

/// A role, which is a bundle of rights.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AccountRole {
    /// May read and change nothing.
    Reader,
    /// May read and enter data.
    Clerk,
    /// May read, enter data, settle, and change and publish procedures.
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
            AccountRole::Supervisor => &[Right::Read, Right::Record, Right::Settle, Right::Publish],
            AccountRole::Administrator => &Right::ALL,
        }
    }

    /// Returns whether the role includes a right.
    pub fn may(self, right: Right) -> bool {
        self.rights().contains(&right)
    }

    /// Returns the word under which the role is stored.
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

    /// Returns the role's name.
    pub fn term(self) -> Message {
        Message::new(match self {
            AccountRole::Reader => "office-role-reader",
            AccountRole::Clerk => "office-role-clerk",
            AccountRole::Supervisor => "office-role-supervisor",
            AccountRole::Administrator => "office-role-administrator",
        })
    }

    /// Returns what the role may do.
    pub fn allows(self) -> Message {
        let rights = self.rights().iter().map(|right| right.term());
        message!("office-role-allows", rights = Arg::list(Joint::Semicolon, rights))
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
