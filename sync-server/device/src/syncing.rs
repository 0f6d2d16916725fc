//! Enrolling and syncing. A sync first exchanges the core's rounds over HTTP, then photographs, and then asks
//! for a signed reply that says the photographs have arrived.
//!
//! The folder's lock is released while the network is waited for, so that other commands can record.

use std::io::Write as _;
use std::path::Path;

use base64::Engine as _;
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::Statement;
use farsiding_core::ids::{DeviceId, Digest};
use farsiding_core::store::Write;
use farsiding_core::sync::{CLOCK_AHEAD, Step, SyncReport};
use serde_json::{Value, json};
use tokio::runtime::Runtime;

use super::asked::{Enrolling, Syncing};
use super::folder::DeviceFolder;
use super::office_client::{OfficeCallError, OfficeClient, PhotoToSend, SLICE, wait_before_retry};
use super::office_log::{self, LogFound};
use super::queries::{unsent, unsent_words};
use super::{DeviceError, photos};
use farsiding_host::CommandOutput;

/// The largest piece of a photograph in bytes, used after smaller pieces went through.
const LARGEST_SLICE: usize = 1024 * 1024;

fn runtime() -> Result<Runtime, DeviceError> {
    Ok(tokio::runtime::Builder::new_current_thread().enable_all().build()?)
}

/// Returns the server, the code and the expected organisation key from an enrolment text.
fn read_text(text: &str) -> Option<(String, String, DeviceId)> {
    let (server, rest) = text.trim().split_once("/#enrol=")?;
    let (code, key) = rest.split_once("&key=")?;
    let key = base64::engine::general_purpose::URL_SAFE_NO_PAD.decode(key).ok()?;
    Some((server.to_owned(), code.to_owned(), DeviceId(key.try_into().ok()?)))
}

fn not_an_office() -> DeviceError {
    let why = "the answer is not from an office server: a login page in between, or another address?";
    DeviceError::NotAtTheOffice(why.to_owned())
}

/// Returns the organisation's key and the server's time from an answer.
fn said_by_office(reply: &Value) -> Result<(DeviceId, i64), DeviceError> {
    let key = reply.get("organisation_key").and_then(Value::as_str);
    let key = key.and_then(|text| DeviceId::read(text).ok());
    let time = reply.get("server_time").and_then(Value::as_i64);
    key.zip(time).ok_or_else(not_an_office)
}

/// Returns the root's statements about the organisation's keys from an answer. A statement that cannot be
/// decoded is skipped.
fn key_statements(reply: &Value) -> Vec<Vec<u8>> {
    let list = reply.get("key_statements").and_then(Value::as_array);
    let texts = list.into_iter().flatten().filter_map(Value::as_str);
    texts.filter_map(|text| base64::engine::general_purpose::STANDARD.decode(text).ok()).collect()
}

/// Enrols the device with the office.
///
/// # Errors
/// Returns a [`DeviceError`] when a rule refuses the request or the device's folder fails.
pub fn enrol(folder: &mut DeviceFolder, typed: Enrolling) -> Result<CommandOutput, DeviceError> {
    let (server, code, expected) = match &typed.text {
        Some(text) => {
            let (server, code, key) = read_text(text).ok_or_else(|| {
                DeviceError::Refused(
                    "this is no enrolment text; it looks like https://…/#enrol=…&key=…".to_owned(),
                )
            })?;
            (server, code, Some(key))
        }
        None => (typed.server.unwrap_or_default(), typed.code.unwrap_or_default(), None),
    };
    let client = OfficeClient::new(&server, typed.ca.as_deref())?;
    let (name, runtime) = (folder.own_name()?, runtime()?);
    let asked = folder.read().now();
    let who = folder.meanwhile(|| runtime.block_on(client.who()))??;
    let answered = folder.read().now();
    let (key, time) = said_by_office(&who)?;
    // This check comes before the code leaves the device: a wrong server must not learn the code.
    if expected.is_some_and(|expected| expected != key) {
        let why = "this is not the server the enrolment text was made by: its key is another. Nothing was taken over";
        return Err(DeviceError::Refused(why.to_owned()));
    }
    if folder.read().organisation_key()?.is_some_and(|known| known != key) {
        let why =
            "this device belongs to another organisation already; make a new device folder for this one";
        return Err(DeviceError::Refused(why.to_owned()));
    }
    let request = folder.read().enrol_request(&code, &name, &key, UtcMillis(time))?;
    let reply = folder.meanwhile(|| runtime.block_on(client.enrol(request)))??;
    let certificate = reply.get("certificate").and_then(Value::as_str);
    let certificate =
        certificate.and_then(|text| base64::engine::general_purpose::STANDARD.decode(text).ok());
    let certificate = certificate.ok_or_else(not_an_office)?;
    folder.book().enrolled_with(key, &key_statements(&reply), &certificate)?;
    let ahead = asked.0 + answered.since(asked) / 2 - time;
    folder.book().store_mut().commit(&[Write::Value { key: CLOCK_AHEAD, value: &ahead.to_be_bytes() }])?;
    let authority = typed.ca.as_deref().map(std::fs::canonicalize).transpose()?;
    folder.remember_server(client.url(), authority.as_deref().and_then(Path::to_str))?;
    let certificate = folder.certified()?;
    let name = certificate.as_ref().map(|c| c.name.clone()).unwrap_or_default();
    let fingerprint = key.fingerprint();
    let text = format!(
        "Enrolled as \"{name}\" with {}. The server's key begins {fingerprint}{}\nNext: farsiding device sync",
        client.url(),
        if expected.is_some() {
            " (as the enrolment text says)."
        } else {
            ": compare it with what the office shows."
        },
    );
    let json = json!({
        "name": name, "server": client.url(), "organisation_key": key.to_string(), "fingerprint": fingerprint,
        "organisation": certificate.map(|c| c.organisation.to_string()),
    });
    Ok(CommandOutput::new(text, json))
}

/// The state of one run of syncing.
struct Run<'f> {
    folder: &'f mut DeviceFolder,
    client: OfficeClient,
    runtime: Runtime,
    attempts: u32,
    quiet: bool,
}

/// The result of exchanging photographs.
#[derive(Debug, Default)]
struct PhotoReport {
    sent: u64,
    sent_bytes: u64,
    fetched: u64,
    unreadable: Vec<String>,
    /// The photographs that the office does not accept for now, with the reasons.
    put_off: Vec<String>,
}

/// Exchanges records, then photographs, with the office.
///
/// # Errors
/// Returns [`DeviceError::NotAtTheOffice`] with what is left when something has not reached the office.
pub fn sync(folder: &mut DeviceFolder, typed: &Syncing, quiet: bool) -> Result<CommandOutput, DeviceError> {
    let mut session = folder.read().sync_session()?; // fails first of all if the device is not enrolled
    let server = match &typed.server {
        Some(server) => server.clone(),
        None => folder
            .server()?
            .ok_or_else(|| DeviceError::Refused("say which server: --server URL".to_owned()))?,
    };
    let authority = folder.authority_file()?;
    let client = OfficeClient::new(&server, authority.as_deref().map(Path::new))?;
    let mut run = Run { folder, client, runtime: runtime()?, attempts: typed.attempts.max(1), quiet };
    let mut report = run.rounds(&mut session)?;
    let log = if report.revoked { LogFound::default() } else { run.check_log()? };
    let mut photos = PhotoReport::default();
    if !report.revoked && !typed.no_photos {
        photos = run.send_photos()?;
        if typed.fetch_photos {
            run.fetch_photos(&mut photos)?;
        }
        if photos.sent + photos.fetched > 0 {
            // Only a signed reply counts as proof, so one more round asks for the reply that says the
            // photographs are held.
            let mut again = run.folder.read().sync_session()?;
            let second = run.rounds(&mut again)?;
            report.rounds += second.rounds;
            report.received += second.received;
            report.receipted += second.receipted;
            report.left.extend(second.left);
            report.left_photos.extend(second.left_photos);
        }
    }
    for photo in &report.left_photos {
        // The office holds it; a file that is not there any more is no trouble.
        let _ = std::fs::remove_file(run.folder.photo_file(*photo));
    }
    told(run.folder, &report, &photos, &log)
}

fn told(
    folder: &DeviceFolder,
    report: &SyncReport,
    photos: &PhotoReport,
    log: &LogFound,
) -> Result<CommandOutput, DeviceError> {
    let still = unsent(folder)?;
    let mut text = format!(
        "The office receipted {} entries and sent {} new ones ({} rounds).",
        report.receipted, report.received, report.rounds
    );
    if photos.sent > 0 || photos.fetched > 0 {
        text.push_str(&format!(
            "\nPhotographs: {} sent ({} bytes), {} fetched.",
            photos.sent, photos.sent_bytes, photos.fetched
        ));
    }
    let clock = farsiding_host::clock_words(report.ahead_millis);
    if !clock.is_empty() {
        text.push_str(&format!("\nThis device's clock{}", clock.trim_start_matches(" · its clock")));
        text.push_str("; its entries say so, set it right when you can.");
    }
    if report.reconciled {
        text.push_str("\nThe records had drifted apart (a backup put back?) and were compared one by one.");
    }
    if !report.differing.is_empty() {
        text.push_str(&format!(
            "\n{} records still differ from the office's and will be compared again: {}.",
            report.differing.len(),
            differing_names(report).join(", ")
        ));
    }
    if !report.left.is_empty() {
        text.push_str(&format!(
            "\n{} records of sites that this device no longer has were taken off it; the office holds them.",
            report.left.len()
        ));
    }
    for why in &report.refused {
        text.push_str(&format!("\nThe office refused something from here; it is kept here: {why}"));
    }
    if let Some(why) = &report.put_off {
        text.push_str(&format!(
            "\nThe office does not take more from here for now; it is kept and sent again: {why}"
        ));
    }
    if report.set_aside > 0 {
        text.push_str(&format!(
            "\n{} things from the office could not be read and are kept aside.",
            report.set_aside
        ));
    }
    if report.names_unfit > 0 {
        text.push_str(&format!(
            "\n{} names from the office do not fit the entries about these people; their codes are shown.",
            report.names_unfit
        ));
    }
    for why in &photos.put_off {
        text.push_str(&format!("\nA photograph was not taken for now: {why}"));
    }
    for name in &photos.unreadable {
        text.push_str(&format!(
            "\nPhotograph {name} cannot be read from this device's folder; put it back from a copy."
        ));
    }
    for line in log.lines() {
        text.push_str(&format!("\n{line}"));
    }
    text.push_str(&format!("\n{}", unsent_words(still)));
    if report.revoked {
        return Err(DeviceError::NotEnrolled(format!(
            "this device has been revoked. {} What has a receipt has been taken in; nothing more comes here. \
             Ask the office",
            text.replace('\n', " ")
        )));
    }
    if let Some(warning) = log.warning() {
        return Err(DeviceError::LogContradicts(format!("{warning}. {}", text.replace('\n', " "))));
    }
    for warning in office_log::warnings(folder)? {
        text.push_str(&format!("\nKept from before: {warning}"));
    }
    let json = json!({
        "log": log.json(),
        "rounds": report.rounds, "receipted": report.receipted, "received": report.received,
        "reconciled": report.reconciled, "refused": report.refused, "set_aside": report.set_aside,
        "names_unfit": report.names_unfit,
        "differing": differing_names(report),
        "left": report.left.iter().map(ToString::to_string).collect::<Vec<_>>(),
        "put_off": report.put_off,
        "clock_ahead_millis": report.ahead_millis, "photos_sent": photos.sent,
        "photo_bytes_sent": photos.sent_bytes, "photos_fetched": photos.fetched,
        "photos_unreadable": photos.unreadable, "photos_put_off": photos.put_off,
        "unreceipted_entries": still.0, "unsent_photos": still.1,
    });
    Ok(CommandOutput::new(text, json))
}

fn differing_names(report: &SyncReport) -> Vec<String> {
    report.differing.iter().map(ToString::to_string).collect()
}

impl Run<'_> {
    fn progress(&self, text: &str) {
        if !self.quiet {
            let _ = writeln!(std::io::stderr(), "{text}"); // a lost progress message is no reason to stop
        }
    }

    /// Waits and announces the wait after a failure, or gives up.
    fn wait_or_give_up(&mut self, refused: OfficeCallError, failures: &mut u32) -> Result<(), DeviceError> {
        *failures += 1;
        if !refused.may_pass() || *failures >= self.attempts {
            let still = unsent(self.folder)?;
            return Err(match DeviceError::from(refused) {
                DeviceError::NotAtTheOffice(why) => {
                    DeviceError::NotAtTheOffice(format!("{why}. {}", unsent_words(still)))
                }
                other => other,
            });
        }
        self.progress(&format!("{}; trying again ({failures} of {})", refused.message, self.attempts));
        let Run { folder, runtime, .. } = self;
        folder.meanwhile(|| runtime.block_on(wait_before_retry(*failures)))
    }

    fn rounds(&mut self, session: &mut farsiding_core::sync::Session) -> Result<SyncReport, DeviceError> {
        let mut failures = 0;
        loop {
            let request = self.folder.book().sync_request(session)?;
            let Run { folder, client, runtime, .. } = self;
            match folder.meanwhile(|| runtime.block_on(client.sync(request)))? {
                Ok(reply) => {
                    failures = 0;
                    let step = self.folder.book().sync_receive(session, &reply)?;
                    let report = session.report();
                    if report.rounds > 1 || step == Step::Again {
                        self.progress(&format!(
                            "round {}: {} receipted, {} new here",
                            report.rounds, report.receipted, report.received
                        ));
                    }
                    if step == Step::Done {
                        return Ok(report.clone());
                    }
                }
                Err(refused) => self.wait_or_give_up(refused, &mut failures)?,
            }
        }
    }

    /// Fetches and checks the office's log, if there is something to ask. A failure to fetch the log is not a
    /// failure of the sync, because the records have their receipts by then and the next sync asks again.
    fn check_log(&mut self) -> Result<LogFound, DeviceError> {
        let mut watch = self.folder.read().log_watch()?;
        let mut found = LogFound::default();
        while let Some(request) = self.folder.read().log_request(&mut watch)? {
            let Run { folder, client, runtime, .. } = self;
            match folder.meanwhile(|| runtime.block_on(client.log(request)))? {
                Ok(reply) => match self.folder.book().log_receive(&mut watch, &reply) {
                    Ok(step) => {
                        found.report = Some(watch.report().clone());
                        if step == Step::Done {
                            break;
                        }
                    }
                    Err(farsiding_core::book::BookError::Sync(error)) => {
                        found.unasked = Some(error.to_string());
                        break;
                    }
                    Err(other) => return Err(other.into()),
                },
                Err(refused) => {
                    found.unasked = Some(refused.message);
                    break;
                }
            }
        }
        Ok(found)
    }

    fn pass(&mut self) -> Result<String, DeviceError> {
        let (mut failures, mut server_time) = (0, None);
        loop {
            let request = self.folder.book().pass_request(server_time)?;
            let Run { folder, client, runtime, .. } = self;
            match folder.meanwhile(|| runtime.block_on(client.pass(request)))? {
                Ok(pass) => return Ok(pass),
                Err(refused) => match refused.server_time {
                    Some(time) if server_time.is_none() => {
                        server_time = Some(farsiding_core::clock::UtcMillis(time));
                    }
                    _ => self.wait_or_give_up(refused, &mut failures)?,
                },
            }
        }
    }

    fn send_photos(&mut self) -> Result<PhotoReport, DeviceError> {
        let mut report = PhotoReport::default();
        let photos = self.folder.read().store().photos()?;
        let waiting: Vec<_> = photos.into_iter().filter(|photo| photo.here && !photo.held).collect();
        if waiting.is_empty() {
            return Ok(report);
        }
        let mut pass = self.pass()?;
        for (at, photo) in waiting.iter().enumerate() {
            let bytes = std::fs::read(self.folder.photo_file(photo.sha256)).unwrap_or_default();
            if Digest::of(&bytes) != photo.sha256 {
                report.unreadable.push(photo.sha256.short());
                continue;
            }
            self.progress(&format!("photograph {} of {} ({} bytes)", at + 1, waiting.len(), photo.length));
            let photo = PhotoToSend {
                sha256: photo.sha256.to_string(),
                length: photo.length,
                media: photo.media.clone(),
            };
            match self.send_photo(&mut pass, &photo, &bytes)? {
                Ok(sent) => {
                    report.sent_bytes += sent;
                    report.sent += 1;
                }
                Err(why) => report.put_off.push(why),
            }
        }
        Ok(report)
    }

    /// Sends one photograph, starting at the offset the server already has. Returns how many bytes were sent,
    /// or why the office does not accept the photograph for now.
    fn send_photo(
        &mut self,
        pass: &mut String,
        photo: &PhotoToSend,
        bytes: &[u8],
    ) -> Result<Result<u64, String>, DeviceError> {
        let (mut failures, mut slice, mut sent) = (0, SLICE, 0u64);
        let mut offset: Option<u64> = None;
        loop {
            let Run { folder, client, runtime, .. } = self;
            let outcome = match offset {
                Some(offset) if offset >= photo.length => return Ok(Ok(sent)),
                Some(offset) => {
                    let from = usize::try_from(offset).unwrap_or(usize::MAX).min(bytes.len());
                    let piece = bytes[from..bytes.len().min(from + slice)].to_vec();
                    let length = piece.len() as u64;
                    let work = client.piece(pass, &photo.sha256, offset, piece);
                    folder.meanwhile(|| runtime.block_on(work))?.map(|reached| (reached, length))
                }
                None => {
                    let work = async {
                        client.announce(pass, photo).await?;
                        client.offset(pass, &photo.sha256).await
                    };
                    folder.meanwhile(|| runtime.block_on(work))?.map(|reached| (reached, 0))
                }
            };
            match outcome {
                Ok((reached, length)) => {
                    (offset, failures, sent) = (Some(reached), 0, sent + length);
                    slice = (slice * 2).min(LARGEST_SLICE);
                }
                Err(refused)
                    if matches!(refused.code.as_str(), "no_entry" | "other_length" | "over_quota") =>
                {
                    return Ok(Err(refused.message));
                }
                Err(refused) => {
                    let run_out = refused.code == "no_pass";
                    // The offset was wrong, a piece was altered or the connection was cut: ask the server for
                    // the offset and continue there.
                    let start_over = matches!(refused.status, 404 | 409 | 460);
                    (offset, slice) = (None, SLICE);
                    let refused = OfficeCallError {
                        status: if run_out || start_over { 0 } else { refused.status },
                        ..refused
                    };
                    self.wait_or_give_up(refused, &mut failures)?;
                    if run_out {
                        *pass = self.pass()?;
                    }
                }
            }
        }
    }

    /// Fetches photographs that the records refer to and that are not on this device.
    fn fetch_photos(&mut self, report: &mut PhotoReport) -> Result<(), DeviceError> {
        let store = self.folder.read().store();
        let mut wanted = Vec::new();
        for subject in store.subjects()? {
            for (entry, _) in self.folder.read().entries(subject)?.0 {
                if let Statement::Photo { photo, .. } = entry.body.says
                    && !store.photo(photo.sha256)?.is_some_and(|known| known.here)
                {
                    wanted.push(photo);
                }
            }
        }
        wanted.sort_by_key(|photo| photo.sha256);
        wanted.dedup();
        if wanted.is_empty() {
            return Ok(());
        }
        let pass = self.pass()?;
        for photo in wanted {
            let Run { folder, client, runtime, .. } = self;
            let name = photo.sha256.to_string();
            let work = client.photo(&pass, &name, photo.length);
            let fetched = folder.meanwhile(|| runtime.block_on(work))?;
            match fetched {
                Ok(bytes) if Digest::of(&bytes) == photo.sha256 => {
                    photos::keep(self.folder, &bytes, &photo.media)?;
                    // The server has just shown that it holds the photograph; its signed confirmation is
                    // asked for afterwards.
                    report.fetched += 1;
                }
                Ok(_) => self.progress("a photograph came altered and was not kept"),
                Err(refused) if refused.status == 404 => {} // the server does not have it yet either
                Err(refused) => return Err(refused.into()),
            }
        }
        Ok(())
    }
}
