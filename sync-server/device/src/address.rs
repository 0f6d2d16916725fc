//! Finds the visit, entry or site that a typed text refers to: a car number, the beginning of an id, or a
//! name.
//!
//! An ambiguous text is never guessed at: the error lists the candidates.

use farsiding_core::book::Snapshot;
use farsiding_core::entry::Entry;
use farsiding_core::entry::car_number::CarNumber;
use farsiding_core::ids::{EntryId, SiteId, VisitId};

use super::DeviceError;

/// The fields of a stay that are needed to find it.
#[derive(Debug)]
struct Candidate {
    stay: Vec<VisitId>,
    car: Option<CarNumber>,
    released: bool,
    described: String,
}

fn candidates(gathered: &Snapshot) -> Vec<Candidate> {
    gathered
        .stays()
        .iter()
        .map(|stay| {
            let opened = gathered.opened(stay);
            let released = gathered.is_released(stay);
            let first = gathered.entries_of(stay).map(|(_, entry)| entry.body.when.at).min();
            let described = format!(
                "{} ({}{}{})",
                stay.first().map(VisitId::short).unwrap_or_default(),
                opened.as_ref().map_or("no car".to_owned(), |opened| opened.car.normal()),
                first.map_or(String::new(), |at| format!(", since {}", at.rfc3339())),
                if released { ", released" } else { "" },
            );
            Candidate { stay: stay.clone(), car: opened.map(|opened| opened.car), released, described }
        })
        .collect()
}

/// Returns the visit that `text` refers to: a full id, the beginning of an id (four digits or more), a car
/// number, or only the digits of a car number. If a car has several stays, the stay that is not released is
/// returned.
///
/// # Errors
/// Returns [`DeviceError::Refused`] with the candidates when the text is ambiguous or matches nothing.
pub fn visit(gathered: &Snapshot, text: &str) -> Result<VisitId, DeviceError> {
    let all = candidates(gathered);
    let id_text = text.trim().to_lowercase();
    let by_id: Vec<VisitId> = all
        .iter()
        .flat_map(|candidate| &candidate.stay)
        .filter(|id| id_text.len() >= 4 && id.to_string().starts_with(&id_text))
        .copied()
        .collect();
    if let ([one], true) = (by_id.as_slice(), id_text.len() >= 8) {
        return Ok(*one);
    }
    let wanted = CarNumber(text.to_owned());
    let digits = wanted.normal();
    let digits_alone = !digits.is_empty() && digits.chars().all(|c| c.is_ascii_digit());
    let of_car = |candidate: &&Candidate| {
        candidate.car.as_ref().is_some_and(|car| {
            let normal = car.normal();
            let number = normal.split_once(' ').map_or("", |(_, number)| number);
            normal == digits || (digits_alone && number == digits.trim_start_matches('0'))
        })
    };
    let mut found: Vec<&Candidate> = all.iter().filter(of_car).collect();
    if found.iter().filter(|candidate| !candidate.released).count() == 1 {
        found.retain(|candidate| !candidate.released);
    }
    match (found.as_slice(), by_id.as_slice()) {
        ([one], _) => one.stay.first().copied().ok_or_else(|| nowhere(text, &all, &wanted)),
        ([], [one]) => Ok(*one),
        ([], []) => Err(nowhere(text, &all, &wanted)),
        (several, by_id) => {
            let mut choices: Vec<String> = several.iter().map(|c| c.described.clone()).collect();
            let with_ids = all.iter().filter(|c| c.stay.iter().any(|id| by_id.contains(id)));
            choices.extend(with_ids.map(|c| c.described.clone()));
            choices.dedup();
            Err(DeviceError::Refused(format!(
                "\"{text}\" may mean several visits; give more of the id: {}",
                choices.join("; ")
            )))
        }
    }
}

fn nowhere(text: &str, all: &[Candidate], wanted: &CarNumber) -> DeviceError {
    let near: Vec<&str> = all
        .iter()
        .filter(|candidate| candidate.car.as_ref().is_some_and(|car| car.is_near(wanted)))
        .map(|candidate| candidate.described.as_str())
        .collect();
    let hint = match (near.as_slice(), all.is_empty()) {
        ([], true) => "there is none yet; begin one with `farsiding device open`".to_owned(),
        ([], false) => "see `farsiding device list --all`".to_owned(),
        (near, _) => format!("a similar number is here: {}", near.join("; ")),
    };
    DeviceError::Refused(format!("no visit here is \"{text}\": {hint}"))
}

/// Returns the one entry among `entries` whose id begins with the typed text.
///
/// # Errors
/// Returns [`DeviceError::Refused`] when no entry or more than one matches.
pub fn entry<'a>(
    entries: impl Iterator<Item = (VisitId, &'a Entry)>,
    text: &str,
) -> Result<(VisitId, &'a Entry), DeviceError> {
    let id_text = text.trim().to_lowercase();
    let found: Vec<(VisitId, &Entry)> = entries
        .filter(|(_, entry)| id_text.len() >= 4 && entry.id.to_string().starts_with(&id_text))
        .collect();
    match found.as_slice() {
        [one] => Ok(*one),
        [] => Err(DeviceError::Refused(format!(
            "no entry of this visit begins with \"{text}\" (four digits at least; `show` gives them with --json, \
             `history` in words)"
        ))),
        several => {
            let choices: Vec<String> =
                several.iter().map(|(_, e)| format!("{} ({})", short(e.id), e.body.says.kind())).collect();
            Err(DeviceError::Refused(format!("\"{text}\" may mean {}", choices.join(", "))))
        }
    }
}

/// Returns the short form of an entry's id, as people type it.
pub fn short(id: EntryId) -> String {
    id.short()
}

/// Returns the site that `text` refers to: its name, its full id (even if this device does not know the
/// site), or the beginning of its id.
///
/// # Errors
/// Returns [`DeviceError::Refused`] with the known sites when the text is ambiguous or matches nothing.
pub fn site(gathered: &Snapshot, text: &str) -> Result<SiteId, DeviceError> {
    if let Ok(id) = SiteId::read(text) {
        return Ok(id);
    }
    let wanted = text.trim().to_lowercase();
    let found: Vec<SiteId> = gathered
        .sites
        .iter()
        .filter(|(id, site)| {
            site.name.trim().to_lowercase() == wanted
                || (wanted.len() >= 4 && id.to_string().starts_with(&wanted))
        })
        .map(|(id, _)| *id)
        .collect();
    let listed = |ids: &mut dyn Iterator<Item = (&SiteId, &str)>| {
        ids.map(|(id, name)| format!("{name} ({})", id.short())).collect::<Vec<_>>().join(", ")
    };
    let mut all = gathered.sites.iter().map(|(id, site)| (id, site.name.as_str()));
    match found.as_slice() {
        [one] => Ok(*one),
        [] if gathered.sites.is_empty() => Err(DeviceError::Refused(format!(
            "no site is known here yet, so \"{text}\" is none; sync with the office, or describe it with \
             `farsiding device site new`"
        ))),
        [] => Err(DeviceError::Refused(format!(
            "no site here is \"{text}\"; there are: {}. A new one is described with `farsiding device site new`",
            listed(&mut all)
        ))),
        _ => Err(DeviceError::Refused(format!("\"{text}\" may mean several sites: {}", listed(&mut all)))),
    }
}
