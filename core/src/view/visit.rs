//! The fold of a visit, and the structure that it returns.

use std::collections::BTreeMap;

use serde::Serialize;

use super::car::CarView;
use super::chain::{ChainGap, Chains};
use super::context::{Context, Recorded};
use super::fold_context::{Attested, Attribution, FoldContext};
use super::near::{Brief, Offer};
use super::quantity::Quantity;
use super::slots::{Fate, Item};
use super::track::{self, TrackOffer};
use super::{
    AttendanceView, Blocker, CheckInView, ClockView, CoverState, DefectView, EmptyView, FittingView,
    HandoverView, Header, HoldView, HousingPlan, IncidentView, LeakView, LeavingView, PassedOver, PhotoView,
    ProtectionView, ReadingView, ReleaseView, SealView, SeriesView, StepsView, TallyView, TrucksView,
    UnloadingView, VisitParts,
};
use super::{
    check_in, computed, defects, findings, fittings, gate, header, incidents, leaks, leaving, near, plan,
    reading_uncertainty, readings, seals, steps, story, tally, watch,
};
use crate::clock::UtcMillis;
use crate::entry::car_number::CarNumber;
use crate::entry::vocabulary::{Fitting, Gate};
use crate::entry::{Slot, Statement, under};
use crate::ids::{EntryId, Subject, VisitId};
use crate::procedure::{GateRule, Stage};
use crate::units::{Finding, Severity};
use crate::{Arg, Joint, Message, message};

/// One side of a disagreement.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Claim {
    /// A sentence with the claim.
    pub sentence: Message,
    /// The attribution of the claim.
    pub said: Attribution,
}

/// Two or more live entries of one slot with different claims.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Disagreement {
    /// The slot. A settlement is an agreement in this slot that replaces `entries`.
    pub slot: String,
    /// The slot in words.
    pub about: Message,
    /// The claims in order.
    pub claims: Vec<Claim>,
    /// The live entries.
    pub entries: Vec<EntryId>,
    /// Earlier settlements of this disagreement that were withdrawn, with attribution and reason, the newest
    /// last.
    pub reopened: Vec<Claim>,
}

/// A disagreement that has ended.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct EndedDisagreement {
    /// The slot.
    pub slot: String,
    /// The slot in words.
    pub about: Message,
    /// The claims.
    pub claims: Vec<Claim>,
    /// The claim that ended it.
    pub ended_by: Claim,
    /// Whether the disagreement was settled or corrected with a reason; otherwise a later entry superseded
    /// it.
    pub settled: bool,
    /// The entry that a settlement agreed on, if there was one.
    pub agreed: Option<EntryId>,
    /// The entry that must be withdrawn, with a reason, to reopen the disagreement; `None` if no standing
    /// settlement ended it.
    pub reopened_by_withdrawing: Option<EntryId>,
}

/// One entry as a sentence.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct HistoryLine {
    /// The slot of the entry.
    pub slot: String,
    /// The sentence.
    pub sentence: Message,
    /// The fate of the entry.
    pub fate: Fate,
    /// The reason why the entry no longer stands, in the words of the person who corrected it, or why it does
    /// not count.
    pub why_gone: Message,
    /// Whether the statement binds the person, in which case the degree of confirmation matters.
    pub binds: bool,
    /// The attribution.
    pub said: Attribution,
}

/// A fault in a device's chain, with a sentence that describes it.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct ChainGapView {
    /// The fault.
    #[serde(flatten)]
    pub gap: ChainGap,
    /// The sentence.
    pub sentence: Message,
}

/// A check with a free name.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct CheckView {
    /// The name of the check.
    pub what: Message,
    /// Whether the result was right.
    pub right: Attested<bool>,
    /// A note of what was seen.
    pub note: String,
}

/// The complete record of a stay.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct VisitView {
    /// The header: car, site, receiver, people and devices.
    pub header: Header,
    /// The present stage of the job.
    pub stage: Stage,
    /// The steps of the procedure.
    pub steps: StepsView,
    /// The fittings.
    pub fittings: Vec<FittingView>,
    /// The plan of the fittings as a drawing; empty in a list.
    pub plan: HousingPlan,
    /// The protections.
    pub protections: Vec<ProtectionView>,
    /// The housing cover.
    pub cover: Option<Attested<CoverState>>,
    /// The readings with a single true value.
    pub readings: Vec<ReadingView>,
    /// The series of readings.
    pub series: Vec<SeriesView>,
    /// The computed quantities.
    pub computed: Vec<Quantity>,
    /// Advice computed from the weather and the record.
    pub advice: Vec<Finding>,
    /// The evidence of whether the liquid is out.
    pub empty: EmptyView,
    /// The trucks loaded.
    pub trucks: TrucksView,
    /// Seals.
    pub seals: Vec<SealView>,
    /// Photographs.
    pub photos: Vec<PhotoView>,
    /// The objects that were taken out.
    pub tally: TallyView,
    /// The defects of this visit and, marked by their visit, earlier ones.
    pub defects: Vec<DefectView>,
    /// Holds.
    pub holds: Vec<HoldView>,
    /// Incidents, with what is reported of them.
    pub incidents: Vec<IncidentView>,
    /// The leaks that were found.
    pub leaks: Vec<LeakView>,
    /// How the car is left, and how it goes away.
    pub leaving: LeavingView,
    /// Handovers.
    pub handovers: Vec<HandoverView>,
    /// Attendance.
    pub attendance: AttendanceView,
    /// The last word that all is well, while somebody has the car and the procedure asks for it.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub check_in: Option<CheckInView>,
    /// The events that matter for the car's detention.
    pub clock: Vec<ClockView>,
    /// Checks with a free name.
    pub checks: Vec<CheckView>,
    /// The weather recorded last, as a sentence.
    pub weather: Option<Attested<Message>>,
    /// What is known about the car, including this visit.
    pub car: CarView,
    /// The unsettled disagreements.
    pub disagreements: Vec<Disagreement>,
    /// The ended disagreements.
    pub ended_disagreements: Vec<EndedDisagreement>,
    /// The gate before unloading, with its items.
    pub unloading: UnloadingView,
    /// The blockers of release.
    pub blockers: Vec<Blocker>,
    /// All entries that pass over a blocker.
    pub passed_over: Vec<PassedOver>,
    /// The state of the release.
    pub release: ReleaseView,
    /// The facts for comparing this stay with others; `None` as long as nobody opened it.
    pub brief: Option<Brief>,
    /// The offers to join this stay with another record.
    pub offers: Vec<Offer>,
    /// The findings, the most severe first.
    pub findings: Vec<Finding>,
    /// Missing or contradictory entries in the chains of the devices involved.
    pub chain_gaps: Vec<ChainGapView>,
    /// Entries of kinds that this version does not know.
    pub unrecognised: Vec<HistoryLine>,
    /// Every entry as a sentence, in causal order and otherwise by claimed time.
    pub history: Vec<HistoryLine>,
    /// The present time of the fold.
    #[serde(skip)]
    #[cfg_attr(test, ts(skip))]
    pub folded_at: UtcMillis,
    /// What can be taken over from other cars on the track; only shells use it.
    #[serde(skip)]
    #[cfg_attr(test, ts(skip))]
    pub track: Vec<TrackOffer>,
    /// The number of entries.
    pub entries: usize,
    /// The number of entries without a receipt.
    pub unreceipted: usize,
}

/// Folds the entries of a stay, including joined visits. The fold is pure and total.
pub fn fold(entries: &[Recorded<'_>], ctx: &Context<'_>) -> VisitView {
    fold_of(entries, ctx, false)
}

/// Returns what stands at the gate before unloading. Once unloading began, that is how the record stood before its
/// first entry: what is undone at the end of the job does not open the gate again.
fn before_unloading(
    entries: &[Recorded<'_>],
    ledger: &FoldContext<'_>,
    rules: &[GateRule],
    facts: &gate::Facts<'_>,
    looking_back: bool,
) -> gate::AtGate {
    let Some(began) = gate::began(ledger).filter(|_| !looking_back) else {
        return gate::at_gate(Gate::Unload, rules, ledger, facts);
    };
    let is_later = |entry: EntryId| ledger.slots.item(entry).is_some_and(|item| item.place >= began);
    let before: Vec<Recorded<'_>> =
        entries.iter().filter(|recorded| !is_later(recorded.entry.id)).copied().collect();
    let then = fold_of(&before, ledger.ctx, true);
    gate::AtGate { blockers: then.unloading.blockers, met: then.unloading.met }
}

/// `looking_back`: the entries are those before unloading began, and only what stands at that gate is asked.
fn fold_of(entries: &[Recorded<'_>], ctx: &Context<'_>, looking_back: bool) -> VisitView {
    let mut ledger = FoldContext::of_stay(entries, ctx, looking_back);
    reading_uncertainty::agree_within(&mut ledger);
    let ledger = ledger;
    let mut found = Vec::new();
    // Entries about the car that were made during this stay count exactly if they count in the stay.
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
    let (incidents, leaks, leaving) =
        (incidents::fold(&ledger), leaks::fold(&ledger), leaving::fold(&ledger));
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
        incidents: &incidents,
        leaks: &leaks,
        leaving: &leaving,
    };
    findings::fold(&ledger, &parts, &header, &handovers, &attendance, &mut found);
    let steps = steps::fold(&ledger, ledger.procedure(), &counting, &mut found);
    let released = ledger.slots.latest(&Slot::RELEASED).is_some();
    let shows_figures = ctx.compute || looking_back;
    let rules: &[GateRule] = ledger.procedure().map_or(&[], |procedure| &procedure.gates);
    let has_unloading = rules.iter().any(|rule| rule.gates.contains(&Gate::Unload));
    let mut empty = tally::empty(&ledger);
    let (mut quantities, mut advice) = (Vec::new(), Vec::new());
    let inputs = computed::Inputs::gather(&ledger, &car, &empty, steps.stage);
    // In a list formulas are asked only while a gate waits for them.
    let at_the_first_gate = has_unloading && !released && gate::began(&ledger).is_none();
    if shows_figures || at_the_first_gate {
        let made = match ctx.formulas {
            Some(formulas) => formulas.made(inputs.key(), || computed::make(&inputs)),
            None => computed::make(&inputs).into(),
        };
        quantities = made.quantities.clone();
        advice = made.advice.clone();
        empty.weigh(made.weighed.clone(), &mut found);
    } else if !released && empty.decision.as_ref().is_some_and(|d| d.value.accepted) {
        // This is the only alarm that formulas can raise in a list, where it counts as long as the car
        // stands.
        let weighed = match ctx.formulas {
            Some(formulas) => formulas.weighed(inputs.key(), || computed::weigh(&inputs)),
            None => computed::weigh(&inputs),
        };
        empty.weigh(weighed, &mut found);
    }
    let of_figures = quantities.iter().flat_map(Quantity::findings);
    let facing = gate::facing_gates(found.iter().chain(&advice).chain(of_figures));
    let facts = gate::Facts { parts: &parts, findings: &facing, steps: &steps };
    let at_unloading = (has_unloading && (ctx.compute || looking_back || !released))
        .then(|| before_unloading(entries, &ledger, rules, &facts, looking_back));
    let unload_items = at_unloading.as_ref().map_or(&[][..], |at_gate| &at_gate.blockers);
    // Whether an alarm about unloading stands is known only once its gate was gone through.
    let words = gate::passed_over(&ledger, &[(Gate::Unload, unload_items)]);
    let unloading = at_unloading
        .map_or_else(UnloadingView::default, |at_gate| gate::unloading(&ledger, at_gate, &words, &mut found));
    let of_figures = quantities.iter().flat_map(Quantity::findings);
    let facing = gate::facing_gates(found.iter().chain(&advice).chain(of_figures));
    let facts = gate::Facts { parts: &parts, findings: &facing, steps: &steps };
    if !shows_figures {
        (quantities, advice) = (Vec::new(), Vec::new());
    }
    let gate::AtGate { mut blockers, met } = gate::at_gate(Gate::Release, rules, &ledger, &facts);
    let passed_over =
        gate::passed_over(&ledger, &[(Gate::Unload, &unloading.blockers), (Gate::Release, &blockers)]);
    gate::answer(Gate::Release, &mut blockers, &passed_over);
    let release = gate::release(&ledger, &blockers, met, &mut found);
    for word in passed_over.iter().filter(|word| word.blocks_still && !word.stands) {
        let why = word.fallen.clone().unwrap_or_default();
        let message = message!("finding-override-fell", item = word.spoken.clone(), why = why);
        found.push(Finding::new("passed_over_fell", Severity::Check, message));
    }
    found.extend(kept_finding(&ledger));
    let (readings, series) = readings::fold(&ledger);
    let gaps = chain_gaps(&ledger);
    if !gaps.is_empty() {
        let sentences = Arg::list(Joint::Sentences, gaps.iter().map(|gap| gap.sentence.clone()));
        found.push(Finding::new(
            "chain_gaps",
            Severity::Check,
            message!("finding-chain-gaps", gaps = sentences),
        ));
    }
    let fittings = fittings::fold(&ledger, &counting, &car);
    let (cover, disagreements) = (seals::cover(&ledger), disagreements(&ledger));
    let is_disputed = |of: Fitting| {
        let slot = format!("fitting/{of}/");
        disagreements.iter().any(|one| one.slot.starts_with(&slot))
    };
    let plan = match ctx.compute {
        true => plan::draw(&fittings, cover.as_ref().map(|known| known.value), is_disputed),
        false => HousingPlan::default(),
    };
    let brief = brief(&ledger, &header, release.released.is_some());
    found.sort_by(|a, b| {
        b.severity.cmp(&a.severity).then_with(|| a.code.cmp(&b.code)).then_with(|| a.message.cmp(&b.message))
    });
    found.dedup();
    VisitView {
        stage: steps.stage,
        protections: seals::protections(&ledger),
        cover,
        plan,
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
        disagreements,
        ended_disagreements: ended(&ledger),
        offers: brief.as_ref().map_or(Vec::new(), |brief| near::offers(brief, ctx.others)),
        brief,
        unrecognised: unrecognised(&ledger),
        entries: ledger.slots.items().len() + ledger.slots.kept().len(),
        unreceipted: all_items(&ledger).filter(|item| !ledger.receipt(item).0).count(),
        folded_at: ctx.now,
        track: if released { Vec::new() } else { track::offers(&ledger) },
        chain_gaps: gaps,
        findings: found,
        header,
        steps,
        fittings,
        seals,
        tally,
        defects: visit_defects,
        holds,
        incidents,
        leaks,
        leaving,
        handovers,
        attendance,
        check_in: check_in::fold(&ledger),
        car,
        blockers,
        passed_over,
        release,
        unloading,
        history: history(ledger),
    }
}

/// Returns the entries that count and those that do not.
fn all_items<'l, 'a>(ledger: &'l FoldContext<'a>) -> impl Iterator<Item = &'l Item<'a>> {
    ledger.slots.items().iter().chain(ledger.slots.kept())
}

/// Returns true if the fold of the car needs the entry: it follows the car, or is a photograph that belongs
/// to such an entry.
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

/// Returns the defects with the photographs taken during this visit.
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
            Some(reason) => reason,
            None => Message::typed(ledger.why_gone(item)),
        },
        binds: item.entry.body.says.binds(),
        said,
    }
}

/// Returns every entry as a sentence; those that do not count appear at the time they claim. The function is
/// called last because it takes the attributions out of the ledger instead of copying them.
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

/// Returns a finding about entries that are kept without counting, because somebody tried to record what the
/// record does not follow.
fn kept_finding(ledger: &FoldContext<'_>) -> Option<Finding> {
    let mut reasons: BTreeMap<Message, usize> = BTreeMap::new();
    for item in ledger.slots.kept() {
        *reasons.entry(item.verdict.reason().unwrap_or_default()).or_default() += 1;
    }
    if reasons.is_empty() {
        return None;
    }
    let told = reasons
        .into_iter()
        .map(|(reason, count)| message!("finding-entries-not-counted-for", count = count, reason = reason));
    let reasons = Arg::list(Joint::Sentences, told);
    Some(Finding::new(
        "entries_not_counted",
        Severity::Check,
        message!("finding-entries-not-counted", reasons = reasons),
    ))
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
                Statement::Check { what, right, note } => Some((what.message(), *right, note.trim())),
                _ => None,
            })?;
            let (what, right, note) = known.value;
            let note = note.to_owned();
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
            about: story::slot_message(slot),
            claims: ledger.slots.live(slot).map(|item| claim(ledger, item)).collect(),
            entries: ledger.slots.live(slot).map(|item| item.entry.id).collect(),
            reopened: reopened(ledger, slot),
        })
        .collect()
}

/// Returns the withdrawals of settlements in a slot.
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
                about: story::slot_message(&ended.slot),
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
