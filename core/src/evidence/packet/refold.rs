//! The reconstruction of a record from the attachments. The packet's pages are printed from its result, and
//! every check of a packet repeats it.
//!
//! The reconstruction is pure: the present is the time when the office received the stay's last entry, and
//! names and time zone come from the attached site and roster. Signatures are verified by `check`.

use std::collections::{BTreeMap, BTreeSet};

use super::parts::Parts;
use crate::authority::Authority;
use crate::clock::UtcMillis;
use crate::entry::{Certificate, Entry, Statement, Trusts};
use crate::ids::{DeviceId, Digest, EntryId, OperatorId};
use crate::procedure::Procedures;
use crate::store::Names;
use crate::view::{self, Chains, Context, DeviceFacts, Editions, Person, Recorded, SiteView, VisitView};

/// The decoded entries of a packet, and the record folded from them.
#[derive(Debug)]
pub struct Refolded {
    /// The record.
    pub view: VisitView,
    /// The time when the office received each entry, by the office's clock.
    pub received: BTreeMap<EntryId, UtcMillis>,
    /// The valid certificates by device.
    pub certificates: BTreeMap<DeviceId, Certificate>,
    /// The site as far as it is attached.
    pub site: Option<SiteView>,
    /// The entries whose act binds the person.
    pub binding: BTreeSet<EntryId>,
    /// The time that the packet speaks for.
    pub at: UtcMillis,
    /// The organisation's own procedure that the stay was begun under, by its digest, if it is one.
    pub own_text: Option<(Digest, String)>,
}

fn open_all(list: &[serde_bytes::ByteBuf]) -> Vec<Entry> {
    list.iter().filter_map(|bytes| Entry::open(bytes).ok()).collect()
}

/// Folds the valid entries. Invalid entries and certificates are left out.
pub fn refold(parts: &Parts, organisation: &dyn Trusts, procedures: &Procedures) -> Refolded {
    let visit = open_all(&parts.entries.visit);
    let car = open_all(&parts.entries.car);
    let site = open_all(&parts.entries.site);
    let roster = open_all(&parts.entries.roster);
    let received: BTreeMap<EntryId, UtcMillis> =
        parts.log.leaves.iter().map(|leaf| (leaf.entry, leaf.received_at)).collect();
    let certificates: BTreeMap<DeviceId, Certificate> = parts
        .certificates
        .certificates
        .iter()
        .filter_map(|bytes| Certificate::open(bytes, organisation).ok())
        .map(|certificate| (certificate.device, certificate))
        .collect();
    let with_time = |entry| -> (&Entry, Option<UtcMillis>) {
        let entry: &Entry = entry;
        (entry, received.get(&entry.id).copied())
    };
    let devices: BTreeMap<DeviceId, DeviceFacts> =
        certificates.iter().map(|(device, certificate)| (*device, certificate.into())).collect();
    let at = visit.iter().filter_map(|entry| received.get(&entry.id)).max().copied().unwrap_or(UtcMillis(0));
    let site_id = site.iter().find_map(|entry| match entry.body.about {
        crate::ids::Subject::Site(site) => Some(site),
        _ => None,
    });
    let authority = Authority::of(certificates.values().cloned(), true).at(at);
    let on_roster = authority.roster(roster.iter().map(with_time));
    let people = view::people(on_roster.iter().copied(), &Names::of(parts.names.iter().cloned()));
    let editions = Editions::fold(on_roster.iter().copied(), &Editions::default());
    let authority = authority.clone().with_roster(on_roster);
    let site_view = site_id.map(|id| SiteView::fold(Some(id), authority.site(site.iter().map(with_time))));
    let chains = chains(parts, &visit, [&car, &site, &roster].into_iter().flatten());
    let recorded: Vec<Recorded<'_>> = visit.iter().map(|entry| recorded_at(entry, &received)).collect();
    // Beside what is known of the car stand the entries of other visits on which the stay rests.
    let (track, car): (Vec<&Entry>, Vec<&Entry>) = car.iter().partition(|entry| view::is_of_the_track(entry));
    let track: Vec<Recorded<'_>> = track.into_iter().map(|entry| recorded_at(entry, &received)).collect();
    let car: Vec<Recorded<'_>> = car.into_iter().map(|entry| recorded_at(entry, &received)).collect();
    let context = Context {
        site: site_view.as_ref(),
        authority: &authority,
        car: &car,
        track: &track,
        devices: &devices,
        people: &people,
        editions: Some(&editions),
        chains: Some(&chains),
        ..Context::at(at, procedures)
    };
    let view = view::fold(&recorded, &context);
    let own_text = view.header.procedure.and_then(|digest| Some((digest, editions.text(digest)?.to_owned())));
    let binding = visit.iter().filter(|entry| entry.body.says.binds()).map(|entry| entry.id).collect();
    Refolded { view, received, certificates, site: site_view, binding, at, own_text }
}

fn recorded_at<'e>(entry: &'e Entry, received: &BTreeMap<EntryId, UtcMillis>) -> Recorded<'e> {
    let received_at = received.get(&entry.id).copied();
    Recorded { entry, receipted: received_at.is_some(), received_at }
}

/// Returns the chains of the stay's devices, from each device's first entry in the stay to its last.
fn chains<'a>(parts: &Parts, visit: &[Entry], besides: impl Iterator<Item = &'a Entry>) -> Chains {
    let mut chains = Chains::default();
    let mut spans: BTreeMap<DeviceId, (u64, u64)> = BTreeMap::new();
    for entry in visit {
        chains.add(entry);
        let span = spans.entry(entry.device).or_insert((entry.body.seq, entry.body.seq));
        *span = (span.0.min(entry.body.seq), span.1.max(entry.body.seq));
    }
    for (device, (first, _)) in &spans {
        chains.look_from(*device, *first);
    }
    let within = |device: &DeviceId, seq: u64| {
        spans.get(device).is_some_and(|(first, last)| (*first..=*last).contains(&seq))
    };
    for entry in besides.filter(|entry| within(&entry.device, entry.body.seq)) {
        chains.add(entry);
    }
    for chain in &parts.log.chains {
        for other in chain.elsewhere.iter().filter(|other| within(&chain.device, other.seq)) {
            chains.add_by_id(chain.device, other.seq, other.entry);
        }
    }
    chains
}

/// Returns the people of a packet's roster as the fold shows them. A caller that makes a packet asks this, so that
/// it attaches the names that are shown and no others.
pub fn people_known(parts: &Parts, organisation: &dyn Trusts) -> BTreeMap<OperatorId, Person> {
    let roster = open_all(&parts.entries.roster);
    let received: BTreeMap<EntryId, UtcMillis> =
        parts.log.leaves.iter().map(|leaf| (leaf.entry, leaf.received_at)).collect();
    let certificates = parts.certificates.certificates.iter();
    let opened = certificates.filter_map(|bytes| Certificate::open(bytes, organisation).ok());
    let visit = open_all(&parts.entries.visit);
    let at = visit.iter().filter_map(|entry| received.get(&entry.id)).max().copied().unwrap_or(UtcMillis(0));
    let authority = Authority::of(opened, true).at(at);
    let judged = authority.roster(roster.iter().map(|entry| (entry, received.get(&entry.id).copied())));
    view::people(judged, &Names::of(parts.names.iter().cloned()))
}

/// Returns everybody named in these entries: their authors, and the people in handovers.
pub fn people_named<'a>(entries: impl IntoIterator<Item = &'a Entry>) -> Vec<OperatorId> {
    let mut named: Vec<OperatorId> = entries
        .into_iter()
        .flat_map(|entry| {
            let other = match &entry.body.says {
                Statement::HandoverGiven { to } => Some(to.clone()),
                Statement::HandoverTaken { from } => Some(from.clone()),
                _ => None,
            };
            [Some(entry.body.by.clone()), other].into_iter().flatten()
        })
        .collect();
    named.sort();
    named.dedup();
    named
}
