//! Rounds that are answered together: decided first, written by one call of the ledger, and signed for inside
//! it.
//!
//! [`Rounds::add`] decides what is kept of a request; nothing is written yet. [`Rounds::answer`] has the
//! ledger write all rounds at once, and makes each reply while the ledger shows the state with them. When
//! somebody else wrote in between, everything that may have changed is decided again, so that a device
//! revoked by then is answered as a revoked one. Opening a request is in `opened`.

use std::collections::HashSet;
use std::panic::{AssertUnwindSafe, catch_unwind};

use super::allowance::Allowance;
use super::answer::{Answer, AnswerError};
use super::keys::lacking;
use super::ledger_time::{NEWEST_SIGNED, newest_signed};
use super::opened::OpenedRequest;
use super::round_plan::{Plan, Times, Work, number_in, receipt_to_keep};
use super::wire::{Cursor, ReplyBulk, ReplyHead, seal_reply_with, short_sum, shortest_sum};
use crate::clock::UtcMillis;
use crate::entry::cbor::CborError;
use crate::entry::{Entry, EntryError, OrganisationKey};
use crate::ids::EntryId;
use crate::store::{
    ApplyError, Batch, Ledger, Moment, Outcome, Scope, Sequenced, SignedReceipt, Store, StoreError, Write,
};
use crate::tree::tree_of;

/// How often rounds are decided again because somebody else wrote, before they are refused as busy.
const DECIDED_AGAIN: usize = 20;

/// Rounds that are answered together.
#[derive(Debug)]
pub struct Rounds<'a> {
    key: &'a OrganisationKey,
    epoch: u64,
    decided: Moment,
    newest: UtcMillis,
    plans: Vec<Plan<'a>>,
}

impl<'a> Rounds<'a> {
    /// Begins with no rounds.
    ///
    /// # Errors
    /// [`StoreError`] when the database fails.
    pub fn begin(
        ledger: &dyn Ledger,
        key: &'a OrganisationKey,
        epoch: u64,
    ) -> Result<Rounds<'a>, StoreError> {
        let decided = ledger.moment()?;
        let newest = newest_signed(ledger)?.unwrap_or(UtcMillis(i64::MIN));
        Ok(Rounds { key, epoch, decided, newest, plans: Vec::new() })
    }

    /// Decides about one more request. `clock` is the time of the machine's clock. Without an allowance there
    /// is no limit, and refused changes go into the store's quarantine.
    ///
    /// # Errors
    /// [`AnswerError`]; the request then takes no part.
    pub fn add(
        &mut self,
        ledger: &dyn Ledger,
        opened: &'a OpenedRequest,
        clock: UtcMillis,
        mut allowance: Option<&mut (dyn Allowance + '_)>,
    ) -> Result<(), AnswerError> {
        let certificate = opened.certificate_now(ledger, self.key)?;
        let counter = format!("round/{}", certificate.device);
        let last = number_in(ledger, &counter)?;
        let now = Times { signed: self.newest.max(clock), clock };
        let mut plan = Plan {
            opened,
            certificate,
            unknown: false,
            now,
            counter,
            keep: Vec::new(),
            aside: Vec::new(),
            asked: Vec::new(),
            sent: HashSet::new(),
            refused: 0,
            bulk: ReplyBulk::default(),
        };
        if opened.head.number > last {
            plan.take_changes(ledger, &mut allowance)?;
            plan.asked.extend(&opened.asked.asks);
            if plan.certificate.revoked_at.is_none() {
                plan.reconcile(ledger, &mut allowance)?;
            }
        }
        self.newest = now.signed;
        self.plans.push(plan);
        Ok(())
    }

    /// Writes all rounds with one call of the ledger and returns their answers in the order in which they
    /// were added. `tell` hears of every entry that was new, with the answer that confirms it.
    ///
    /// # Errors
    /// [`ApplyError`]; no reply may then be sent.
    pub fn answer(
        mut self,
        ledger: &mut dyn Ledger,
        tell: &mut dyn FnMut(&Answer, &Entry),
    ) -> Result<Vec<Result<Answer, AnswerError>>, ApplyError> {
        for _ in 0..DECIDED_AGAIN {
            let mut answers = Vec::with_capacity(self.plans.len());
            let mut confirm =
                |store: &dyn Store, rounds: &[Sequenced]| self.confirm(store, rounds, &mut answers);
            let newest = self.newest.0.to_be_bytes();
            match ledger.apply(&self.batch(&newest), &mut confirm)? {
                Outcome::Applied(_) => {
                    self.tell_of_new(&answers, tell);
                    return Ok(answers);
                }
                Outcome::Overtaken => self.decide_again(ledger).map_err(ApplyError::NotWritten)?,
            }
        }
        Err(ApplyError::NotWritten(StoreError::Busy))
    }

    /// Decides again what somebody else may have changed: who is revoked, and which time comes next.
    fn decide_again(&mut self, ledger: &dyn Ledger) -> Result<(), StoreError> {
        self.decided = ledger.moment()?;
        let mut newest = newest_signed(ledger)?.unwrap_or(UtcMillis(i64::MIN));
        for plan in &mut self.plans {
            newest = newest.max(plan.now.clock);
            plan.now.signed = newest;
            match plan.opened.certificate_now(ledger, self.key) {
                Ok(certificate) => plan.certificate = certificate,
                Err(AnswerError::Store(error)) => return Err(error),
                Err(_) => plan.unknown = true,
            }
        }
        self.newest = newest;
        Ok(())
    }

    fn batch<'b>(&'b self, newest: &'b [u8; 8]) -> Batch<'b> {
        let mut beside = vec![Write::Value { key: NEWEST_SIGNED, value: newest }];
        let in_force = |plan: &&Plan<'_>| !plan.unknown && plan.certificate.revoked_at.is_none();
        if self.plans.iter().filter(in_force).any(|plan| matches!(plan.scope(), Scope::Sites(_))) {
            beside.push(Write::Feed);
        }
        Batch { decided: self.decided, rounds: self.plans.iter().map(Plan::round).collect(), beside }
    }

    fn tell_of_new(&self, answers: &[Result<Answer, AnswerError>], tell: &mut dyn FnMut(&Answer, &Entry)) {
        for (plan, answer) in self.plans.iter().zip(answers) {
            let Ok(answer) = answer else { continue };
            let new: HashSet<EntryId> = answer.new.iter().map(|(_, id)| *id).collect();
            let entries = plan.keep.iter().flat_map(|(_, kept)| kept.change().entries());
            entries.filter(|entry| new.contains(&entry.id)).for_each(|entry| tell(answer, entry));
        }
    }

    /// Makes the replies while the ledger shows the state with all rounds.
    fn confirm(
        &self,
        store: &dyn Store,
        rounds: &[Sequenced],
        answers: &mut Vec<Result<Answer, AnswerError>>,
    ) -> Vec<SignedReceipt> {
        let mut receipts = Vec::new();
        answers.clear();
        for (plan, sequenced) in self.plans.iter().zip(rounds) {
            let reply = || self.reply(store, plan, sequenced);
            // A request that makes its own reply impossible keeps no other round from its own.
            let replied = catch_unwind(AssertUnwindSafe(reply)).unwrap_or_else(|_| {
                let why = "it cannot be processed".to_owned();
                Err(EntryError::from(CborError::Unreadable(why)).into())
            });
            answers.push(replied.map(|(answer, receipt)| {
                receipts.extend(receipt);
                answer
            }));
        }
        receipts
    }

    fn reply(
        &self,
        store: &dyn Store,
        plan: &Plan<'_>,
        sequenced: &Sequenced,
    ) -> Result<(Answer, Option<SignedReceipt>), AnswerError> {
        if plan.unknown {
            return Err(AnswerError::UnknownDevice);
        }
        let OpenedRequest { digest: request, head, asked, .. } = plan.opened;
        let (certificate, scope) = (&plan.certificate, plan.scope());
        let revoked = certificate.revoked_at.is_some();
        let (mut work, mut held, mut unsent) = (Work::default(), Vec::new(), (0, 0));
        if sequenced.old_number.is_none() {
            work.bulk = plan.bulk.clone();
            held = plan.look_up(store, &mut work)?;
            let (entries, photos) = asked.unsent.unwrap_or_default();
            unsent.0 = entries.saturating_sub(held.len() as u64);
            unsent.1 = photos.saturating_sub(work.bulk.photos.len() as u64);
            if revoked {
                work.bulk.messages.clear();
            } else {
                plan.answer_comparing(store, &scope, &mut work)?;
                plan.deliver(store, &scope, self.epoch, &mut work)?;
                plan.add_certificates(store, &scope, &mut work)?;
            }
        }
        let ahead = head.at.since(plan.now.clock);
        let tally = store.scopes().tally_in(&scope)?;
        let standings = match scope {
            Scope::Everything => Some(shortest_sum(&store.scopes().tally_of_standings()?)),
            Scope::Sites(_) | Scope::Nothing => None,
        };
        let position = match work.reached {
            Some(reached) => reached,
            None => store.scopes().newest_in(&scope)?,
        };
        let reply_head = ReplyHead {
            request: *request,
            at: plan.now.signed,
            cursor: Cursor { epoch: scope.epoch(self.epoch), position },
            count: tally.count,
            sum: short_sum(&tally),
            covers: tree_of(&held),
            delivers: tree_of(&work.delivered),
            bulk: None,
            revoked,
            old_number: sequenced.old_number,
            machine: (plan.now.signed != plan.now.clock).then_some(plan.now.clock),
            asker_ahead: Some(ahead),
            standings: standings.map(serde_bytes::ByteArray::new),
        };
        let statements = lacking(self.key.keys(), head.statement.as_deref().map(Vec::as_slice));
        let reply = seal_reply_with(reply_head, &work.bulk, self.key, statements)?;
        let receipt = receipt_to_keep(store, &reply, held, sequenced)?;
        let answer = Answer {
            reply,
            device: certificate.device,
            revoked,
            new: sequenced.new.clone(),
            refused: if sequenced.old_number.is_none() { plan.refused } else { 0 },
            device_ahead_millis: ahead,
            unsent,
        };
        Ok((answer, receipt))
    }
}
