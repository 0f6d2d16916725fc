//! The slots of a visit together with who said what, when and on which device.
//!
//! Every part of the view reads through [`FoldContext`]; nothing here decides what a record means.

use std::cell::OnceCell;
use std::collections::HashMap;

use chrono::NaiveDate;
use serde::Serialize;

use super::context::{Context, Recorded, Standing};
use super::site::one_name;
use super::slots::{Item, Slots};
use crate::authority::{Judged, Named};
use crate::clock::UtcMillis;
use crate::entry::site_facts::Instrument;
use crate::entry::vocabulary::{Position, Receiver};
use crate::entry::{Slot, Statement};
use crate::ids::{DeviceId, Digest, EntryId, OperatorId, Subject, VisitId};
use crate::procedure::Procedure;
use crate::text;

/// Who said something, when and with what.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Attribution {
    /// The entry.
    pub entry: EntryId,
    /// The person's code.
    pub by: OperatorId,
    /// The person's name from the roster, or the code.
    pub name: String,
    /// The device.
    pub device: DeviceId,
    /// The name it was enrolled under, or the first digits of its key.
    pub device_name: String,
    /// How the organisation stands behind the device.
    pub standing: Standing,
    /// How far this is the person's own word.
    pub named: Named,
    /// The device's clock.
    pub claimed: UtcMillis,
    /// The claimed time, corrected by the known difference, in the site's zone.
    pub shown: String,
    /// The claimed time as the device displayed it, with its offset.
    pub device_time: String,
    /// What the device's clock is known to be ahead of the server's, milliseconds.
    pub ahead_millis: Option<i64>,
    /// Whether that was said by a neighbouring entry of the device, not by this one.
    pub ahead_from_neighbour: bool,
    /// Where the device said it was.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub place: Option<Position>,
    /// Whether a receipt of the server covers the entry.
    pub receipted: bool,
    /// The reason given with the entry.
    pub why: String,
}

impl Attribution {
    /// "Name, 2026-11-24 14:05 CST" with a warning where the device was revoked.
    pub fn signature(&self) -> String {
        match self.standing {
            Standing::NotHeldBeforeRevocation => {
                format!("{}, {} (device revoked)", self.name, self.shown)
            }
            _ => format!("{}, {}", self.name, self.shown),
        }
    }
}

/// A value that stands, with its author. Where entries disagree it is the one claimed last, and
/// `disputed` says so: both stand side by side in the view's disagreements.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Attested<T> {
    /// What was said.
    pub value: T,
    /// Who said it; where it was settled, who settled it.
    pub said: Attribution,
    /// Where it was settled: who had said it, and when.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub kept: Option<Attribution>,
    /// How many other live entries say the same.
    pub also: usize,
    /// Whether a live entry says something else.
    pub disputed: bool,
}

/// The slots and their authors.
pub(super) struct FoldContext<'a> {
    pub ctx: &'a Context<'a>,
    pub slots: Slots<'a>,
    pub zone: chrono_tz::Tz,
    /// Today in that zone.
    pub today: Option<NaiveDate>,
    pub receiver: Option<Receiver>,
    pub visits: Vec<VisitId>,
    procedure_named: Option<Digest>,
    receipts: HashMap<EntryId, (bool, Option<UtcMillis>)>,
    named: HashMap<EntryId, Named>,
    said: Vec<OnceCell<Attribution>>,
    /// What each entry claims, in few words, for whoever quotes it: one entry may be quoted by all others.
    quotes: Vec<OnceCell<String>>,
    /// Each entry's own sentence, in few words.
    briefs: Vec<OnceCell<String>>,
    /// The reason each entry gives, in few words.
    reasons: Vec<OnceCell<String>>,
    photos_about: OnceCell<HashMap<&'a str, Vec<Digest>>>,
    instruments: OnceCell<HashMap<String, &'a Instrument>>,
}

/// The longest text that is repeated beside something else; the whole stands in the entry it comes from. A reason may
/// have 32 kB and be the reason for a thousand others.
const REPEATED: usize = 400;
/// As many entries are quoted in a sentence; of more the number is said.
pub(super) const QUOTED: usize = 6;

/// A text as it is repeated beside something else.
pub(super) fn briefly(text: &str) -> String {
    match text.char_indices().nth(REPEATED) {
        Some((end, _)) => format!("{}\u{2026}", &text[..end]),
        None => text.to_owned(),
    }
}

impl<'a> FoldContext<'a> {
    /// The entries of a stay.
    pub fn of_stay(entries: &[Recorded<'a>], ctx: &'a Context<'a>) -> FoldContext<'a> {
        FoldContext::new(ctx.authority.stay(entries.iter().map(Recorded::received)), entries, ctx)
    }

    /// The entries of a car.
    pub fn of_car(entries: &[Recorded<'a>], ctx: &'a Context<'a>) -> FoldContext<'a> {
        FoldContext::new(ctx.authority.car(entries.iter().map(Recorded::received)), entries, ctx)
    }

    fn new(judged: Vec<Judged<'a>>, entries: &[Recorded<'a>], ctx: &'a Context<'a>) -> FoldContext<'a> {
        let named = ctx.authority.named(&judged);
        let named = judged.iter().map(|judged| judged.entry().id).zip(named).collect();
        let slots = Slots::fold(judged);
        let mut receipts: HashMap<EntryId, (bool, Option<UtcMillis>)> = HashMap::new();
        for recorded in entries {
            let here = receipts.entry(recorded.entry.id).or_default();
            here.0 |= recorded.receipted;
            here.1 = match (here.1, recorded.received_at) {
                (Some(a), Some(b)) => Some(a.min(b)),
                (a, b) => a.or(b),
            };
        }
        let said = slots.items().iter().map(|_| OnceCell::new()).collect();
        let none = || vec![OnceCell::new(); slots.items().len()];
        let (quotes, briefs, reasons) = (none(), none(), none());
        let mut visits: Vec<VisitId> = slots
            .items()
            .iter()
            .chain(slots.kept())
            .filter_map(|item| match item.entry.body.about {
                Subject::Visit(visit) => Some(visit),
                _ => None,
            })
            .collect();
        visits.sort_unstable();
        visits.dedup();
        let opened = slots.latest(&Slot::OPENED).and_then(|item| match item.claim {
            Some(Statement::Opened(opened)) => Some(opened),
            _ => None,
        });
        let receiver = opened.map(|opened| opened.receiver);
        let procedure_named = opened.map(|opened| opened.procedure);
        let zone = ctx.zone();
        let today = ctx.now.to_datetime().map(|now| now.with_timezone(&zone).date_naive());
        let (photos_about, instruments) = (OnceCell::new(), OnceCell::new());
        FoldContext {
            ctx,
            slots,
            zone,
            today,
            receiver,
            visits,
            procedure_named,
            receipts,
            named,
            said,
            quotes,
            briefs,
            reasons,
            photos_about,
            instruments,
        }
    }

    /// What an entry claims, in few words.
    pub fn quote(&self, item: &Item<'a>) -> Option<&str> {
        let claim = item.claim?;
        let cell = self.quotes.get(item.claim_place)?;
        Some(cell.get_or_init(|| briefly(&self.says(claim))))
    }

    /// An entry's sentence, in few words.
    pub fn sentence_briefly(&self, item: &Item<'a>) -> String {
        match self.briefs.get(item.place).filter(|_| item.verdict.counts()) {
            Some(cell) => cell.get_or_init(|| briefly(&self.sentence(item))).clone(),
            None => briefly(&self.sentence(item)),
        }
    }

    /// Who said an entry, with the reason in few words.
    pub fn said_briefly(&self, item: &Item<'a>) -> Attribution {
        match self.said.get(item.place).filter(|_| item.verdict.counts()) {
            Some(cell) => {
                let said = cell.get_or_init(|| self.make_said(item));
                Attribution {
                    why: briefly(&said.why),
                    by: said.by.clone(),
                    name: said.name.clone(),
                    device_name: said.device_name.clone(),
                    shown: said.shown.clone(),
                    device_time: said.device_time.clone(),
                    ..*said
                }
            }
            None => self.make_said(item),
        }
    }

    /// Photographs that stand and say they belong to a slot.
    pub fn photos_about(&self, slot: &str) -> &[Digest] {
        let by_slot = self.photos_about.get_or_init(|| {
            let mut by_slot: HashMap<&str, Vec<Digest>> = HashMap::new();
            for item in self.slots.stood(&Slot::PHOTOS) {
                if let Some(Statement::Photo { photo, about, .. }) = item.claim {
                    by_slot.entry(about).or_default().push(photo.sha256);
                }
            }
            by_slot
        });
        by_slot.get(slot).map(Vec::as_slice).unwrap_or_default()
    }

    /// The site's instrument with this name, as people write names.
    pub fn instrument(&self, name: &str) -> Option<&'a Instrument> {
        let by_name = self.instruments.get_or_init(|| {
            let mut by_name = HashMap::new();
            for instrument in self.ctx.site.map_or(&[][..], |site| site.instruments.as_slice()) {
                by_name.entry(one_name(&instrument.name)).or_insert(instrument);
            }
            by_name
        });
        by_name.get(&one_name(name)).copied()
    }

    pub fn said(&self, item: &Item<'a>) -> Attribution {
        match self.said.get(item.place).filter(|_| item.verdict.counts()) {
            Some(cell) => cell.get_or_init(|| self.make_said(item)).clone(),
            None => self.make_said(item),
        }
    }

    /// Who said each entry, in the order of the entries, for whoever needs it last.
    pub fn take_said(&mut self) -> Vec<Attribution> {
        let said = std::mem::take(&mut self.said);
        let items = self.slots.items().iter().zip(said);
        items.map(|(item, said)| said.into_inner().unwrap_or_else(|| self.make_said(item))).collect()
    }

    fn make_said(&self, item: &Item<'a>) -> Attribution {
        let entry = item.entry;
        let (receipted, received_at) = self.receipt(item);
        let device_name = self.device_name(entry.device);
        Attribution {
            entry: entry.id,
            by: entry.body.by.in_bounds(),
            name: self.name(&entry.body.by),
            device: entry.device,
            device_name,
            standing: self.ctx.standing(entry, received_at),
            named: self.named.get(&entry.id).copied().unwrap_or_default(),
            claimed: entry.body.when.at,
            shown: self.shown(item.at),
            device_time: entry.body.when.local(),
            ahead_millis: item.ahead_millis,
            ahead_from_neighbour: item.ahead_from_neighbour,
            place: entry.body.place,
            receipted,
            why: text::own(entry.body.why.trim()).into_owned(),
        }
    }

    /// The procedure the visit named, or the default where that text is not known here.
    pub fn procedure(&self) -> Option<&'a Procedure> {
        let own = self.procedure_named.and_then(|digest| self.ctx.procedures.get(digest));
        own.or_else(|| self.ctx.procedures.default_procedure())
    }

    pub fn procedure_is_the_visits_own(&self) -> bool {
        self.procedure_named.is_some_and(|digest| self.ctx.procedures.get(digest).is_some())
    }

    pub fn receipt(&self, item: &Item<'_>) -> (bool, Option<UtcMillis>) {
        self.receipts.get(&item.entry.id).copied().unwrap_or_default()
    }

    /// Why an entry no longer stands: the reason given by the entry that replaced it.
    pub fn why_gone(&self, item: &Item<'_>) -> String {
        let Some(by) = item.replaced_by.and_then(|place| self.slots.items().get(place)) else {
            return String::new();
        };
        let reason = || briefly(&text::own(by.entry.body.why.trim()));
        self.reasons.get(by.place).map_or_else(reason, |cell| cell.get_or_init(reason).clone())
    }

    pub fn name(&self, person: &OperatorId) -> String {
        match self.ctx.people.get(person) {
            Some(known) if !known.name.trim().is_empty() => text::on_one_line(&known.name).into_owned(),
            _ => person.in_bounds().0,
        }
    }

    pub fn device_name(&self, device: DeviceId) -> String {
        match self.ctx.devices.get(&device) {
            Some(facts) if !facts.name.trim().is_empty() => text::on_one_line(&facts.name).into_owned(),
            _ => format!("device {}", device.short()),
        }
    }

    pub fn shown(&self, at: UtcMillis) -> String {
        at.shown_in(self.zone)
    }

    /// The value of a slot, read from the claim last made.
    pub fn known<T>(&self, slot: &str, read: impl Fn(&'a Statement) -> Option<T>) -> Option<Attested<T>> {
        let latest = self
            .slots
            .live(slot)
            .filter(|item| item.claim.is_some_and(|claim| read(claim).is_some()))
            .max_by_key(|item| (item.credible, item.at, item.place))?;
        let value = latest.claim.and_then(&read)?;
        let mut others = self.slots.live(slot).filter(|item| item.place != latest.place).peekable();
        let also = match others.peek().and(latest.claim).and_then(Statement::claim_key) {
            None => 0,
            Some(said) => others
                .filter_map(|item| item.claim?.claim_key())
                .filter(|claim| claim.agrees_with(&said))
                .count(),
        };
        let kept = (latest.claim_place != latest.place)
            .then(|| self.slots.items().get(latest.claim_place))
            .flatten()
            .map(|item| self.said(item));
        Some(Attested { value, said: self.said(latest), kept, also, disputed: self.slots.is_disputed(slot) })
    }

    /// What all live entries of a slot claim; empty when the slot is.
    pub fn claims(&self, slot: &str) -> Vec<Option<&'a Statement>> {
        self.slots.live(slot).map(|item| item.claim).collect()
    }

    /// Whether something is claimed in a slot and every live claim passes.
    pub fn all_claim(&self, slot: &str, passes: impl Fn(&Statement) -> bool) -> bool {
        let claims = self.claims(slot);
        !claims.is_empty() && claims.iter().all(|claim| claim.is_some_and(&passes))
    }

    /// The live entries of some slots, as a blocker's evidence.
    pub fn evidence<'s>(&self, slots: impl IntoIterator<Item = &'s str>) -> Vec<EntryId> {
        let mut ids: Vec<EntryId> =
            slots.into_iter().flat_map(|slot| self.slots.live(slot).map(|item| item.entry.id)).collect();
        ids.sort_unstable();
        ids.dedup();
        ids
    }
}
