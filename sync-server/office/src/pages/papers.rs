//! The page of shipping papers: a CSV file is chosen or pasted in, previewed line by line and stored. The
//! page also lists papers without a record.

use std::sync::Arc;

use axum::extract::{Path, State};
use axum::http::{HeaderValue, header};
use axum::response::{IntoResponse as _, Response};
use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::car_number::CarNumber;
use farsiding_core::ids::Digest;
use farsiding_core::{Arg, Message, message};
use farsiding_words::Words;
use maud::{Markup, html};
use serde::Deserialize;

use super::frame::{self, CsrfForm, OfficeUser, Place, Records, csrf, in_utc};
use super::page_error::PageError;
use super::papers_sent;
use super::sign_in::see_other;
use crate::accounts::roles::Right;
use crate::held_papers;
use crate::month;
use crate::state::Office;
use farsiding_reconcile::HeldPaper;
use farsiding_reconcile::facts::Facts;
use farsiding_reconcile::papers::import::{Field, ImportError, Mapping, Sheet, take_apart};
use farsiding_reconcile::report::near;

/// How far back papers and stays are compared, in milliseconds.
const LOOK_BACK: i64 = 100 * 86_400_000;
/// The number of lines of a file that are shown.
const SHOWN: usize = 200;

impl From<ImportError> for PageError {
    fn from(error: ImportError) -> PageError {
        PageError::BadForm(match error {
            ImportError::NotText => message!("office-refused-not-text"),
            ImportError::NoHeads => message!("office-papers-no-heads"),
            ImportError::TooMuch(why) => message!("office-papers-unreadable", why = why),
        })
    }
}

/// `GET /office/papers`: shows the stored papers.
pub async fn show(State(office): State<Arc<Office>>, user: OfficeUser) -> Result<Response, PageError> {
    frame::note(&office, &user, "looked", "papers").await?;
    let now = office.now();
    let span = (UtcMillis(now.0 - LOOK_BACK), UtcMillis(now.0 + 86_400_000));
    let read = office.on_index(move |asking| Ok((month::of_index(asking, span)?, month::sites_of(asking)?)));
    let ((all, _), sites) = read.await?;
    let (papers, files) = office
        .on_database(|database| {
            Ok((held_papers::papers(database.connection())?, held_papers::files(database.connection())?))
        })
        .await?;
    let since = UtcMillis(now.0 - LOOK_BACK).rfc3339();
    let recent: Vec<&HeldPaper> =
        papers.iter().filter(|paper| paper.day.as_str() >= since.get(..10).unwrap_or("")).collect();
    let w = user.words;
    let body = html! {
        h1 { (w.say("office-papers-title")) }
        p.lead { (w.say("office-papers-lead")) }
        @if user.may(Right::Record) { div.two.even.no-print {
            section {
                h2 { (w.say("office-papers-file")) }
                form.stack method="post" action="/office/papers/preview" enctype="multipart/form-data" {
                    (csrf(&user))
                    label for="file" { (w.say("office-papers-csv")) }
                    input.field id="file" name="file" type="file" accept=".csv,.txt,.tsv,text/csv,text/plain,text/tab-separated-values" required;
                    button.go type="submit" { (w.say("office-papers-preview")) }
                }
            }
            section {
                h2 { (w.say("office-papers-text")) }
                form.stack method="post" action="/office/papers/preview" {
                    (csrf(&user))
                    label for="name" { (w.say("office-papers-name")) } input.field id="name" name="name" maxlength="120" value="papers.csv" required;
                    label for="text" { (w.say("office-papers-lines")) }
                    textarea.field id="text" name="text" rows="4" required spellcheck="false" {}
                    button.key type="submit" { (w.say("office-papers-preview-text")) }
                }
            }
        } }
        (frame::behind(user.words, &office))
        (papers_sent::section(&user, &sites, &all, now))
        (unmatched(w, &recent, &all))
        section {
            h2 { (w.say("office-papers-files")) }
            @if files.is_empty() { p.none { (w.say("office-papers-no-files")) } } @else { div.wide tabindex="0" role="region" aria-label=(w.say("office-papers-files-label")) { table {
                thead { tr { th scope="col" { (w.say("office-papers-file-head")) } th scope="col" { (w.say("office-papers-taken")) } th.num scope="col" { (w.say("office-papers-title")) } th scope="col" { "SHA-256" } @if user.may(Right::Record) { th.no-print scope="col" { (w.say("office-papers-send-to")) } } } }
                tbody { @for file in &files { tr {
                    th scope="row" { a href={ "/office/papers/files/" (file.digest) } { (file.name) } }
                    td { (w.text(&message!("office-papers-taken-by", time = Arg::typed(in_utc(file.taken_at)), by = Arg::typed(&file.taken_by)))) } td.num { (file.papers) } td { code { (file.digest.short()) } "…" }
                    @if user.may(Right::Record) { td.no-print { a.key href={ "/office/papers/files/" (file.digest) "/send" } { (w.say("office-papers-send-to")) } } }
                } } }
            } } }
        }
        section.no-print {
            h2 { (w.say("office-papers-tables")) }
            p { (w.say("office-papers-tables-note")) " " a href="/office/reconcile" { (w.say("office-papers-reconcile")) } br; (w.say("office-papers-packets-note")) " " code { "farsiding export packets" } }
        }
    };
    Ok(frame::page(&user, &w.say("office-papers-title"), Place::Papers, body))
}

/// Returns the papers whose car has no record, with near misses: records without a paper whose number differs
/// by one slip.
fn unmatched(w: &Words, papers: &[&HeldPaper], all: &[Facts]) -> Markup {
    let normal = |car: &str| CarNumber(car.to_owned()).normal();
    let without: Vec<(&HeldPaper, Vec<&Facts>)> = papers
        .iter()
        .filter(|paper| !all.iter().any(|facts| facts.car == normal(&paper.car)))
        .map(|paper| {
            let like = all.iter().filter(|facts| {
                near(&facts.car, &paper.car) && !papers.iter().any(|other| normal(&other.car) == facts.car)
            });
            (*paper, like.collect())
        })
        .collect();
    html! {
        @if !papers.is_empty() {
            section {
                h2 { (w.say("office-papers-unmatched")) " " small { (w.text(&message!("office-papers-of", count = without.len(), all = papers.len()))) } }
                @if without.is_empty() { p { (w.say("office-papers-all-matched")) } }
                ul.plain.split { @for (paper, like) in without.iter().take(SHOWN) { li.hot-edge[!like.is_empty()] {
                    b { (paper.car) } " · " (w.text(&message!("office-papers-paper", number = Arg::typed(&paper.number), day = Arg::typed(&paper.day), shipper = Arg::typed(&paper.shipper))))
                    @for facts in like { br; (w.say("office-papers-near")) " " @if let Some(visit) = facts.visit() { a href={ "/office/visits/" (visit) } { (facts.car) } } ", " (facts.site_name) ", " (facts.day) }
                } } }
            }
        }
    }
}

/// A file as chosen or pasted in, with the chosen columns.
#[derive(Debug, Deserialize)]
pub struct Handed {
    /// The name given to the pasted text.
    #[serde(default)]
    name: String,
    /// The pasted text, whose line ends a browser has changed to CR LF.
    #[serde(default)]
    text: String,
    /// The content of the chosen file.
    #[serde(default)]
    file: String,
    #[serde(default)]
    file_name: String,
    /// The previewed content, sent back by the form. It is base64, because a text field would change line
    /// ends.
    #[serde(default)]
    kept: String,
    #[serde(default)]
    unit: String,
    #[serde(default)]
    number: String,
    #[serde(default)]
    car: String,
    #[serde(default)]
    mark: String,
    #[serde(default)]
    shipper: String,
    #[serde(default)]
    day: String,
    #[serde(default)]
    billed: String,
    #[serde(default)]
    density: String,
    #[serde(default)]
    un_number: String,
    #[serde(default)]
    product: String,
    #[serde(default)]
    odorised: String,
    #[serde(default)]
    grade: String,
    #[serde(default)]
    billed_by: String,
    #[serde(default)]
    winter_fill: String,
    #[serde(default)]
    expected: String,
}

const FIELDS: [(&str, Field); 14] = [
    ("number", Field::Number),
    ("car", Field::Car),
    ("mark", Field::Mark),
    ("shipper", Field::Shipper),
    ("day", Field::Day),
    ("billed", Field::Billed),
    ("density", Field::Density),
    ("un_number", Field::UnNumber),
    ("product", Field::Product),
    ("odorised", Field::Odorised),
    ("grade", Field::Grade),
    ("billed_by", Field::BilledBy),
    ("winter_fill", Field::WinterFill),
    ("expected", Field::Expected),
];

impl Handed {
    /// Returns the bytes of the file, in whichever way they were sent.
    fn bytes(&self) -> Result<Vec<u8>, PageError> {
        let bytes = match (self.kept.as_str(), self.file.is_empty()) {
            ("", false) => self.file.clone().into_bytes(),
            ("", true) => self.text.clone().into_bytes(),
            (kept, _) => URL_SAFE_NO_PAD
                .decode(kept)
                .map_err(|_| PageError::BadForm(message!("office-papers-not-whole")))?,
        };
        if bytes.iter().all(u8::is_ascii_whitespace) {
            return Err(PageError::BadForm(message!("office-papers-choose")));
        }
        Ok(bytes)
    }

    /// Returns the name of the file.
    fn called(&self) -> String {
        let name = if self.file_name.trim().is_empty() { &self.name } else { &self.file_name };
        let name: String = name.trim().chars().filter(|c| !c.is_control()).take(120).collect();
        if name.is_empty() { "papers.csv".to_owned() } else { name }
    }

    /// Returns the chosen columns, or `None` if none were chosen yet.
    fn mapping(&self, sheet: &Sheet) -> Option<Mapping> {
        if self.unit.is_empty() {
            return None;
        }
        let typed = [
            &self.number,
            &self.car,
            &self.mark,
            &self.shipper,
            &self.day,
            &self.billed,
            &self.density,
            &self.un_number,
            &self.product,
            &self.odorised,
            &self.grade,
            &self.billed_by,
            &self.winter_fill,
            &self.expected,
        ];
        let columns = FIELDS
            .iter()
            .zip(typed)
            .filter_map(|((_, field), column)| Some((*field, column.parse::<usize>().ok()?)))
            .filter(|(_, column)| *column < sheet.heads.len())
            .collect();
        Some(Mapping { columns, unit: self.unit.clone() })
    }
}

/// `POST /office/papers/preview`: shows what can be read from the file.
pub async fn preview(
    State(office): State<Arc<Office>>,
    CsrfForm { user, form, .. }: CsrfForm<Handed, Records>,
) -> Result<Response, PageError> {
    let (bytes, name) = (form.bytes()?, form.called());
    let sheet = take_apart(&bytes)?;
    let asked = sheet.clone();
    let remembered =
        office.on_database(move |database| held_papers::mapping_of(database.connection(), &asked)).await?;
    let w = user.words;
    let chosen = form.mapping(&sheet);
    let told = match (&chosen, &remembered) {
        (None, Some(_)) => w.say("office-papers-as-last"),
        (None, None) => w.say("office-papers-new-heads"),
        (Some(_), _) => w.say("office-papers-as-said"),
    };
    let mapping = chosen.or(remembered).unwrap_or_else(|| sheet.guess());
    let lines = sheet.read(&mapping);
    let good = lines.iter().filter(|line| line.faults.is_empty()).count();
    let body = html! {
        h1 { (name) }
        p.told { (told) " " (w.text(&message!("office-papers-good", good = good, all = lines.len()))) }
        form method="post" action="/office/papers/take" {
            (csrf(&user))
            input type="hidden" name="name" value=(name);
            input type="hidden" name="kept" value=(URL_SAFE_NO_PAD.encode(&bytes));
            div.stack.pairs {
                @for (id, field) in &FIELDS {
                    label for=(id) { (w.text(&Message::term("office-column", id))) }
                    select.field id=(id) name=(id) {
                        option value="" { (w.say("office-papers-no-column")) }
                        @for (at, head) in sheet.heads.iter().enumerate() { option value=(at) selected[mapping.columns.get(field) == Some(&at)] { (at + 1) ": " (head) } }
                    }
                }
                label for="unit" { (w.say("office-papers-unit")) }
                select.field id="unit" name="unit" { @for unit in ["gal", "lb"] { option value=(unit) selected[mapping.unit == unit] { (unit) } } }
            }
            div.row {
                button.key type="submit" formaction="/office/papers/preview" { (w.say("office-papers-refresh")) }
                button.go type="submit" { (w.text(&message!("office-papers-take", count = good))) }
            }
        }
        div.wide tabindex="0" role="region" aria-label=(w.say("office-papers-lines-label")) { table {
            thead { tr { th.num scope="col" { (w.say("office-papers-line")) } th scope="col" { (w.say("office-papers-paper-head")) } th scope="col" { (w.say("office-papers-car")) } th scope="col" { (w.say("office-papers-shipper")) } th scope="col" { (w.say("office-papers-day")) } th scope="col" { (w.say("office-papers-billed")) } th scope="col" { (w.say("office-papers-wrong")) } } }
            tbody { @for line in lines.iter().take(SHOWN) { tr {
                td.num { (line.line) } td { (line.paper.number) } td { (line.paper.car) } td { (line.paper.shipper) } td { (line.paper.day) } td { (line.paper.billed) }
                td { @if line.faults.is_empty() { "—" } @else { span.hot { @for (at, fault) in line.faults.iter().enumerate() { @if at > 0 { "; " } (w.text(fault)) } } } }
            } } }
        } }
        @if lines.len() > SHOWN { p.small { (w.text(&message!("office-papers-more", count = lines.len() - SHOWN))) } }
    };
    Ok(frame::page(&user, &w.say("office-papers-previewed"), Place::Papers, body))
}

/// `POST /office/papers/take`: stores the file.
pub async fn take(
    State(office): State<Arc<Office>>,
    CsrfForm { user, form, .. }: CsrfForm<Handed, Records>,
) -> Result<Response, PageError> {
    let (bytes, name) = (form.bytes()?, form.called());
    let sheet = take_apart(&bytes)?;
    let mapping = form.mapping(&sheet).ok_or_else(|| PageError::BadForm(message!("office-papers-first")))?;
    let (now, by, digest) = (office.now(), user.name.clone(), Digest::of(&bytes));
    let taken = office
        .on_database(move |database| {
            let file = (name.as_str(), bytes.as_slice());
            held_papers::keep(database.connection_mut(), file, (&sheet, &mapping), &by, now)
        })
        .await?;
    frame::note(&office, &user, "took papers in", &format!("papers:{taken}")).await?;
    // What was imported can be sent at once; nothing goes to a site by itself.
    Ok(see_other(&format!("/office/papers/files/{digest}/send")))
}

/// `GET /office/papers/files/{sha256}`: returns the original file.
pub async fn file(
    State(office): State<Arc<Office>>,
    Path(digest): Path<String>,
    user: OfficeUser,
) -> Result<Response, PageError> {
    let not_there = || PageError::NotThere(message!("office-papers-no-file"));
    let digest = Digest::read(&digest).map_err(|_| not_there())?;
    let found =
        office.on_database(move |database| held_papers::bytes_of(database.connection(), digest)).await?;
    let (_, bytes) = found.ok_or_else(not_there)?;
    frame::note(&office, &user, "read", &format!("papers:{digest}")).await?;
    let name = HeaderValue::from_str(&format!("attachment; filename=\"papers-{}.csv\"", digest.short()));
    let headers = [
        (header::CONTENT_TYPE, HeaderValue::from_static("text/csv; charset=utf-8")),
        (header::CONTENT_DISPOSITION, name.map_err(PageError::failed)?),
    ];
    Ok((headers, bytes).into_response())
}
