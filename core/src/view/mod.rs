//! Views: what a set of entries says, folded into one record of a stay.
//!
//! [`fold`] is pure and total: any entries, in any order, however often, give the same view and never
//! a panic. Nothing computed here is stored (invariant 3). Phones, office pages, the command line and
//! JSON all show this one structure, which says its words as messages. Who gathers entries and context is
//! `book` on a device and the server; formulas are in `calc`.

mod car;
mod carried;
mod chain;
mod check_in;
mod computed;
mod context;
mod defects;
mod done;
mod edition_changes;
mod editions;
mod expected;
mod findings;
mod fittings;
mod fold_context;
mod formulas;
mod gate;
mod guide;
mod header;
mod incidents;
mod leaks;
mod leaving;
mod list;
mod meaning;
mod near;
mod order;
mod people;
mod person_keys;
mod plan;
mod quantity;
mod reading_uncertainty;
mod readings;
mod received;
mod rounds;
mod seals;
mod site;
pub mod slots;
mod sought;
mod stay;
mod step_standing;
mod steps;
mod story;
mod tally;
#[cfg(test)]
mod tests;
mod together;
mod track;
mod unused;
mod visit;
mod watch;

pub use car::{CarView, OutageTableView, TestDateView, WearPoint};
pub use carried::CarriedView;
pub use chain::{ChainGap, Chains};
pub use check_in::{CheckIn, CheckInView};
pub use context::{Context, DeviceFacts, Recorded, Standing};
pub use defects::{AuthorityView, DefectView, ForwardedView, HoldView};
pub(crate) use done::began_by_claim;
pub use edition_changes::{edition_changes, left_out_words, lost_words};
pub use editions::{Edition, Editions, TakenBack, fit_to_publish};
pub use expected::{ExpectedCar, MOST_WAITING, PapersSent, StayOfCar};
pub use fittings::{FittingView, LineState};
pub use fold_context::{Attested, Attribution};
pub use formulas::Formulas;
pub use gate::{Blocker, Met, NOTE, PassedOver, ReleaseView, UnloadingView};
pub use guide::{Ask, BlockerLead, Guide, GuidedVisit, Lead, StepAsk, StepAsks};
pub use header::{DeviceView, Header, PersonView};
pub use incidents::{CallView, IncidentView, ReportDue, StoppedView};
pub use leaks::LeakView;
pub use leaving::{LeavingView, LeftView};
pub use list::VisitRow;
pub use meaning::{Meaning, Meant, PreviewedVisit};
pub use near::{Brief, Likeness, Offer, offers, stays};
pub use people::{NameStanding, Person, people};
pub use person_keys::{KeyAct, PersonKeyView, person_keys, rules};
pub use plan::{HousingPlan, PlanFitting, PlanShape, PlanTarget, PlanText, PlanWord};
pub use quantity::Quantity;
pub use readings::{Point, ReadingView, SeriesView};
pub use seals::{CoverState, PhotoView, ProtectionView, SealView};
pub use site::SiteView;
pub use slots::{Fate, Slots};
pub use sought::{CarLikeness, Sought, plain, plain_car};
pub use stay::{joined_with, opened_and_released, opened_of};
pub use step_standing::StepStatus;
pub use steps::{StageProgress, StepView, StepsView};
pub use story::{about_message, code_message, fate_message, item_message, reading_title, slot_message};
pub use tally::{EmptyDecisionView, EmptySignView, EmptyView, ItemView, TallyView, TruckView, TrucksView};
pub use together::{StepTogether, StepsTogether};
pub use track::{TrackOffer, is_of_the_track, rested_on};
pub use visit::{
    ChainGapView, CheckView, Claim, Disagreement, EndedDisagreement, HistoryLine, VisitView, fold,
};
pub use watch::{AttendanceView, ClockView, GapView, HandoverView, USUAL_GAP_MINUTES};

use crate::entry::vocabulary::Fitting;

/// The version of the fold: what entries make, in which words. A packet's seal names it, so that a program that
/// folds otherwise says so instead of calling the packet broken. It is raised with the first change after a
/// release that gives any record another view, be it a rule, a field or a word; packets of that release then go to
/// `tests/golden`, where they verify for ever.
pub const FOLD_VERSION: u64 = 4;

/// What several parts of the fold look at, made once.
struct VisitParts<'v> {
    counting: &'v [Fitting],
    car: &'v CarView,
    defects: &'v [DefectView],
    holds: &'v [HoldView],
    seals: &'v [SealView],
    tally: &'v TallyView,
    incidents: &'v [IncidentView],
    leaks: &'v [LeakView],
    leaving: &'v LeavingView,
}
