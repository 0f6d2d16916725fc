//! The slots of a visit together with the attribution of each entry: who made it, when, and on which device.
//!
//! Every part of the view reads through [`FoldContext`]; the meaning of records is not decided here.

use std::cell::OnceCell;
use std::collections::{BTreeMap, HashMap};

use chrono::NaiveDate;
use serde::Serialize;

use super::context::{Context, Recorded, Standing};
use super::done::stated_done;
use super::site::one_name;
use super::slots::{Item, Slots};
use super::track::Track;
use crate::authority::{Judged, Named};
use crate::clock::UtcMillis;
use crate::entry::site_facts::Instrument;
use crate::entry::vocabulary::{Position, Receiver};
use crate::entry::{Slot, Statement};
use crate::ids::{DeviceId, Digest, EntryId, OperatorId, Subject, VisitId};
use crate::procedure::{Procedure, Threshold};
use crate::text;
use crate::{Arg, Message, message};

/// The attribution of an entry: who made it, when, and on which device.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Attribution {
    /// The entry's id.
    pub entry: EntryId,
    /// The person's code.
    pub by: OperatorId,
    /// The person's name from the roster, or the code.
    pub name: String,
    /// The device.
    pub device: DeviceId,
    /// The name that the device was enrolled under, or the first digits of its key.
    pub device_name: String,
    /// The device's standing with its organisation.
    pub standing: Standing,
    /// To what degree the person confirmed the entry.
    pub named: Named,
    /// The time of the device's clock.
    pub claimed: UtcMillis,
    /// The claimed time, corrected by the known clock difference, in the site's zone.
    pub shown: String,
    /// When the thing was done, by the device's clock, if the entry states it.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub done: Option<UtcMillis>,
    /// The same time, corrected as the claimed time is, in the site's zone: its time of day, with the date if it is
    /// another day than the entry's.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub done_shown: Option<String>,
    /// The claimed time as the device displayed it, with its offset from UTC.
    pub device_time: String,
    /// The known difference of the device's clock to the server's, in milliseconds; positive if it is ahead.
    pub ahead_millis: Option<i64>,
    /// Whether the difference comes from a neighbouring entry of the device instead of this one.
    pub ahead_from_neighbour: bool,
    /// The position that the device recorded.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub place: Option<Position>,
    /// Whether a receipt of the server covers the entry.
    pub receipted: bool,
    /// The reason stated in the entry.
    pub why: String,
}

impl Attribution {
    /// Returns "Name, 2026-11-24 14:05 CST", with a warning if the device was revoked.
    pub fn signature(&self) -> Message {
        let signature = match self.standing {
            Standing::NotHeldBeforeRevocation => Message::new("attribution-revoked"),
            _ => Message::new("attribution"),
        };
        signature.with("name", Arg::typed(&self.name)).with("time", self.time())
    }

    /// Returns the time of the entry or, if the entry states when the thing was done, both.
    pub fn time(&self) -> Message {
        match &self.done_shown {
            Some(done) => {
                message!("attribution-done", done = Arg::typed(done), entered = Arg::typed(&self.shown))
            }
            None => Message::typed(&self.shown),
        }
    }

    /// Returns the corrected time at which the thing was done, as far as the entry states it; otherwise that of the
    /// entry.
    pub fn done_at(&self) -> UtcMillis {
        let claimed = self.done.map_or(self.claimed, |done| done.min(self.claimed));
        UtcMillis(claimed.0.saturating_sub(self.ahead_millis.unwrap_or(0)))
    }
}

/// A value that stands, with its attribution. If entries disagree, this is the one claimed last and
/// `disputed` is true; the view's disagreements show all of them.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Attested<T> {
    /// The value.
    pub value: T,
    /// The attribution of the value or, after a settlement, of the settlement.
    pub said: Attribution,
    /// After a settlement, the attribution of the entry that was kept.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub kept: Option<Attribution>,
    /// The number of other live entries that state the same.
    pub also: usize,
    /// Whether a live entry states something else.
    pub disputed: bool,
}

/// The slots and the attributions of their entries.
pub(super) struct FoldContext<'a> {
    pub ctx: &'a Context<'a>,
    pub slots: Slots<'a>,
    pub zone: chrono_tz::Tz,
    /// The present date in that zone.
    pub today: Option<NaiveDate>,
    pub receiver: Option<Receiver>,
    pub visits: Vec<VisitId>,
    procedure_named: Option<Digest>,
    receipts: HashMap<EntryId, (bool, Option<UtcMillis>)>,
    named: HashMap<EntryId, Named>,
    said: Vec<OnceCell<Attribution>>,
    /// A short form of each entry's claim, for quotation. One entry may be quoted by all others, so it is
    /// computed once.
    quotes: Vec<OnceCell<Message>>,
    /// A short form of each entry's own sentence.
    briefs: Vec<OnceCell<Message>>,
    /// A short form of the reason in each entry.
    reasons: Vec<OnceCell<String>>,
    photos_about: OnceCell<HashMap<&'a str, Vec<Digest>>>,
    instruments: OnceCell<HashMap<String, &'a Instrument>>,
    /// The other cars on the track.
    pub track: Track<'a>,
    /// The entries whose ground on another car ended, each with the time.
    pub ended: BTreeMap<usize, UtcMillis>,
}

/// The longest text repeated beside another one, in characters. The full text is shown with its own entry.
/// Without this limit a reason of 32 kB could be repeated a thousand times.
const REPEATED: usize = 400;
/// The most entries quoted in one sentence; of further ones only the number is stated.
pub(super) const QUOTED: usize = 6;

/// Returns a text shortened for repetition beside another one.
pub(super) fn briefly(text: &str) -> String {
    match text.char_indices().nth(REPEATED) {
        Some((end, _)) => format!("{}\u{2026}", &text[..end]),
        None => text.to_owned(),
    }
}

impl<'a> FoldContext<'a> {
    /// Builds the ledger of a stay. `looking_back`: what came after its last entry is not looked at.
    pub fn of_stay(entries: &[Recorded<'a>], ctx: &'a Context<'a>, looking_back: bool) -> FoldContext<'a> {
        let judged = ctx.authority.stay(entries.iter().map(Recorded::received));
        let stay = entries.iter().filter_map(|recorded| match recorded.entry.body.about {
            Subject::Visit(visit) => Some(visit),
            _ => None,
        });
        let track = Track::read(ctx, &stay.collect());
        let mut ledger = FoldContext::new(track.judge(ctx, judged), entries, ctx);
        let last = || ledger.slots.items().iter().map(|item| item.at).max();
        let released = ledger.slots.latest(&Slot::RELEASED).map(|item| item.at);
        let until = if looking_back { last() } else { released }.unwrap_or(ctx.now);
        let ended = track.ended(ctx, ledger.procedure(), &ledger.slots, until);
        ended.iter().for_each(|(place, _)| ledger.slots.end(*place));
        (ledger.track, ledger.ended) = (track, ended.into_iter().collect());
        ledger
    }

    /// Builds the ledger of a car.
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
        let messages = || vec![OnceCell::new(); slots.items().len()];
        let (quotes, briefs, reasons) = (messages(), messages(), none());
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
            track: Track::default(),
            ended: BTreeMap::new(),
        }
    }

    /// Returns a short form of an entry's claim.
    pub fn quote(&self, item: &Item<'a>) -> Option<&Message> {
        let claim = item.claim?;
        let cell = self.quotes.get(item.claim_place)?;
        Some(cell.get_or_init(|| self.says(claim).briefly(REPEATED)))
    }

    /// Returns a short form of an entry's sentence.
    pub fn sentence_briefly(&self, item: &Item<'a>) -> Message {
        match self.briefs.get(item.place).filter(|_| item.verdict.counts()) {
            Some(cell) => cell.get_or_init(|| self.sentence(item).briefly(REPEATED)).clone(),
            None => self.sentence(item).briefly(REPEATED),
        }
    }

    /// Returns the attribution of an entry, with its reason shortened.
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
                    done_shown: said.done_shown.clone(),
                    device_time: said.device_time.clone(),
                    ..*said
                }
            }
            None => self.make_said(item),
        }
    }

    /// Returns the standing photographs that state a slot as their subject.
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

    /// Returns the site's instrument with this name; case and outer blanks do not matter.
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

    /// Takes the attributions of all entries, in their order, for the last user of the ledger.
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
            done: entry.body.done,
            done_shown: stated_done(item).map(|done| done.shown_beside(item.at, self.zone)),
            device_time: entry.body.when.local(),
            ahead_millis: item.ahead_millis,
            ahead_from_neighbour: item.ahead_from_neighbour,
            place: entry.body.place,
            receipted,
            why: text::own(entry.body.why.trim()).into_owned(),
        }
    }

    /// Returns the procedure that the visit names, or the default one if that text is not known here.
    pub fn procedure(&self) -> Option<&'a Procedure> {
        let own = self.procedure_named.and_then(|digest| self.ctx.procedure(digest));
        own.or_else(|| self.ctx.procedures.default_procedure())
    }

    /// Returns a number that the visit's own procedure sets.
    pub fn threshold(&self, threshold: Threshold) -> Option<u32> {
        let own = self.procedure_named.and_then(|digest| self.ctx.procedure(digest))?;
        own.thresholds.get(threshold)
    }

    pub fn procedure_is_the_visits_own(&self) -> bool {
        self.procedure_named.is_some_and(|digest| self.ctx.procedure(digest).is_some())
    }

    pub fn receipt(&self, item: &Item<'_>) -> (bool, Option<UtcMillis>) {
        self.receipts.get(&item.entry.id).copied().unwrap_or_default()
    }

    /// Returns why an entry no longer stands: the reason in the entry that replaced it.
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
            _ => device.short().to_string(),
        }
    }

    pub fn shown(&self, at: UtcMillis) -> String {
        at.shown_in(self.zone)
    }

    /// Returns the value of a slot, read from the latest claim.
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

    /// Returns the claims of all live entries of a slot.
    pub fn claims(&self, slot: &str) -> Vec<Option<&'a Statement>> {
        self.slots.live(slot).map(|item| item.claim).collect()
    }

    /// Returns true if the slot has a live claim and all its live claims pass.
    pub fn all_claim(&self, slot: &str, passes: impl Fn(&Statement) -> bool) -> bool {
        let claims = self.claims(slot);
        !claims.is_empty() && claims.iter().all(|claim| claim.is_some_and(&passes))
    }

    /// Returns the live entries of some slots, as the evidence for a blocker.
    pub fn evidence<'s>(&self, slots: impl IntoIterator<Item = &'s str>) -> Vec<EntryId> {
        let mut ids: Vec<EntryId> =
            slots.into_iter().flat_map(|slot| self.slots.live(slot).map(|item| item.entry.id)).collect();
        ids.sort_unstable();
        ids.dedup();
        ids
    }
}
