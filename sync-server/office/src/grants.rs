//! The grant of a device: at which sites, with which rights and until when it may work. Also the words for
//! these on the command line and in forms.
//!
//! This file parses and prints grants. The core decides from the certificate what a grant allows. Called by
//! `enrolment`, the database and the pages.

use crate::names::plain_name;
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::{Right, Role};
use farsiding_core::ids::SiteId;
use farsiding_core::{Arg, Joint, Message, message};
use farsiding_words::english;

const DAY: i64 = 24 * 60 * 60 * 1000;

/// The grant of a device. The default is all sites, including later ones, with all rights of the device's
/// role, until the device is revoked. An organisation with one site then has nothing to choose, and its
/// phones keep working when a second site is added.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Grant {
    /// The granted sites, sorted; `None` means all sites, including later ones.
    pub sites: Option<Vec<SiteId>>,
    /// The rights in place of those of the role, sorted; `None` means the rights of the role.
    pub rights: Option<Vec<Right>>,
    /// The end of the grant; `None` means until the device is revoked.
    pub valid_until: Option<UtcMillis>,
}

/// Why a typed grant cannot be used.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum GrantError {
    /// There is no site of that name or id.
    #[error("no site is called \"{text}\"; the sites known here: {known}")]
    NoSuchSite {
        /// The typed text.
        text: String,
        /// The sites there are.
        known: String,
    },
    /// Several sites have the name.
    #[error("several sites are called \"{0}\"; give the site's id instead")]
    TwoSites(String),
    /// There is no right of that name.
    #[error("\"{text}\" is no right; the rights are: {known}")]
    NoSuchRight {
        /// The typed text.
        text: String,
        /// The rights there are.
        known: String,
    },
    /// The text is not a date.
    #[error("\"{0}\" is no date; write it as 2027-06-30")]
    NoDate(String),
    /// The date is in the past.
    #[error("{0} is over already")]
    Over(String),
    /// The grant of an inspector's device names no sites.
    #[error("say which sites an inspector's device may read, or \"all\"")]
    InspectorWithoutSites,
}

impl GrantError {
    /// Returns what a person is told on a page.
    pub fn message(&self) -> Message {
        match self {
            GrantError::NoSuchSite { text, .. } => {
                message!("office-grant-no-such-site", text = Arg::typed(text))
            }
            GrantError::TwoSites(text) => message!("office-grant-two-sites", text = Arg::typed(text)),
            GrantError::NoSuchRight { text, .. } => {
                message!("office-grant-no-such-right", text = Arg::typed(text))
            }
            GrantError::NoDate(text) => message!("office-grant-no-date", text = Arg::typed(text)),
            GrantError::Over(text) => message!("office-grant-over", text = Arg::typed(text)),
            GrantError::InspectorWithoutSites => message!("office-grant-inspector"),
        }
    }
}

impl Grant {
    /// Returns a grant with these sites and rights, sorted and without duplicates.
    pub fn new(
        sites: Option<Vec<SiteId>>,
        rights: Option<Vec<Right>>,
        valid_until: Option<UtcMillis>,
    ) -> Grant {
        let mut grant = Grant { sites, rights, valid_until };
        if let Some(sites) = &mut grant.sites {
            sites.sort_unstable();
            sites.dedup();
        }
        if let Some(rights) = &mut grant.rights {
            rights.sort_unstable();
            rights.dedup();
        }
        grant
    }

    /// Returns the grant for a device of this role. If no rights are given, an inspector's device may only
    /// read.
    pub fn for_role(self, role: Role) -> Grant {
        match role {
            Role::Inspector => Grant { rights: self.rights.or_else(|| Some(vec![Right::Read])), ..self },
            Role::Operator | Role::Office => self,
        }
    }

    /// Returns the names of the granted sites, for people.
    pub fn sites_message(&self, known: &[(SiteId, String)]) -> Message {
        let Some(sites) = &self.sites else { return message!("office-grant-all-sites") };
        let name = |site: &SiteId| {
            let known = known.iter().find(|(id, name)| id == site && !name.is_empty());
            match known {
                Some((_, name)) => Message::typed(name),
                None => message!("office-devices-site", site = Arg::typed(site.short())),
            }
        };
        match sites.as_slice() {
            [] => message!("office-grant-no-site"),
            sites => message!("office-grant-list", items = Arg::list(Joint::Comma, sites.iter().map(name))),
        }
    }

    /// Returns the names of the granted sites, for the command line.
    pub fn sites_words(&self, known: &[(SiteId, String)]) -> String {
        english(&self.sites_message(known))
    }

    /// Returns the granted rights, for people.
    pub fn rights_message(&self) -> Message {
        match self.rights.as_deref() {
            None => message!("office-grant-all-rights"),
            Some([]) => message!("office-grant-no-right"),
            Some(rights) => {
                let items = rights.iter().map(|right| right_message(*right));
                message!("office-grant-list", items = Arg::list(Joint::Comma, items))
            }
        }
    }

    /// Returns the granted rights, for the command line.
    pub fn rights_words(&self) -> String {
        english(&self.rights_message())
    }

    /// Returns the last day of the grant, for people. A grant that ends at midnight has the day before as its
    /// last day.
    pub fn until_message(&self) -> Message {
        let Some(until) = self.valid_until else { return message!("office-grant-revoked") };
        let text = UtcMillis(until.0.saturating_sub(1)).rfc3339();
        message!("office-grant-until", day = Arg::typed(text.get(..10).unwrap_or(&text)))
    }

    /// Returns the last day of the grant, for the command line.
    pub fn until_words(&self) -> String {
        english(&self.until_message())
    }
}

/// Returns the words for a right, for people.
pub fn right_message(right: Right) -> Message {
    Message::term("office-grant-right", right.word())
}

/// Returns the words for a device's role, for people.
pub fn role_message(role: Role) -> Message {
    Message::term("office-grant-role", role.as_str())
}

/// Parses a list of site names or ids, separated by commas. "all" or an empty text means all sites.
///
/// # Errors
/// Returns a [`GrantError`] when a site is unknown or a name is ambiguous.
pub fn read_sites(text: &str, known: &[(SiteId, String)]) -> Result<Option<Vec<SiteId>>, GrantError> {
    if text.trim().is_empty() || text.trim().eq_ignore_ascii_case("all") {
        return Ok(None);
    }
    let mut sites = Vec::new();
    for part in text.split(',').map(str::trim).filter(|part| !part.is_empty()) {
        let named: Vec<SiteId> = known
            .iter()
            .filter(|(_, name)| plain_name(name) == plain_name(part))
            .map(|(id, _)| *id)
            .collect();
        match (named.as_slice(), SiteId::read(part)) {
            ([one], _) => sites.push(*one),
            ([], Ok(id)) if known.iter().any(|(site, _)| *site == id) => sites.push(id),
            ([], _) => {
                let names: Vec<&str> = known.iter().map(|(_, name)| name.as_str()).collect();
                let known = if names.is_empty() { "none yet".to_owned() } else { names.join(", ") };
                return Err(GrantError::NoSuchSite { text: part.to_owned(), known });
            }
            _ => return Err(GrantError::TwoSites(part.to_owned())),
        }
    }
    Ok(Some(sites))
}

/// Parses a list of rights, separated by commas. "all" or an empty text means the rights of the role.
///
/// # Errors
/// Returns [`GrantError::NoSuchRight`] for an unknown right.
pub fn read_rights(text: &str) -> Result<Option<Vec<Right>>, GrantError> {
    if text.trim().is_empty() || text.trim().eq_ignore_ascii_case("all") {
        return Ok(None);
    }
    let words = text.split(',').map(str::trim).filter(|word| !word.is_empty());
    let read = |word: &str| {
        Right::read(&word.to_ascii_lowercase().replace(['-', ' '], "_")).ok_or_else(|| {
            let known: Vec<&str> = Right::ALL.iter().map(|right| right.word()).collect();
            GrantError::NoSuchRight { text: word.to_owned(), known: known.join(", ") }
        })
    };
    words.map(read).collect::<Result<Vec<_>, _>>().map(Some)
}

/// Parses a last day such as `2027-06-30`, or a time in RFC 3339. A day counts to its end in UTC. An empty
/// text means no end.
///
/// # Errors
/// Returns a [`GrantError`] when the text is not a date or the date is in the past.
pub fn read_until(text: &str, now: UtcMillis) -> Result<Option<UtcMillis>, GrantError> {
    let text = text.trim();
    if text.is_empty() {
        return Ok(None);
    }
    let until = match (UtcMillis::read(&format!("{text}T00:00:00Z")), UtcMillis::read(text)) {
        (Some(midnight), _) => midnight.0.saturating_add(DAY),
        (_, Some(moment)) => moment.0,
        _ => return Err(GrantError::NoDate(text.to_owned())),
    };
    if until <= now.0 { Err(GrantError::Over(text.to_owned())) } else { Ok(Some(UtcMillis(until))) }
}

/// Returns the end of the day `days` days from now.
pub fn days_from(now: UtcMillis, days: u16) -> UtcMillis {
    let end = now.0.saturating_add(i64::from(days) * DAY);
    UtcMillis(end.div_euclid(DAY).saturating_add(1).saturating_mul(DAY))
}

/// Checks that the sites of an inspector's device are named, because an inspector must not be granted all
/// sites by omission.
///
/// # Errors
/// Returns [`GrantError::InspectorWithoutSites`] when no sites are named.
pub fn check_role(role: Role, sites_typed: &str) -> Result<(), GrantError> {
    match role {
        Role::Inspector if sites_typed.trim().is_empty() => Err(GrantError::InspectorWithoutSites),
        _ => Ok(()),
    }
}

/// Returns the sites as stored in a database column.
pub(super) fn sites_column(sites: Option<&Vec<SiteId>>) -> Option<String> {
    sites.map(|sites| sites.iter().map(ToString::to_string).collect::<Vec<_>>().join(" "))
}

/// Returns the rights as stored in a database column.
pub(super) fn rights_column(rights: Option<&Vec<Right>>) -> Option<String> {
    rights.map(|rights| rights.iter().map(|right| right.word()).collect::<Vec<_>>().join(" "))
}

/// Reads a grant from database columns. Unreadable parts are left out in such a way that a damaged row grants
/// less, never more.
pub(super) fn of_columns(sites: Option<&str>, rights: Option<&str>, valid_until: Option<i64>) -> Grant {
    let sites = sites.map(|text| text.split(' ').filter_map(|id| SiteId::read(id).ok()).collect());
    let rights = rights.map(|text| text.split(' ').filter_map(Right::read).collect());
    Grant::new(sites, rights, valid_until.map(UtcMillis))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;

    fn known() -> Vec<(SiteId, String)> {
        vec![
            (SiteId([1; 16]), "Invented Spur".to_owned()),
            (SiteId([2; 16]), "Made-up Junction".to_owned()),
            (SiteId([3; 16]), "Twin".to_owned()),
            (SiteId([4; 16]), "twin".to_owned()),
        ]
    }

    #[test]
    fn sites_are_chosen_by_the_names_the_office_knows() {
        let read = |text: &str| read_sites(text, &known());
        assert_eq!(read("").unwrap(), None);
        assert_eq!(read(" ALL ").unwrap(), None);
        assert_eq!(read("invented  spur").unwrap(), Some(vec![SiteId([1; 16])]));
        let both = format!("Made-up Junction, {}", SiteId([1; 16]));
        assert_eq!(read(&both).unwrap(), Some(vec![SiteId([2; 16]), SiteId([1; 16])]));
        assert_eq!(read("Twin").unwrap_err(), GrantError::TwoSites("Twin".to_owned()));
        let why = read("Nowhere").unwrap_err().to_string();
        assert!(why.contains("Nowhere") && why.contains("Invented Spur"), "{why}");
        let unknown = SiteId([9; 16]).to_string();
        assert!(read(&unknown).is_err(), "a site nobody here knows");
    }

    #[test]
    fn rights_are_read_however_they_are_hyphened_and_never_guessed() {
        assert_eq!(read_rights("").unwrap(), None);
        assert_eq!(read_rights("Lift-Hold, record").unwrap(), Some(vec![Right::LiftHold, Right::Record]));
        assert!(read_rights("record, everything").unwrap_err().to_string().contains("lift_hold"));
        for right in Right::ALL {
            assert_eq!(read_rights(right.word()).unwrap(), Some(vec![right]));
        }
    }

    #[test]
    fn a_last_day_holds_to_its_end() {
        let now = UtcMillis(1_790_000_000_000); // 2026-09-21
        let until = read_until("2026-09-30", now).unwrap().unwrap();
        assert_eq!(until.rfc3339().get(..19), Some("2026-10-01T00:00:00"));
        let grant = Grant { valid_until: Some(until), ..Grant::default() };
        assert_eq!(grant.until_words(), "until the end of 2026-09-30 UTC");
        assert_eq!(read_until("", now).unwrap(), None);
        assert_eq!(read_until("2026-09-20", now), Err(GrantError::Over("2026-09-20".to_owned())));
        for bad in ["next year", "30/09/2026", "2026-02-30"] {
            assert_eq!(read_until(bad, now), Err(GrantError::NoDate(bad.to_owned())));
        }
        assert_eq!(days_from(UtcMillis(1), 1), UtcMillis(2 * DAY));
    }

    #[test]
    fn names_nobody_can_tell_apart_are_one() {
        for other in [
            "phone 3",
            " Phone  3 ",
            "Phone\u{a0}3",
            "Phone\u{2003}3",
            "Pho\u{200b}ne 3",
            "Phone\u{3164}3",
            "\u{202e}Phone 3",
            "Phone 3\u{fe0f}",
        ] {
            assert_eq!(plain_name(other), plain_name("Phone 3"), "{other:?}");
        }
        assert_ne!(plain_name("Phone 3"), plain_name("Phone 30"));
        assert_ne!(plain_name("Phone 3"), plain_name("Phone3"));
    }

    #[test]
    fn what_the_register_keeps_reads_back_and_damage_grants_less() {
        let grant = Grant::new(
            Some(vec![SiteId([2; 16]), SiteId([1; 16]), SiteId([2; 16])]),
            Some(vec![Right::Release, Right::Record]),
            Some(UtcMillis(7)),
        );
        let columns = (sites_column(grant.sites.as_ref()), rights_column(grant.rights.as_ref()));
        assert_eq!(of_columns(columns.0.as_deref(), columns.1.as_deref(), Some(7)), grant);
        assert_eq!(of_columns(None, None, None), Grant::default());
        assert_eq!(of_columns(Some("zz"), Some("all"), None), Grant::new(Some(vec![]), Some(vec![]), None));
    }
}
