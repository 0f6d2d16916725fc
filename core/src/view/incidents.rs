//! Incidents: what happened, when it stopped, who was told, and by when the law asks for reports.
//!
//! An incident stops the job until a person closed it. Reports stay due after that. Their clocks are those of 49 CFR
//! 171.15 (by telephone, 12 hours) and 171.16 (in writing, 30 days), read on [`LAW_READ`]. They bind whoever has the
//! product in hand during transportation, to which loading into trucks belongs. After delivery on a private track the
//! consignee's own unloading does not (171.1(d)(2)): there the record asks to check, and does not say must.

use serde::Serialize;

use super::findings::Found;
use super::fold_context::{Attested, Attribution, FoldContext};
use super::order::by_place;
use crate::clock::UtcMillis;
use crate::entry::coded::Coded;
use crate::entry::vocabulary::{Called, Evacuation, Fitting, IncidentSource, Injury, Receiver};
use crate::entry::{Incident, Slot, Statement, under};
use crate::ids::IncidentId;
use crate::units::Amount;
use crate::{Arg, Message, message};

/// The day on which the rules about reports were read.
pub(super) const LAW_READ: &str = "2026-11-28";
const HOUR: i64 = 60 * 60 * 1000;
/// The time in milliseconds within which the telephone report is made (12 hours, 49 CFR 171.15(a), read).
pub const TELEPHONE_WITHIN_MILLIS: i64 = 12 * HOUR;
/// The time in milliseconds within which the written report is made (30 days, 49 CFR 171.16(a), read).
pub const WRITTEN_WITHIN_MILLIS: i64 = 30 * 24 * HOUR;

/// A call or report about an incident.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct CallView {
    /// To whom, as a code or as typed.
    pub to: Coded<Called>,
    /// When.
    pub at: UtcMillis,
    /// The number of the report; empty if there was none.
    pub number: String,
    /// The entry's attribution.
    pub said: Attribution,
}

/// The end of an incident's release.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct StoppedView {
    /// When it stopped.
    pub at: UtcMillis,
    /// How much was lost, as estimated.
    pub loss: Option<Amount>,
    /// Whether it was no more than the minimal amount of connecting or disconnecting; `None` if nobody said.
    pub minimal: Option<bool>,
}

/// A report that is asked for, and by when.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct ReportDue {
    /// By when.
    pub due: UtcMillis,
    /// The same time in the site's zone.
    pub shown: String,
    /// Whether that time has passed.
    pub overdue: bool,
    /// Whether the rule binds this unloading; otherwise a person checks whether it does.
    pub must: bool,
}

/// An incident.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct IncidentView {
    /// The id of the incident.
    pub id: IncidentId,
    /// What it came from, as a code or as typed.
    pub source: Coded<IncidentSource>,
    /// The fitting, if it was at one.
    pub fitting: Option<Fitting>,
    /// When it was noticed.
    pub noticed_at: UtcMillis,
    /// What happened.
    pub what: String,
    /// All that is known of it: what a later entry leaves open stands as an earlier one has it.
    pub known: Incident,
    /// The attribution of the entry that told of it last.
    pub said: Attribution,
    /// When it stopped.
    pub stopped: Option<Attested<StoppedView>>,
    /// The calls and reports, in order.
    pub calls: Vec<CallView>,
    /// Whether it still stops the job.
    pub open: bool,
    /// What was done, as whoever closed it said.
    pub closed: Option<Attested<String>>,
    /// The report by telephone that is still to be made.
    pub telephone: Option<ReportDue>,
    /// The written report that is still to be made.
    pub written: Option<ReportDue>,
}

/// Returns all incidents in the order in which they were recorded.
pub(super) fn fold(ledger: &FoldContext<'_>) -> Vec<IncidentView> {
    let mut incidents: Vec<(usize, IncidentView)> = Vec::new();
    for slot in ledger.slots.names_under(under::INCIDENTS) {
        let mut told: Vec<_> = ledger
            .slots
            .stood(slot)
            .filter_map(|item| match item.claim {
                Some(Statement::Incident(incident)) => Some((item, incident)),
                _ => None,
            })
            .collect();
        told.sort_by_key(|(item, _)| item.claim_place);
        let Some((item, _)) = told.last() else { continue };
        let standing: Vec<&Incident> = told.iter().map(|(_, incident)| *incident).collect();
        let Some(incident) = together(&standing) else { continue };
        let id = incident.incident;
        let stopped = ledger.known(&Slot::incident_stopped(&id), |says| match says {
            Statement::IncidentStopped(said) => {
                Some(StoppedView { at: said.at, loss: said.loss.clone(), minimal: said.minimal })
            }
            _ => None,
        });
        let closing = Slot::incident_closed(&id);
        let closed = ledger.known(&closing, |says| match says {
            Statement::IncidentClosed { how, .. } => Some(how.trim().to_owned()),
            _ => None,
        });
        let open = !ledger.all_claim(&closing, |says| matches!(says, Statement::IncidentClosed { .. }));
        let calls = calls(ledger, id);
        let told = |to: Called| calls.iter().any(|call| call.to == Coded::Code(to));
        let minimal = stopped.as_ref().and_then(|known| known.value.minimal) == Some(true);
        let due = |within: i64| {
            let due = UtcMillis(incident.noticed_at.0.saturating_add(within));
            ReportDue {
                due,
                shown: ledger.shown(due),
                overdue: ledger.ctx.now > due,
                must: ledger.receiver == Some(Receiver::Truck),
            }
        };
        let kind = Serious::of_all(&standing, &incident);
        let by_telephone = kind != Serious::No && !told(Called::ResponseCenter) && !told(Called::Canutec);
        let in_writing = (kind == Serious::Yes || !minimal) && !told(Called::WrittenReport);
        let view = IncidentView {
            id,
            source: incident.source.clone(),
            fitting: incident.fitting,
            noticed_at: incident.noticed_at,
            what: incident.what.trim().to_owned(),
            said: ledger.said(item),
            known: incident.clone(),
            open,
            closed,
            telephone: by_telephone.then(|| due(TELEPHONE_WITHIN_MILLIS)),
            written: in_writing.then(|| due(WRITTEN_WITHIN_MILLIS)),
            stopped,
            calls,
        };
        incidents.push((item.place, view));
    }
    by_place(incidents)
}

/// Whether an incident is one that 49 CFR 171.15(b)(1) names: a death, a hospital, the public evacuated for an hour,
/// a road or facility closed for an hour.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Serious {
    Yes,
    No,
    /// Not everything that decides it was said.
    NotSaid,
}

/// Returns all that the standing entries about an incident say, the last one first: what it leaves open stands as an
/// earlier one has it, and it was noticed when the first one says.
fn together(told: &[&Incident]) -> Option<Incident> {
    let (last, earlier) = told.split_last()?;
    let mut all = Incident::clone(last);
    for before in earlier.iter().rev() {
        all.noticed_at = all.noticed_at.min(before.noticed_at);
        all.fitting = all.fitting.or(before.fitting);
        all.injury = all.injury.or(before.injury);
        all.ignition = all.ignition.or(before.ignition);
        all.evacuation = all.evacuation.or(before.evacuation);
        all.closed = all.closed.or(before.closed);
        if all.what.trim().is_empty() {
            all.what.clone_from(&before.what);
        }
    }
    Some(all)
}

impl Serious {
    /// Facts that are added never make an incident lighter: what asks for a report is taken back by a correction with
    /// its reason alone.
    fn of_all(told: &[&Incident], together: &Incident) -> Serious {
        match told.iter().any(|incident| Serious::of(incident) == Serious::Yes) {
            true => Serious::Yes,
            false => Serious::of(together),
        }
    }

    fn of(incident: &Incident) -> Serious {
        let named = [
            incident.injury.map(|injury| matches!(injury, Injury::Hospital | Injury::Death)),
            incident.evacuation.map(|evacuation| evacuation == Evacuation::PublicHour),
            incident.closed,
        ];
        if named.contains(&Some(true)) {
            Serious::Yes
        } else if named.contains(&None) {
            Serious::NotSaid
        } else {
            Serious::No
        }
    }
}

fn calls(ledger: &FoldContext<'_>, id: IncidentId) -> Vec<CallView> {
    ledger
        .slots
        .stood(&Slot::incident_calls(&id))
        .filter_map(|item| match item.claim {
            Some(Statement::IncidentCall(call)) => Some(CallView {
                to: call.to.clone(),
                at: call.at,
                number: call.number.trim().to_owned(),
                said: ledger.said(item),
            }),
            _ => None,
        })
        .collect()
}

impl IncidentView {
    /// Returns in a few words that it is an incident, and of what.
    pub fn briefly(&self) -> Message {
        message!("list-incident", source = self.source.message())
    }

    /// Returns what it came from and when it was noticed.
    pub(super) fn message(&self, ledger: &FoldContext<'_>) -> Message {
        message!(
            "incident-named",
            source = self.source.message(),
            noticed = Arg::typed(ledger.shown(self.noticed_at)),
        )
    }
}

/// Points out incidents that stop the job, and reports that are still to be made.
pub(super) fn findings(ledger: &FoldContext<'_>, incidents: &[IncidentView], found: &mut Found<'_>) {
    for incident in incidents {
        let named = || incident.message(ledger);
        if incident.open {
            found.check("incident_open", message!("finding-incident-open", incident = named()));
        }
        let reports = [
            ("incident_telephone", "finding-incident-telephone", &incident.telephone),
            ("incident_written", "finding-incident-written", &incident.written),
        ];
        for (code, id, report) in reports {
            let Some(report) = report else { continue };
            let binds = if report.must { "must" } else { "check" };
            let message = Message::new(id)
                .with("incident", named())
                .with("due", Arg::typed(&report.shown))
                .with("binds", Arg::typed(binds))
                .with("late", Arg::typed(if report.overdue { "yes" } else { "no" }))
                .with("read", Arg::typed(LAW_READ));
            found.check(code, message);
        }
    }
}
