//! The fold of a visit and the structure it makes.

use std::borrow::Cow;
use std::collections::BTreeMap;

use serde::Serialize;

use super::car::CarView;
use super::chain::{ChainGap, Chains};
use super::context::{Context, Recorded};
use super::fold_context::{Attested, Attribution, FoldContext};
use super::near::{Brief, Offer};
use super::quantity::Quantity;
use super::slots::{Fate, Item};
use super::{
    AttendanceView, Blocker, ClockView, CoverState, DefectView, EmptyView, FittingView, HandoverView, Header,
    HoldView, PassedOver, PhotoView, ProtectionView, ReadingView, ReleaseView, SealView, SeriesView,
    StepsView, TallyView, TrucksView, VisitParts,
};
use super::{
    computed, defects, findings, fittings, gate, header, near, readings, seals, steps, story, tally, watch,
};
use crate::entry::car_number::CarNumber;
use crate::entry::{Slot, Statement, under};
use crate::ids::{EntryId, Subject, VisitId};
use crate::procedure::Stage;
use crate::text;
use crate::units::{Finding, Severity};

/// One side of a disagreement.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Claim {
    /// What is claimed, in a sentence.
    pub sentence: String,
    /// Who claims it.
    pub said: Attribution,
}

/// Two or more live entries of one slot that differ.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Disagreement {
    /// The slot; settling it is an agreement with this slot that replaces `entries`.
    pub slot: String,
    /// The slot in words.
    pub about: String,
    /// Each claim, in order.
    pub claims: Vec<Claim>,
    /// The live entries.
    pub entries: Vec<EntryId>,
    /// Where it had been settled and the settlement was taken back: who did, and why. The newest comes last.
    pub reopened: Vec<Claim>,
}

/// A disagreement that is over.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct EndedDisagreement {
    /// The slot.
    pub slot: String,
    /// The slot in words.
    pub about: String,
    /// What was claimed.
    pub claims: Vec<Claim>,
    /// What ended it.
    pub ended_by: Claim,
    /// Whether it was settled or corrected with a reason; otherwise a later record just moved on.
    pub settled: bool,
    /// The account that was agreed on, where a settlement chose one.
    pub agreed: Option<EntryId>,
    /// The entry to take back, with a reason, where the disagreement should be open again; nothing where it was
    /// not ended by a settlement that stands.
    pub reopened_by_withdrawing: Option<EntryId>,
}

/// One entry as a sentence.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct HistoryLine {
    /// The slot it stands in.
    pub slot: String,
    /// What it says.
    pub sentence: String,
    /// What became of it.
    pub fate: Fate,
    /// Why it no longer stands, in the words of whoever corrected it; or why it does not count.
    pub why_gone: String,
    /// Whether saying this binds the person, so that it matters how they are named.
    pub binds: bool,
    /// Who said it.
    pub said: Attribution,
}

/// A gap in a device's chain, and the same in a sentence.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct ChainGapView {
    /// What is wrong.
    #[serde(flatten)]
    pub gap: ChainGap,
    /// In a sentence.
    pub sentence: String,
}

/// A check with a free name.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct CheckView {
    /// What was checked.
    pub what: String,
    /// Whether it was right.
    pub right: Attested<bool>,
    /// What was seen.
    pub note: String,
}

/// A whole stay as recorded.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct VisitView {
    /// Which car, where, into what, who, with what.
    pub header: Header,
    /// Where the job stands.
    pub stage: Stage,
    /// The steps of the procedure.
    pub steps: StepsView,
    /// The fittings.
    pub fittings: Vec<FittingView>,
    /// The protections.
    pub protections: Vec<ProtectionView>,
    /// The housing cover.
    pub cover: Option<Attested<CoverState>>,
    /// Readings with one truth.
    pub readings: Vec<ReadingView>,
    /// Series of readings.
    pub series: Vec<SeriesView>,
    /// Computed quantities.
    pub computed: Vec<Quantity>,
    /// Advice computed from weather and record.
    pub advice: Vec<Finding>,
    /// The evidence on whether the liquid is out.
    pub empty: EmptyView,
    /// Trucks loaded.
    pub trucks: TrucksView,
    /// Seals.
    pub seals: Vec<SealView>,
    /// Photographs.
    pub photos: Vec<PhotoView>,
    /// What is out.
    pub tally: TallyView,
    /// Defects of this visit and, marked by their visit, earlier ones.
    pub defects: Vec<DefectView>,
    /// Holds.
    pub holds: Vec<HoldView>,
    /// Handovers.
    pub handovers: Vec<HandoverView>,
    /// Attendance.
    pub attendance: AttendanceView,
    /// The car's clock.
    pub clock: Vec<ClockView>,
    /// Checks with a free name.
    pub checks: Vec<CheckView>,
    /// The weather recorded last, in a sentence.
    pub weather: Option<Attested<String>>,
    /// What is known of the car, this visit included.
    pub car: CarView,
    /// What differs and is not settled.
    pub disagreements: Vec<Disagreement>,
    /// What differed and is over.
    pub ended_disagreements: Vec<EndedDisagreement>,
    /// What is missing before release.
    pub blockers: Vec<Blocker>,
    /// Every word of passing over ever given.
    pub passed_over: Vec<PassedOver>,
    /// Where release stands.
    pub release: ReleaseView,
    /// What is needed to compare this stay with others; nothing while nobody opened it.
    pub brief: Option<Brief>,
    /// Offers to join this stay with another record.
    pub offers: Vec<Offer>,
    /// What is worth pointing out, worst first.
    pub findings: Vec<Finding>,
    /// Entries missing or doubled in the chain of a device that took part.
    pub chain_gaps: Vec<ChainGapView>,
    /// Entries of kinds this version does not know, kept whole.
    pub unrecognised: Vec<HistoryLine>,
    /// Every entry in causal and then claimed order, as a sentence.
    pub history: Vec<HistoryLine>,
    /// How many entries.
    pub entries: usize,
    /// How many of them no receipt covers.
    pub unreceipted: usize,
}

/// Folds the entries of a stay, joined visits together. Pure and total.
pub fn fold(entries: &[Recorded<'_>], ctx: &Context<'_>) -> VisitView {
    let ledger = FoldContext::of_stay(entries, ctx);
    let mut found = Vec::new();
    // What was said of the car during this stay counts as it counts in the stay.
    let during_this_stay = |r: &&Recorded<'_>| match r.entry.body.about {
        Subject::Visit(visit) => ledger.visits.contains(&visit),
        _ => false,
    };
    let of_the_car: Vec<Recorded<'_>> = ctx
        .car
        .iter()
        .filter(|r| !during_this_stay(r))
        .chain(entries.iter().filter(|r| goes_with_the_car(&ledger, r)))
        .copied()
        .collect();
    let car = CarView::of(&FoldContext::of_car(&of_the_car, ctx)).with_this_visits_word(&ledger, &mut found);
    let counting = fittings::that_count(&ledger, &car);
    let holds = defects::holds(&ledger);
    let seals = seals::fold(&ledger);
    let tally = tally::fold(&ledger);
    let visit_defects = with_photos(&ledger, &car.defects);
    let handovers = watch::handovers(&ledger);
    let attendance = watch::attendance(&ledger);
    let header = header::fold(&ledger, &handovers);
    let parts = VisitParts {
        counting: &counting,
        car: &car,
        defects: &visit_defects,
        holds: &holds,
        seals: &seals,
        tally: &tally,
    };
    findings::fold(&ledger, &parts, &header, &handovers, &attendance, &mut found);
    let steps = steps::fold(&ledger, ledger.procedure(), &counting, &mut found);
    let (mut blockers, passed_over) = gate::fold(&ledger, &parts);
    let release = gate::release(&ledger, &blockers, &mut found);
    for word in passed_over.iter().filter(|word| word.blocks_still && !word.stands) {
        let why = word.fallen.unwrap_or("it does not stand");
        let message = format!("\u{201c}{}\u{201d} was passed over, but {why}.", word.spoken);
        found.push(Finding::new("passed_over_fell", Severity::Check, message));
    }
    found.extend(kept_finding(&ledger));
    let (readings, series) = readings::fold(&ledger);
    let gaps = chain_gaps(&ledger);
    if !gaps.is_empty() {
        let sentences: Vec<&str> = gaps.iter().map(|gap| gap.sentence.as_str()).collect();
        found.push(Finding::new("chain_gaps", Severity::Check, sentences.join(" ")));
    }
    let fittings = fittings::fold(&ledger, &counting, &car);
    let brief = brief(&ledger, &header, release.released.is_some());
    let mut empty = tally::empty(&ledger);
    let (mut quantities, mut advice) = (Vec::new(), Vec::new());
    let inputs = computed::Inputs::gather(&ledger, &car, &empty, steps.stage);
    if ctx.compute {
        let made = match ctx.formulas {
            Some(formulas) => formulas.made(inputs.key(), || computed::make(&inputs)),
            None => computed::make(&inputs).into(),
        };
        quantities = made.quantities.clone();
        advice = made.advice.clone();
        empty.weigh(made.weighed.clone(), &mut found);
    } else if release.released.is_none() && empty.decision.as_ref().is_some_and(|d| d.value.accepted) {
        // The one thing that formulas can raise an alarm about, which a list counts while the car stands.
        let weighed = match ctx.formulas {
            Some(formulas) => formulas.weighed(inputs.key(), || computed::weigh(&inputs)),
            None => computed::weigh(&inputs),
        };
        empty.weigh(weighed, &mut found);
    }
    found.sort_by(|a, b| {
        b.severity.cmp(&a.severity).then_with(|| a.code.cmp(&b.code)).then_with(|| a.message.cmp(&b.message))
    });
    found.dedup();
    let own = |message: &mut String| {
        if let Cow::Owned(its_own) = text::own(message) {
            *message = its_own;
        }
    };
    found.iter_mut().for_each(|finding| own(&mut finding.message));
    blockers.iter_mut().for_each(|blocker| own(&mut blocker.missing));
    VisitView {
        stage: steps.stage,
        protections: seals::protections(&ledger),
        cover: seals::cover(&ledger),
        readings,
        series,
        computed: quantities,
        advice,
        empty,
        trucks: tally::trucks(&ledger),
        photos: seals::photos(&ledger),
        clock: watch::clock(&ledger),
        checks: checks(&ledger),
        weather: ledger.known(&Slot::WEATHER, |says| match says {
            Statement::Weather { .. } => Some(ledger.says(says)),
            _ => None,
        }),
        disagreements: disagreements(&ledger),
        ended_disagreements: ended(&ledger),
        offers: brief.as_ref().map_or(Vec::new(), |brief| near::offers(brief, ctx.others)),
        brief,
        unrecognised: unrecognised(&ledger),
        entries: ledger.slots.items().len() + ledger.slots.kept().len(),
        unreceipted: all_items(&ledger).filter(|item| !ledger.receipt(item).0).count(),
        chain_gaps: gaps,
        findings: found,
        header,
        steps,
        fittings,
        seals,
        tally,
        defects: visit_defects,
        holds,
        handovers,
        attendance,
        car,
        blockers,
        passed_over,
        release,
        history: history(ledger),
    }
}

/// The entries that count and those that do not.
fn all_items<'l, 'a>(ledger: &'l FoldContext<'a>) -> impl Iterator<Item = &'l Item<'a>> {
    ledger.slots.items().iter().chain(ledger.slots.kept())
}

/// Whether the car's fold needs the entry: what follows the car, and photographs that belong to it.
fn goes_with_the_car(ledger: &FoldContext<'_>, recorded: &Recorded<'_>) -> bool {
    let body = &recorded.entry.body;
    if ledger.slots.item(recorded.entry.id).is_none() {
        return false; // it does not count
    }
    match &body.says {
        Statement::Agreement { .. } | Statement::Withdrawn {} => body
            .replaces
            .iter()
            .filter_map(|id| ledger.slots.item(*id))
            .any(|item| item.claim.unwrap_or(&item.entry.body.says).follows_the_car()),
        Statement::Photo { about, .. } => about.starts_with(under::DEFECTS),
        says => says.follows_the_car(),
    }
}

/// Defects with the photographs taken during this visit.
fn with_photos(ledger: &FoldContext<'_>, known: &[DefectView]) -> Vec<DefectView> {
    let mut known = known.to_vec();
    for defect in &mut known {
        defect.photos.extend(defects::photos_about(ledger, &Slot::defect(&defect.id)));
        defect.photos.sort_unstable();
        defect.photos.dedup();
    }
    known
}

fn chain_gaps(ledger: &FoldContext<'_>) -> Vec<ChainGapView> {
    let here = Chains::of(all_items(ledger).map(|item| item.entry));
    let mut gaps = match ledger.ctx.chains {
        Some(all) => {
            let mut devices: Vec<_> = all_items(ledger).map(|item| item.entry.device).collect();
            devices.sort_unstable();
            devices.dedup();
            devices.into_iter().flat_map(|device| all.gaps_of(device)).collect()
        }
        None => Vec::new(),
    };
    gaps.extend(here.contradictions());
    gaps.sort();
    gaps.dedup();
    gaps.into_iter()
        .map(|gap| ChainGapView { sentence: gap.sentence(&ledger.device_name(gap.device())), gap })
        .collect()
}

fn line<'a>(ledger: &FoldContext<'a>, item: &Item<'a>, said: Attribution) -> HistoryLine {
    HistoryLine {
        slot: item.entry.body.slot.clone(),
        sentence: ledger.sentence(item),
        fate: item.fate,
        why_gone: match item.verdict.reason() {
            Some(reason) => reason.to_owned(),
            None => ledger.why_gone(item),
        },
        binds: item.entry.body.says.binds(),
        said,
    }
}

/// Every entry as a sentence, what does not count at the time it claims. Made last: it takes along who said
/// what instead of copying it.
fn history(mut ledger: FoldContext<'_>) -> Vec<HistoryLine> {
    let said = ledger.take_said();
    let mut kept = ledger.slots.kept().iter().peekable();
    let mut lines = Vec::with_capacity(said.len() + kept.len());
    for (item, said) in ledger.slots.items().iter().zip(said) {
        while let Some(before) = kept.next_if(|kept| kept.at < item.at) {
            lines.push(line(&ledger, before, ledger.said(before)));
        }
        lines.push(line(&ledger, item, said));
    }
    lines.extend(kept.map(|after| line(&ledger, after, ledger.said(after))));
    lines
}

/// What is kept without counting, pointed out: somebody tried to say it, and the record does not follow.
fn kept_finding(ledger: &FoldContext<'_>) -> Option<Finding> {
    let mut reasons: BTreeMap<&str, usize> = BTreeMap::new();
    for item in ledger.slots.kept() {
        *reasons.entry(item.verdict.reason().unwrap_or_default()).or_default() += 1;
    }
    if reasons.is_empty() {
        return None;
    }
    let told: Vec<String> = reasons
        .into_iter()
        .map(|(reason, count)| match count {
            1 => format!("1 entry is {reason}."),
            count => format!("{count} entries are {reason}."),
        })
        .collect();
    Some(Finding::new("entries_not_counted", Severity::Check, told.join(" ")))
}

fn unrecognised(ledger: &FoldContext<'_>) -> Vec<HistoryLine> {
    all_items(ledger)
        .filter(|item| matches!(item.entry.body.says, Statement::Unrecognised { .. }))
        .map(|item| line(ledger, item, ledger.said(item)))
        .collect()
}

fn checks(ledger: &FoldContext<'_>) -> Vec<CheckView> {
    ledger
        .slots
        .names_under(under::CHECKS)
        .filter_map(|slot| {
            let known = ledger.known(slot, |says| match says {
                Statement::Check { what, right, note } => Some((what.text(), *right, note.trim())),
                _ => None,
            })?;
            let (what, right, note) = known.value;
            let (what, note) = (what.trim().to_owned(), note.to_owned());
            let Attested { said, kept, also, disputed, .. } = known;
            Some(CheckView { what, right: Attested { value: right, said, kept, also, disputed }, note })
        })
        .collect()
}

fn claim<'a>(ledger: &FoldContext<'a>, item: &Item<'a>) -> Claim {
    Claim { sentence: ledger.sentence_briefly(item), said: ledger.said_briefly(item) }
}

fn disagreements(ledger: &FoldContext<'_>) -> Vec<Disagreement> {
    ledger
        .slots
        .disagreements()
        .map(|slot| Disagreement {
            slot: slot.to_owned(),
            about: text::own(&story::spoken_slot(slot)).into_owned(),
            claims: ledger.slots.live(slot).map(|item| claim(ledger, item)).collect(),
            entries: ledger.slots.live(slot).map(|item| item.entry.id).collect(),
            reopened: reopened(ledger, slot),
        })
        .collect()
}

/// Who took settlements of a slot back.
fn reopened(ledger: &FoldContext<'_>, slot: &str) -> Vec<Claim> {
    let items = ledger.slots.items();
    let mut by: Vec<usize> = ledger
        .slots
        .all(slot)
        .filter(|item| matches!(item.entry.body.says, Statement::Agreement { .. }))
        .filter(|item| item.fate == Fate::Withdrawn)
        .filter_map(|item| item.replaced_by)
        .collect();
    by.sort_unstable();
    by.dedup();
    by.into_iter().filter_map(|place| items.get(place)).map(|item| claim(ledger, item)).collect()
}

fn ended(ledger: &FoldContext<'_>) -> Vec<EndedDisagreement> {
    let items = ledger.slots.items();
    ledger
        .slots
        .ended()
        .into_iter()
        .filter_map(|ended| {
            let by = items.get(ended.by)?;
            Some(EndedDisagreement {
                about: text::own(&story::spoken_slot(&ended.slot)).into_owned(),
                claims: ended
                    .between
                    .iter()
                    .filter_map(|place| items.get(*place))
                    .map(|item| claim(ledger, item))
                    .collect(),
                ended_by: claim(ledger, by),
                settled: !by.entry.body.replaces.is_empty(),
                agreed: match by.entry.body.says {
                    Statement::Agreement { keeps } => Some(keeps),
                    _ => None,
                },
                reopened_by_withdrawing: (matches!(by.entry.body.says, Statement::Agreement { .. })
                    && by.fate == Fate::Live)
                    .then_some(by.entry.id),
                slot: ended.slot,
            })
        })
        .collect()
}

fn brief(ledger: &FoldContext<'_>, header: &Header, released: bool) -> Option<Brief> {
    let car: &CarNumber = &header.opened.as_ref()?.value.car;
    let mut joined = header.visits.clone();
    let mut not_joined: Vec<VisitId> = Vec::new();
    for slot in ledger.slots.names_under(under::JOINED) {
        match ledger.slots.settled(slot).and_then(|item| item.claim) {
            Some(Statement::Joined { other }) => joined.push(*other),
            Some(Statement::NotJoined { other }) => not_joined.push(*other),
            _ => {}
        }
    }
    joined.sort_unstable();
    joined.dedup();
    Some(Brief {
        visit: *header.visits.first()?,
        joined,
        car: car.clone(),
        site: header.site,
        from: header.since?,
        until: header.latest.filter(|_| released),
        not_joined,
    })
}
