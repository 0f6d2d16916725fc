//! Measures the speed of the office's pages with a large ledger: 100 000 visits by default, or as many as
//! `OFFICE_VISITS` says. Every entry is really signed, the server itself builds the index, and pages are
//! requested over HTTP as by a browser. The records are invented.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    missing_docs,
    reason = "a bench stops at the first thing that is not as it must be"
)]

use std::io::{BufRead as _, BufReader, Read as _, Write as _};
use std::net::TcpStream;
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use farsiding_core::clock::{Stamp, UtcMillis};
use farsiding_core::entry::site_facts::SiteProfile;
use farsiding_core::entry::vocabulary::{
    ClockEvent, ClosureState, Fitting, Heard, Measured, Place, Purpose, Receiver, SealEvent, SealKind,
    SealPlace, ValvePosition,
};
use farsiding_core::entry::{
    Body, Certificate, DeviceKey, Entry, Opened, OrganisationKey, Paper, Reading, Role, Seal, Statement,
    car_number::CarNumber,
};
use farsiding_core::ids::{Digest, EntryId, OperatorId, OrganisationId, SiteId, Subject, VisitId};
use farsiding_core::procedure::Procedures;
use farsiding_core::store::{Durability, SqliteStore, Store as _, Write};
use farsiding_core::units::{Amount, Unit};

const AIM_MILLIS: f64 = 300.0;
const HERE: usize = 40;
const PASSWORD: &str = "invented words for a bench";

struct Device {
    key: DeviceKey,
    seq: u64,
    prev: Option<EntryId>,
}

impl Device {
    fn says(&mut self, about: Subject, says: Statement, at: i64) -> Entry {
        self.seq += 1;
        let body = Body {
            about,
            slot: says.slot(),
            says,
            follows: Vec::new(),
            replaces: Vec::new(),
            why: String::new(),
            by: OperatorId("op-1".to_owned()),
            seq: self.seq,
            prev: self.prev,
            when: Stamp { at: UtcMillis(at), offset_minutes: -360, ahead_millis: Some(0) },
            place: None,
            seen: None,
            hand: None,
            done: None,
            rests_on: None,
        };
        let entry = Entry::seal(body, &self.key).unwrap();
        self.prev = Some(entry.id);
        entry
    }
}

fn reading(measured: Measured, place: Place, purpose: Purpose, text: String, unit: Unit) -> Statement {
    let amount = Amount::read(&text, unit).0;
    Statement::Reading(Reading { measured, place, purpose, amount, instrument: "PG-11".to_owned() })
}

fn id(kind: u8, number: usize) -> [u8; 16] {
    let digest = Digest::of(format!("{kind} {number}").as_bytes());
    digest.0[..16].try_into().unwrap()
}

/// Returns a typical stay: about two dozen statements, minutes apart.
fn stay(number: usize, site: SiteId, procedure: Digest, released: bool) -> Vec<Statement> {
    let car = CarNumber(format!("ZZQX {}", 10_000 + number % 4000));
    let mut says = vec![
        Statement::Opened(Opened {
            car,
            site,
            receiver: Receiver::FixedTank,
            procedure,
            spot: "track 1".to_owned(),
            nonce: None,
        }),
        Statement::Paper(Paper {
            shipper: "Invented Terminal".to_owned(),
            un_number: "UN1978".to_owned(),
            product: "Propane".to_owned(),
            billed: Some(Amount::of(29_500.0, Unit::Gallon)),
            relative_density: Some(Amount::of(0.508, Unit::One)),
            ..Paper::default()
        }),
        seal(SealEvent::Found, format!("P{number:07}")),
        reading(
            Measured::Pressure,
            Place::Car,
            Purpose::Arrival,
            format!("{}", 60 + number % 90),
            Unit::PsiGauge,
        ),
        reading(
            Measured::Temperature,
            Place::Car,
            Purpose::Arrival,
            format!("{}", 35 + number % 60),
            Unit::Fahrenheit,
        ),
        reading(Measured::Outage, Place::Car, Purpose::Arrival, format!("{}.5", 20 + number % 9), Unit::Inch),
        Statement::CarCapacity { capacity: Amount::of(33_700.0, Unit::Gallon), insulation: None },
    ];
    for fitting in [Fitting::LiquidA, Fitting::LiquidB, Fitting::Vapour] {
        says.push(Statement::Valve { fitting, position: ValvePosition::Shut });
        says.push(Statement::Closure { fitting, state: ClosureState::ToolTight });
        says.push(Statement::Listen { fitting, heard: Heard::Quiet });
    }
    for step in 0..4 {
        says.push(reading(
            Measured::Pressure,
            Place::Car,
            Purpose::Transfer,
            format!("{}", 90 - 9 * step),
            Unit::PsiGauge,
        ));
    }
    if released {
        says.push(reading(Measured::Pressure, Place::Car, Purpose::Final, "30".to_owned(), Unit::PsiGauge));
        says.push(seal(SealEvent::Applied, format!("K{number:07}")));
        says.push(Statement::Released { as_residue: true });
    }
    says
}

fn seal(event: SealEvent, number: String) -> Statement {
    let place = SealPlace::HousingPin;
    Statement::Seal(Seal {
        event,
        place,
        number,
        kind: Some(SealKind::Plastic),
        intact: true,
        photo: None,
        note: "".into(),
        because: String::new(),
    })
}

/// Writes the ledger and returns some visits from all parts of it.
fn write_ledger(folder: &Path, visits: usize, now: i64) -> Vec<VisitId> {
    let organisation = OrganisationKey::from_secret([5; 32]);
    std::fs::write(folder.join("organisation.key"), format!("{}\n", Digest(organisation.secret()))).unwrap();
    let mut store =
        SqliteStore::open(folder.join("ledger.db").to_str().unwrap(), Durability::WriteAheadLog).unwrap();
    let mut devices: Vec<Device> =
        (0..20u8).map(|n| Device { key: DeviceKey::from_secret([n + 40; 32]), seq: 0, prev: None }).collect();
    for (n, device) in devices.iter().enumerate() {
        let certificate = Certificate::by_role(
            OrganisationId::of_key(&organisation.public()),
            device.key.public(),
            format!("phone-{n}"),
            Role::Operator,
            UtcMillis(0),
        );
        let bytes = certificate.seal(&organisation).unwrap();
        store.commit(&[Write::Certificate { device: device.key.public(), bytes: &bytes }]).unwrap();
    }
    let sites: Vec<SiteId> = (0..12).map(|n| SiteId(id(b's', n))).collect();
    for (n, site) in sites.iter().enumerate() {
        let says = Statement::Site(SiteProfile {
            name: format!("Invented Spur {n}"),
            zone: "Etc/GMT+6".to_owned(),
            elevation: Amount::of(1200.0, Unit::Foot),
            attendance_gap_minutes: 30,
            local_rules: String::new(),
            organisation: String::new(),
            address: String::new(),
        });
        let entry = devices[n].says(Subject::Site(*site), says, now - 6 * 365 * 86_400_000);
        let subject = Subject::Site(*site);
        let leaf = Write::Leaf {
            entry: entry.id,
            received_at: UtcMillis(now - 6 * 365 * 86_400_000),
            about: Some(entry.body.about),
        };
        store.commit(&[Write::Entry { subject, entry: &entry }, leaf]).unwrap();
    }
    let procedure = Procedures::built_in().unwrap().default_procedure().unwrap().digest;
    let (began, mut sample) = (Instant::now(), Vec::new());
    let mut batch: Vec<(Subject, Entry)> = Vec::new();
    let mut entries = 0;
    for number in 0..visits {
        let visit = VisitId(id(b'v', number));
        let released = number + HERE < visits;
        let begins = if released {
            now - 86_400_000 * 5
                - i64::try_from(visits - number).unwrap() * 5 * 365 * 864 * 100_000
                    / i64::try_from(visits).unwrap()
        } else {
            now - 3_600_000 * 8
        };
        let site = sites[number % sites.len()];
        let (at, count) = (number % devices.len(), devices.len());
        let device = &mut devices[at % count];
        let mut says = stay(number, site, procedure, released);
        says.insert(
            1,
            Statement::Clock { event: ClockEvent::ActualPlacement, at: UtcMillis(begins - 3_600_000) },
        );
        for (minute, says) in (0i64..).zip(says) {
            let follows_the_car = says.follows_the_car();
            let entry = device.says(Subject::Visit(visit), says, begins + minute * 300_000);
            if follows_the_car {
                let car = CarNumber(format!("ZZQX {}", 10_000 + number % 4000)).id();
                batch.push((Subject::Car(car), entry.clone()));
            }
            batch.push((Subject::Visit(visit), entry));
            entries += 1;
        }
        if number % (visits / 50).max(1) == 0 {
            sample.push(visit);
        }
        if batch.len() > 20_000 || number + 1 == visits {
            let received_at = UtcMillis(begins + 86_400_000.min(now - begins));
            let mut writes: Vec<Write<'_>> = Vec::with_capacity(batch.len() * 2);
            for (subject, entry) in &batch {
                writes.push(Write::Entry { subject: *subject, entry });
                writes.push(Write::Leaf { entry: entry.id, received_at, about: Some(entry.body.about) });
            }
            store.commit(&writes).unwrap();
            batch.clear();
        }
    }
    println!("wrote {visits} visits, {entries} signed entries, in {:.0} s", began.elapsed().as_secs_f64());
    sample
}

struct Server {
    child: std::process::Child,
    address: String,
    cookie: String,
}

impl Drop for Server {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

impl Server {
    fn start(folder: &Path) -> Server {
        let program = env!("CARGO_BIN_EXE_farsiding");
        let data = folder.to_str().unwrap();
        let mut adding = Command::new(program)
            .args(["account", "add", "--data", data, "--name", "Clerk"])
            .stdin(Stdio::piped())
            .stdout(Stdio::null())
            .spawn()
            .unwrap();
        writeln!(adding.stdin.take().unwrap(), "{PASSWORD}").unwrap();
        assert!(adding.wait().unwrap().success());
        let mut child = Command::new(program)
            .args(["serve", "--data", data, "--listen", "127.0.0.1:0"])
            .stdout(Stdio::piped())
            .stderr(std::fs::File::create(folder.join("log")).unwrap())
            .spawn()
            .unwrap();
        let mut line = String::new();
        BufReader::new(child.stdout.take().unwrap()).read_line(&mut line).unwrap();
        let address = line.trim().strip_prefix("listening on http://").unwrap().to_owned();
        let mut server = Server { child, address, cookie: String::new() };
        let form = format!("name=Clerk&password={}", PASSWORD.replace(' ', "+"));
        let (_, answer) = server.ask("POST", "/office/sign-in", &form);
        let at = answer.find("set-cookie: ").unwrap() + "set-cookie: ".len();
        server.cookie = answer[at..at + answer[at..].find(';').unwrap()].to_owned();
        server
    }

    fn ask(&self, method: &str, path: &str, body: &str) -> (Duration, String) {
        let mut stream = TcpStream::connect(&self.address).unwrap();
        let began = Instant::now();
        write!(
            stream,
            "{method} {path} HTTP/1.1\r\nhost: x\r\nconnection: close\r\ncookie: {}\r\ncontent-type: \
             application/x-www-form-urlencoded\r\ncontent-length: {}\r\n\r\n{body}",
            self.cookie,
            body.len()
        )
        .unwrap();
        let mut answer = Vec::new();
        stream.read_to_end(&mut answer).unwrap();
        (began.elapsed(), String::from_utf8_lossy(&answer).into_owned())
    }
}

fn median(mut times: Vec<f64>) -> (f64, f64) {
    times.sort_by(f64::total_cmp);
    (times[times.len() / 2], times[times.len() - 1])
}

fn main() {
    let visits: usize = std::env::var("OFFICE_VISITS").ok().and_then(|n| n.parse().ok()).unwrap_or(100_000);
    let kept = std::env::var_os("OFFICE_DATA").map(std::path::PathBuf::from);
    let folder = tempfile::tempdir().unwrap();
    let folder = kept.as_deref().unwrap_or(folder.path());
    std::fs::create_dir_all(folder).unwrap();
    let now = i64::try_from(
        std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).unwrap().as_millis(),
    )
    .unwrap();
    let sample = write_ledger(folder, visits, now);
    let began = Instant::now();
    let server = Server::start(folder);
    println!("the server listened after {:.1} s", began.elapsed().as_secs_f64());
    loop {
        let (_, page) = server.ask("GET", "/office/", "");
        if !page.contains("being brought up to date") && page.matches("<li class=\"car").count() == HERE {
            break;
        }
        assert!(began.elapsed() < Duration::from_secs(7200), "the index was never made: {page}");
        std::thread::sleep(Duration::from_millis(500));
    }
    println!("the server built its index of {visits} visits in {:.0} s", began.elapsed().as_secs_f64());
    let some = visits / 2;
    let questions: Vec<(&str, Vec<String>)> = vec![
        ("today", vec!["/office/".to_owned()]),
        (
            "inquiry",
            [
                format!("ZZQX+{}", 10_000 + some % 4000),
                format!("k-{some:07}"),
                format!("P{:07}", visits / 3),
                "ZZQX+99991".to_owned(),
                "invented+spur+3".to_owned(),
                UtcMillis(now - 400 * 86_400_000).rfc3339()[..10].to_owned(),
            ]
            .map(|question| format!("/office/inquiry?q={question}"))
            .to_vec(),
        ),
        ("a visit", sample.iter().map(|visit| format!("/office/visits/{visit}")).collect()),
    ];
    let mut slow = false;
    for (name, paths) in questions {
        let mut times = Vec::new();
        for round in 0..60 {
            let path = &paths[round % paths.len()];
            let (time, page) = server.ask("GET", path, "");
            assert!(page.starts_with("HTTP/1.1 200"), "{path}: {page}");
            times.push(time.as_secs_f64() * 1000.0);
        }
        let (middle, worst) = median(times);
        println!(
            "office {name} {visits} visits {middle:.1} ms (aim < {AIM_MILLIS:.0}), slowest {worst:.0} ms"
        );
        slow |= middle >= AIM_MILLIS;
    }
    assert!(!slow, "a page is slower than it may be");
}
