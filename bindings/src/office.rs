//! Meeting the office, as shells call it: enrolment, rounds of sync, the office's log, the pass for
//! photographs.
//!
//! Only conversion happens here. The shell carries the bodies to the office and back, by whatever network it
//! has.

use std::collections::BTreeSet;

use farsiding_core::clock::UtcMillis;
use farsiding_core::ids::{DeviceId, Subject};
use farsiding_core::sync::{Session, Step};
use serde_json::{Value, json};

use crate::FarsidingError;
use crate::book::{Book, State, wrong};

#[uniffi::export]
impl Book {
    /// The body of the request that enrols this device: signed by the device's key, with a one-time code from
    /// the office. Send it with `POST` to the office's address `/v1/enrol` as `application/cbor`.
    ///
    /// Ask the same address with `GET` first; its JSON says `organisation_key` (64 hexadecimal digits) and
    /// `server_time` (milliseconds since 1970-01-01 UTC), which are given here. Compare the key with the one
    /// in the office's link before the code leaves this device. `name` is what the office calls this device.
    ///
    /// # Errors
    /// - `WrongCall`: `organisation_key` has not 64 hexadecimal digits.
    /// - `Refused`: the request could not be encoded.
    pub fn enrol_request(
        &self,
        code: String,
        name: String,
        organisation_key: String,
        server_time: i64,
    ) -> Result<Vec<u8>, FarsidingError> {
        let key = DeviceId::read(&organisation_key).map_err(wrong)?;
        Ok(self.state().book.enrol_request(&code, &name, &key, UtcMillis(server_time))?)
    }

    /// Takes the office's answer to an enrolment and keeps it. `organisation_key` has 64 hexadecimal digits;
    /// `certificate` is the decoded base64 of the answer's `certificate`. Where the answer has
    /// `key_statements`, call `enrolled_with` instead.
    ///
    /// # Errors
    /// - `WrongCall`: `organisation_key` has not 64 hexadecimal digits.
    /// - `Refused`: the certificate is not this device's, or that organisation did not sign it. Nothing was
    ///   kept.
    /// - `NotStored`: the disk failed or is full.
    pub fn enrolled(&self, organisation_key: String, certificate: Vec<u8>) -> Result<(), FarsidingError> {
        let key = DeviceId::read(&organisation_key).map_err(wrong)?;
        let mut state = self.state();
        state.book.enrolled(key, &certificate)?;
        state.read_again(&[])
    }

    /// Takes the office's answer to an enrolment, as `enrolled` does, where the organisation's root named
    /// another key that signs for it. `key_statements` are the decoded base64 texts of the answer's
    /// `key_statements`, in their order.
    ///
    /// # Errors
    /// As `enrolled`.
    pub fn enrolled_with(
        &self,
        organisation_key: String,
        key_statements: Vec<Vec<u8>>,
        certificate: Vec<u8>,
    ) -> Result<(), FarsidingError> {
        let key = DeviceId::read(&organisation_key).map_err(wrong)?;
        let mut state = self.state();
        state.book.enrolled_with(key, &key_statements, &certificate)?;
        state.read_again(&[])
    }

    /// Begins a sync with the office. Then repeat until the reply says `done`: `sync_request`, send the body
    /// with `POST` to the office's address `/v1/sync` as `application/cbor`, `sync_receive`. A sync that was
    /// broken off is forgotten; what it brought is kept.
    ///
    /// # Errors
    /// - `NotEnrolled`: no office has enrolled this device.
    /// - `NotStored`: the disk cannot be read.
    pub fn sync_start(&self) -> Result<(), FarsidingError> {
        let mut state = self.state();
        if let Some(broken_off) = state.session.take() {
            state.read_after_meeting(&broken_off)?;
        }
        state.session = Some(state.book.sync_session()?);
        Ok(())
    }

    /// The body of the sync's next request. Calling this again without a reply in between is allowed: a reply
    /// got lost.
    ///
    /// # Errors
    /// - `WrongCall`: no sync was begun, or the last one is done.
    /// - `NotStored`: the disk cannot be read.
    pub fn sync_request(&self) -> Result<Vec<u8>, FarsidingError> {
        let State { book, session, .. } = &mut *self.state();
        let session = session.as_mut().ok_or_else(|| wrong("no sync was begun"))?;
        Ok(book.sync_request(session)?)
    }

    /// Takes the body of the office's reply. JSON: `{done, rounds, receipted, received, refused, put_off,
    /// set_aside, revoked, ahead_millis, reconciled, differing, left, left_photos}`.
    ///
    /// `done` says whether the sync is over. `rounds`, `receipted` (entries with a new receipt), `received`
    /// (entries new here) and `set_aside` (things of the office's that were refused here) are counts of this
    /// sync so far. `refused` lists reasons why the office refuses something for good; `put_off` is why it
    /// takes some things later, or null. `revoked` says that the office has revoked this device.
    /// `ahead_millis` is this device's clock minus the office's, in milliseconds. `differing` lists the
    /// documents that still differ, as `append` names them. `left` lists the documents that left this device, which
    /// no longer has their sites, once the office held all of them; `left_photos` the digests of the photographs
    /// that left with them, whose bytes are the caller's to delete.
    ///
    /// # Errors
    /// - `NotTheOffice`: the organisation did not sign the reply, or it answers another request; a login page
    ///   in between is the usual cause. Nothing is lost, and `sync_request` may be called again.
    /// - `WrongCall`: no sync was begun.
    /// - `NotStored`: the disk failed or is full.
    /// - `Refused`: the records still differ after as many rounds as should ever be needed. They are compared
    ///   again next time.
    pub fn sync_receive(&self, reply: Vec<u8>) -> Result<String, FarsidingError> {
        let mut state = self.state();
        let mut session = state.session.take().ok_or_else(|| wrong("no sync was begun"))?;
        let answered = state.book.sync_receive(&mut session, &reply);
        let report = session.report().clone();
        let step = match answered {
            Ok(Step::Done) => {
                state.read_after_meeting(&session)?;
                Step::Done
            }
            Ok(step) => {
                state.read_people_and_sites(&session)?;
                state.session = Some(session);
                step
            }
            Err(error) => {
                state.read_after_meeting(&session)?;
                state.session = Some(session);
                return Err(error.into());
            }
        };
        Ok(json!({
            "done": step == Step::Done,
            "rounds": report.rounds,
            "receipted": report.receipted,
            "received": report.received,
            "refused": report.refused,
            "put_off": report.put_off,
            "set_aside": report.set_aside + report.names_unfit,
            "revoked": report.revoked,
            "ahead_millis": report.ahead_millis,
            "reconciled": report.reconciled,
            "differing": report.differing.iter().map(ToString::to_string).collect::<Vec<_>>(),
            "left": report.left.iter().map(ToString::to_string).collect::<Vec<_>>(),
            "left_photos": report.left_photos.iter().map(ToString::to_string).collect::<Vec<_>>(),
        })
        .to_string())
    }

    /// The body of the next request about the office's log, for after a sync: send it with `POST` to the
    /// office's address `/v1/log` as `application/cbor`. Nothing is returned when there is nothing to ask.
    /// Call this again when `log_receive` says that it is not done, or when a reply got lost.
    ///
    /// # Errors
    /// - `NotEnrolled`: no office has enrolled this device.
    /// - `NotStored`: the disk cannot be read.
    pub fn log_request(&self) -> Result<Option<Vec<u8>>, FarsidingError> {
        let State { book, watch, .. } = &mut *self.state();
        if watch.is_none() {
            *watch = Some(book.log_watch()?);
        }
        let Some(watching) = watch.as_mut() else { return Ok(None) };
        let request = book.log_request(watching)?;
        if request.is_none() {
            *watch = None;
        }
        Ok(request)
    }

    /// Takes the body of the office's reply about its log. JSON: `{done, size, proven, contradictions:
    /// [{kind, sentence}], restored: [{at, size}]}`. `size` is how many entries the log has, or null;
    /// `proven` counts entries that this device now holds a proof for; `at` is a time in milliseconds since
    /// 1970-01-01 UTC. A contradiction means that the office rewrote its log. It is no error: records stay,
    /// sync goes on, and `status` keeps it.
    ///
    /// # Errors
    /// - `NotTheOffice`: the organisation did not sign the reply. Nothing is lost, and `log_request` may be
    ///   called again.
    /// - `WrongCall`: the log was not asked for.
    /// - `NotStored`: the disk failed or is full.
    pub fn log_receive(&self, reply: Vec<u8>) -> Result<String, FarsidingError> {
        let mut state = self.state();
        let mut watch = state.watch.take().ok_or_else(|| wrong("the log was not asked for"))?;
        let step = match state.book.log_receive(&mut watch, &reply) {
            Ok(step) => step,
            Err(error) => {
                state.watch = Some(watch);
                return Err(error.into());
            }
        };
        let report = watch.report().clone();
        if step == Step::Again {
            state.watch = Some(watch);
        }
        let contradictions: Vec<Value> = report
            .contradictions
            .iter()
            .map(|kind| json!({ "kind": kind, "sentence": kind.sentence() }))
            .collect();
        let restored: Vec<Value> =
            report.restored.iter().map(|r| json!({ "at": r.at.0, "size": r.size })).collect();
        Ok(json!({
            "done": step == Step::Done,
            "size": report.size,
            "proven": report.proven,
            "contradictions": contradictions,
            "restored": restored,
        })
        .to_string())
    }

    /// The body of the signed request for a pass, which lets this device send photographs to the office and
    /// fetch them. Send it with `POST` to the office's address `/v1/pass` as `application/cbor`.
    ///
    /// # Errors
    /// - `NotEnrolled`: no office has enrolled this device.
    /// - `NotStored`: the disk cannot be read.
    pub fn pass_request(&self) -> Result<Vec<u8>, FarsidingError> {
        Ok(self.state().book.pass_request(None)?)
    }
}

impl State {
    /// What came with a meeting changed its documents; receipts change how entries sent are shown, and come
    /// only for entries that had none.
    fn read_after_meeting(&mut self, session: &Session) -> Result<(), FarsidingError> {
        let mut changed: BTreeSet<Subject> = self.gathered.without_receipt().into_iter().collect();
        changed.extend(&session.report().touched);
        changed.extend(&session.report().left);
        self.read_again(&changed.into_iter().collect::<Vec<_>>())
    }

    /// A first meeting may bring a thousand stays: who holds the phone is asked for meanwhile.
    fn read_people_and_sites(&mut self, session: &Session) -> Result<(), FarsidingError> {
        let about = |subject: &&Subject| matches!(subject, Subject::Site(_) | Subject::Roster(_));
        self.read_again(&session.report().touched.iter().filter(about).copied().collect::<Vec<_>>())
    }
}
