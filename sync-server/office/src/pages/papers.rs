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
use maud::{Markup, html};
use serde::Deserialize;

use super::frame::{self, CsrfForm, OfficeUser, Place, Records, csrf, in_utc};
use super::refused::Refused;
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

impl From<ImportError> for Refused {
    fn from(error: ImportError) -> Refused {
        Refused::BadForm(format!("The file cannot be read: {error}. Nothing was taken in."))
    }
}

/// `GET /office/papers`: shows the stored papers.
pub async fn show(State(office): State<Arc<Office>>, user: OfficeUser) -> Result<Response, Refused> {
    frame::note(&office, &user, "looked", "papers").await?;
    let now = office.now();
    let span = (UtcMillis(now.0 - LOOK_BACK), UtcMillis(now.0 + 86_400_000));
    let (all, _) = office.on_index(move |asking| month::of_index(asking, span)).await?;
    let (papers, files) = office
        .on_database(|database| {
            Ok((held_papers::papers(database.connection())?, held_papers::files(database.connection())?))
        })
        .await?;
    let since = UtcMillis(now.0 - LOOK_BACK).rfc3339();
    let recent: Vec<&HeldPaper> =
        papers.iter().filter(|paper| paper.day.as_str() >= since.get(..10).unwrap_or("")).collect();
    let body = html! {
        h1 { "Papers" }
        p.lead { "Shipping papers come in as a table: heads in the first line, comma, semicolon or tab between. Nothing is kept before you have looked it over." }
        @if user.may(Right::Record) { div.two.even.no-print {
            section {
                h2 { "A file" }
                form.stack method="post" action="/office/papers/preview" enctype="multipart/form-data" {
                    (csrf(&user))
                    label for="file" { "CSV, up to 2 MB" }
                    input.field id="file" name="file" type="file" accept=".csv,.txt,.tsv,text/csv,text/plain,text/tab-separated-values" required;
                    button.go type="submit" { "Look it over" }
                }
            }
            section {
                h2 { "Or its text" }
                form.stack method="post" action="/office/papers/preview" {
                    (csrf(&user))
                    label for="name" { "What to call it" } input.field id="name" name="name" maxlength="120" value="papers.csv" required;
                    label for="text" { "Copied lines, heads first" }
                    textarea.field id="text" name="text" rows="4" required spellcheck="false" {}
                    button.key type="submit" { "Look the text over" }
                }
            }
        } }
        (frame::behind(&office))
        (unmatched(&recent, &all))
        section {
            h2 { "Files taken in" }
            @if files.is_empty() { p.none { "None yet." } } @else { div.wide tabindex="0" role="region" aria-label="Files" { table {
                thead { tr { th scope="col" { "File" } th scope="col" { "Taken in" } th.num scope="col" { "Papers" } th scope="col" { "SHA-256" } } }
                tbody { @for file in &files { tr {
                    th scope="row" { a href={ "/office/papers/files/" (file.digest) } { (file.name) } }
                    td { (in_utc(file.taken_at)) " by " (file.taken_by) } td.num { (file.papers) } td { code { (file.digest.short()) } "…" }
                } } }
            } } }
        }
        section.no-print {
            h2 { "Tables out" }
            p { "A month's figures as workbook, CSV or JSON are on " a href="/office/reconcile" { "Reconcile" } "; packets of a whole month: " code { "farsiding export packets" } "." }
        }
    };
    Ok(frame::page(&user, "Papers", Place::Papers, body))
}

/// Returns the papers whose car has no record, with near misses: records without a paper whose number differs
/// by one slip.
fn unmatched(papers: &[&HeldPaper], all: &[Facts]) -> Markup {
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
                h2 { "Papers of the last 100 days without a record " small { (without.len()) " of " (papers.len()) } }
                @if without.is_empty() { p { "Every one has its car." } }
                ul.plain.split { @for (paper, like) in without.iter().take(SHOWN) { li.hot-edge[!like.is_empty()] {
                    b { (paper.car) } " · paper " (paper.number) ", " (paper.day) ", " (paper.shipper)
                    @for facts in like { br; "One slip away, with no paper of its own: " @if let Some(visit) = facts.visit() { a href={ "/office/visits/" (visit) } { (facts.car) } } ", " (facts.site_name) ", " (facts.day) }
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
}

const FIELDS: [(&str, Field); 7] = [
    ("number", Field::Number),
    ("car", Field::Car),
    ("mark", Field::Mark),
    ("shipper", Field::Shipper),
    ("day", Field::Day),
    ("billed", Field::Billed),
    ("density", Field::Density),
];

impl Handed {
    /// Returns the bytes of the file, in whichever way they were sent.
    fn bytes(&self) -> Result<Vec<u8>, Refused> {
        let bytes = match (self.kept.as_str(), self.file.is_empty()) {
            ("", false) => self.file.clone().into_bytes(),
            ("", true) => self.text.clone().into_bytes(),
            (kept, _) => URL_SAFE_NO_PAD
                .decode(kept)
                .map_err(|_| Refused::BadForm("The file did not come back whole.".to_owned()))?,
        };
        if bytes.iter().all(u8::is_ascii_whitespace) {
            return Err(Refused::BadForm("Choose a file, or paste its text.".to_owned()));
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
        let typed =
            [&self.number, &self.car, &self.mark, &self.shipper, &self.day, &self.billed, &self.density];
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
) -> Result<Response, Refused> {
    let (bytes, name) = (form.bytes()?, form.called());
    let sheet = take_apart(&bytes)?;
    let asked = sheet.clone();
    let remembered =
        office.on_database(move |database| held_papers::mapping_of(database.connection(), &asked)).await?;
    let chosen = form.mapping(&sheet);
    let told = match (&chosen, &remembered) {
        (None, Some(_)) => "Read as the last file with these heads was.",
        (None, None) => "Heads not seen before: say which column is what.",
        (Some(_), _) => "Read as you said.",
    };
    let mapping = chosen.or(remembered).unwrap_or_else(|| sheet.guess());
    let lines = sheet.read(&mapping);
    let good = lines.iter().filter(|line| line.faults.is_empty()).count();
    let body = html! {
        h1 { (name) }
        p.told { (told) " " (good) " of " (lines.len()) " lines can be taken in; the others stay in the file, which is kept whole." }
        form method="post" action="/office/papers/take" {
            (csrf(&user))
            input type="hidden" name="name" value=(name);
            input type="hidden" name="kept" value=(URL_SAFE_NO_PAD.encode(&bytes));
            div.stack.pairs {
                @for ((id, field), (_, label, _)) in FIELDS.iter().zip(Field::ALL) {
                    label for=(id) { (label) }
                    select.field id=(id) name=(id) {
                        option value="" { "not in this file" }
                        @for (at, head) in sheet.heads.iter().enumerate() { option value=(at) selected[mapping.columns.get(field) == Some(&at)] { (at + 1) ": " (head) } }
                    }
                }
                label for="unit" { "A quantity without a unit is in" }
                select.field id="unit" name="unit" { @for unit in ["gal", "lb"] { option value=(unit) selected[mapping.unit == unit] { (unit) } } }
            }
            div.row {
                button.key type="submit" formaction="/office/papers/preview" { "Look again" }
                button.go type="submit" { "Take " (good) " in" }
            }
        }
        div.wide tabindex="0" role="region" aria-label="Lines" { table {
            thead { tr { th.num scope="col" { "Line" } th scope="col" { "Paper" } th scope="col" { "Car" } th scope="col" { "Shipper" } th scope="col" { "Day" } th scope="col" { "Billed" } th scope="col" { "What is wrong" } } }
            tbody { @for line in lines.iter().take(SHOWN) { tr {
                td.num { (line.line) } td { (line.paper.number) } td { (line.paper.car) } td { (line.paper.shipper) } td { (line.paper.day) } td { (line.paper.billed) }
                td { @if line.faults.is_empty() { "—" } @else { span.hot { (line.faults.join("; ")) } } }
            } } }
        } }
        @if lines.len() > SHOWN { p.small { "and " (lines.len() - SHOWN) " lines more." } }
    };
    Ok(frame::page(&user, "Papers, looked over", Place::Papers, body))
}

/// `POST /office/papers/take`: stores the file.
pub async fn take(
    State(office): State<Arc<Office>>,
    CsrfForm { user, form, .. }: CsrfForm<Handed, Records>,
) -> Result<Response, Refused> {
    let (bytes, name) = (form.bytes()?, form.called());
    let sheet = take_apart(&bytes)?;
    let mapping =
        form.mapping(&sheet).ok_or_else(|| Refused::BadForm("Look the file over first.".to_owned()))?;
    let (now, by) = (office.now(), user.name.clone());
    let taken = office
        .on_database(move |database| {
            let file = (name.as_str(), bytes.as_slice());
            held_papers::keep(database.connection_mut(), file, (&sheet, &mapping), &by, now)
        })
        .await?;
    frame::note(&office, &user, "took papers in", &format!("papers:{taken}")).await?;
    Ok(see_other("/office/papers"))
}

/// `GET /office/papers/files/{sha256}`: returns the original file.
pub async fn file(
    State(office): State<Arc<Office>>,
    Path(digest): Path<String>,
    user: OfficeUser,
) -> Result<Response, Refused> {
    let not_there = || Refused::NotThere("There is no such file.".to_owned());
    let digest = Digest::read(&digest).map_err(|_| not_there())?;
    let found =
        office.on_database(move |database| held_papers::bytes_of(database.connection(), digest)).await?;
    let (_, bytes) = found.ok_or_else(not_there)?;
    frame::note(&office, &user, "read", &format!("papers:{digest}")).await?;
    let name = HeaderValue::from_str(&format!("attachment; filename=\"papers-{}.csv\"", digest.short()));
    let headers = [
        (header::CONTENT_TYPE, HeaderValue::from_static("text/csv; charset=utf-8")),
        (header::CONTENT_DISPOSITION, name.map_err(Refused::failed)?),
    ];
    Ok((headers, bytes).into_response())
}
