//! The organisation's own editions of procedures, folded from the roster: which were published, for which sites, and
//! which were taken back.
//!
//! The roster is the document for them because every device of the organisation receives it, whatever its sites: an
//! edition that several sites share is published once, with one signature, and reaches a phone no later than the first
//! stay that names it. A text that came from outside is read and checked here again, whoever published it. What a text
//! says is decided in `procedure`, and whether an entry counts in `authority`.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::slots::{Item, Slots};
use crate::Message;
use crate::authority::Judged;
use crate::clock::UtcMillis;
use crate::entry::site_facts::PublishedProcedure;
use crate::entry::{Statement, under};
use crate::ids::{Digest, EntryId, OperatorId, SiteId};
use crate::procedure::{Procedure, ProcedureError};

/// A published edition.
#[derive(Clone, Debug, PartialEq)]
pub struct Edition {
    /// The SHA-256 of its text.
    pub digest: Digest,
    /// What it says, or why it cannot be used here.
    pub procedure: Result<Arc<Procedure>, Message>,
    /// What was published last: the text, the sites, what it was made from.
    pub published: PublishedProcedure,
    /// The entry that published it last.
    pub entry: EntryId,
    /// Who published it.
    pub by: OperatorId,
    /// When, by the clock of the device that signed.
    pub at: UtcMillis,
    /// By whom, when and why it was taken back, if it was.
    pub taken_back: Option<TakenBack>,
}

/// The end of an edition.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TakenBack {
    /// Who took it back.
    pub by: OperatorId,
    /// When.
    pub at: UtcMillis,
    /// Why.
    pub because: String,
}

impl Edition {
    /// Returns true if new stays at a site may begin under it.
    pub fn is_for(&self, site: SiteId) -> bool {
        let sites = &self.published.sites;
        self.taken_back.is_none() && self.procedure.is_ok() && (sites.is_empty() || sites.contains(&site))
    }
}

/// All editions that the organisation published.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Editions {
    /// In the order in which they were published last or taken back.
    all: Vec<Edition>,
}

impl Editions {
    /// Folds the entries of the roster. The order of entries and duplicates do not matter. Texts that were read
    /// `before` are not read again.
    pub fn fold<'a>(entries: impl IntoIterator<Item = Judged<'a>>, before: &Editions) -> Editions {
        let concerned = |judged: &Judged<'_>| judged.entry().body.speaks_of().starts_with(under::PROCEDURES);
        let slots = Slots::fold(entries.into_iter().filter(concerned));
        let known: BTreeMap<Digest, &Edition> =
            before.all.iter().map(|known| (known.digest, known)).collect();
        let mut found: Vec<((bool, UtcMillis, usize), Edition)> = Vec::new();
        for slot in slots.names() {
            let published = slots.all(slot).rev().find_map(|item| match &item.entry.body.says {
                Statement::ProcedurePublished(said) => Some((item, said)),
                _ => None,
            });
            let Some((item, said)) = published else { continue };
            let same_text = known.get(&said.procedure).filter(|known| known.published.text == said.text);
            let procedure = same_text.map_or_else(|| read(said), |known| known.procedure.clone());
            let last = slots.latest(slot);
            let taken_back = match last.and_then(|item| Some((item, item.claim?))) {
                Some((_, Statement::ProcedurePublished(_))) => None,
                Some((item, Statement::ProcedureWithdrawn { because, .. })) => Some(ended(item, because)),
                _ => {
                    let by = item.replaced_by.and_then(|place| slots.items().get(place)).unwrap_or(item);
                    Some(ended(by, &by.entry.body.why))
                }
            };
            let last = last.unwrap_or(item);
            found.push((
                (last.credible, last.at, last.place),
                Edition {
                    digest: said.procedure,
                    procedure,
                    published: said.clone(),
                    entry: item.entry.id,
                    by: item.entry.body.by.in_bounds(),
                    at: item.at,
                    taken_back,
                },
            ));
        }
        found.sort_by_key(|(place, _)| *place);
        Editions { all: found.into_iter().map(|(_, edition)| edition).collect() }
    }

    /// Returns all editions, the one published last or taken back last at the end.
    pub fn iter(&self) -> impl DoubleEndedIterator<Item = &Edition> {
        self.all.iter()
    }

    /// Returns the edition with this digest, whether or not it was taken back.
    pub fn edition(&self, digest: Digest) -> Option<&Edition> {
        self.all.iter().find(|edition| edition.digest == digest)
    }

    /// Returns what the edition with this digest says, if it can be used here. A stay keeps the edition that it was
    /// begun under, so it does not matter whether that was taken back.
    pub fn get(&self, digest: Digest) -> Option<&Procedure> {
        self.edition(digest)?.procedure.as_deref().ok()
    }

    /// Returns the text with this digest.
    pub fn text(&self, digest: Digest) -> Option<&str> {
        self.get(digest)?;
        Some(&self.edition(digest)?.published.text)
    }

    /// Returns the edition under which new stays at a site begin: the newest that is for the site and not taken
    /// back. Without one the built-in procedure applies.
    pub fn for_site(&self, site: SiteId) -> Option<&Procedure> {
        self.all.iter().rev().find(|edition| edition.is_for(site))?.procedure.as_deref().ok()
    }
}

fn ended(item: &Item<'_>, because: &str) -> TakenBack {
    TakenBack { by: item.entry.body.by.in_bounds(), at: item.at, because: because.trim().to_owned() }
}

/// Reads a published text. Nothing about it is taken on trust.
fn read(said: &PublishedProcedure) -> Result<Arc<Procedure>, Message> {
    if Digest::of(said.text.as_bytes()) != said.procedure {
        return Err(Message::new("procedure-error-other-digest"));
    }
    let procedure = Procedure::read(&said.text).map_err(|error| error.message_in(&said.text))?;
    if procedure.starts_from.is_none() {
        return Err(ProcedureError::UnknownStart.message_in(&said.text));
    }
    Ok(Arc::new(procedure))
}

/// Checks a text before it is published: it can be read, it starts from a built-in edition, and what law asks for in
/// the edition it was made `from` is there or left out with a reason.
///
/// # Errors
/// Why it is refused, with the line, for people.
pub fn fit_to_publish(text: &str, from: Option<&Procedure>) -> Result<Procedure, Message> {
    let of_text = |error: ProcedureError| error.message_in(text);
    let procedure = Procedure::read(text).map_err(of_text)?;
    if procedure.starts_from.is_none() {
        return Err(of_text(ProcedureError::UnknownStart));
    }
    if let Some(from) = from {
        crate::procedure::check_left_out(from, &procedure).map_err(of_text)?;
    }
    Ok(procedure)
}
