//! An invented month of two sites and sixty cars each, as really signed entries in a real ledger.
//!
//! Everything goes the way real records go: books on devices sign, sync rounds carry, the office answers; all in
//! this process, so that a month takes seconds. Faults can be planted; what was planted is written beside the
//! data folder (`planted.json`), for whoever checks that each is found and nothing else is. Does not live here:
//! any rule of records, any figure of reconciling.

mod dice;
mod stay;
mod world;

use std::fs;
use std::path::Path;

use farsiding_core::book::{Book, BookParts, Draft, OpenVisit};
use farsiding_core::clock::{HandSetClock, UtcMillis};
use farsiding_core::entry::site_facts::{Hose, Instrument, Operator, SealStock, SiteProfile, Tank};
use farsiding_core::entry::vocabulary::{BilledBy, Receiver};
use farsiding_core::entry::{DeviceKey, OrganisationKey, Role, Statement};
use farsiding_core::ids::{OperatorId, Randomness as _, SiteId, Subject, VisitId};
use farsiding_core::procedure::Procedures;
use farsiding_core::store::{MemoryStore, Write};
use farsiding_core::sync::{Answerer, Step};
use farsiding_core::units::{Amount, Unit};
use farsiding_office::data_folder::{DataFolder, organisation_id};
use farsiding_office::enrolment::{self, Invitation};
use farsiding_office::grants::Grant;
use farsiding_office::ledger::{Ledger as _, OfficeLedger, epoch_of};
use farsiding_office::office_database::{OfficeDatabase, Seen};

use crate::DemoError;
use dice::Dice;
use world::World;

/// The month that is played.
pub const MONTH: &str = "2026-10";
const MINUTE: i64 = 60_000;

/// A fault that can be planted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fault {
    /// A gauge rod reads 1.1 in too much outage.
    BiasedGauge,
    /// A seal number is put on two cars.
    DuplicatedSeal,
    /// An entry a device made is lost before it was sent.
    LostEntry,
    /// A car's number is opened with two digits swapped.
    SwappedNumber,
    /// A car came too full.
    Overfilled,
}

impl Fault {
    /// All, with their words.
    pub const ALL: [(Fault, &'static str); 5] = [
        (Fault::BiasedGauge, "biased_gauge"),
        (Fault::DuplicatedSeal, "duplicated_seal"),
        (Fault::LostEntry, "lost_entry"),
        (Fault::SwappedNumber, "swapped_number"),
        (Fault::Overfilled, "overfilled"),
    ];

    /// Reads `all`, `none`, or words with commas between.
    pub fn read(text: &str) -> Option<Vec<Fault>> {
        match text {
            "all" => Some(Fault::ALL.iter().map(|(fault, _)| *fault).collect()),
            "none" => Some(Vec::new()),
            text => text
                .split(',')
                .map(|word| {
                    Fault::ALL.iter().find(|(_, known)| *known == word.trim()).map(|(fault, _)| *fault)
                })
                .collect(),
        }
    }
}

struct Phone {
    book: Book,
    clock: HandSetClock,
    by: OperatorId,
    asked: bool,
}

struct Office {
    ledger: OfficeLedger,
    database: OfficeDatabase,
    key: OrganisationKey,
    epoch: u64,
}

fn failed(error: impl ToString) -> DemoError {
    DemoError::Scenario { place: "the month".to_owned(), why: error.to_string() }
}

impl Office {
    fn make(folder: &Path, dice: &mut Dice) -> Result<Office, DemoError> {
        let folder = DataFolder::open_or_make(folder).map_err(failed)?;
        let key = folder.organisation_key(dice).map_err(failed)?;
        let database = OfficeDatabase::open(&folder.database_file()).map_err(failed)?;
        let mut ledger = OfficeLedger::open(&folder.ledger_place())?;
        let epoch = epoch_of(ledger.store_mut(), 0, dice)?;
        Ok(Office { ledger, database, key, epoch })
    }

    fn enrol(
        &mut self,
        name: &str,
        by: &str,
        role: Role,
        at: UtcMillis,
        dice: &mut Dice,
    ) -> Result<Phone, DemoError> {
        let mut secret = [0; 32];
        dice.fill(&mut secret);
        let clock = HandSetClock::at(at, 0);
        let mut book = Book::open(BookParts {
            store: Box::new(MemoryStore::new()),
            key: DeviceKey::from_secret(secret),
            clock: Box::new(clock.clone()),
            randomness: Box::new(dice.clone()),
        });
        let invitation = Invitation { name, role, grant: Grant::default(), minutes: 60 };
        let code = enrolment::issue(&self.database, &invitation, at, dice).map_err(failed)?.code;
        let store = self.ledger.store_mut();
        let device = book.device();
        let certificate = enrolment::redeem(&self.database, store, &self.key, &code, device, name, at);
        book.enrolled(self.key.public(), &certificate.map_err(failed)?)?;
        Ok(Phone { book, clock, by: OperatorId(by.to_owned()), asked: false })
    }

    /// Rounds until both have the same.
    fn sync(&mut self, phone: &mut Phone, now: UtcMillis) -> Result<(), DemoError> {
        let mut session = phone.book.sync_session()?;
        for _ in 0..500 {
            let request = phone.book.sync_request(&mut session)?;
            let mut answerer = Answerer::new(self.ledger.rounds_mut(), &self.key, self.epoch);
            let answer = answerer.answer(&request, now).map_err(failed)?;
            let position = self.ledger.store().newest_position()?;
            let (device, ahead_millis) = (answer.device, answer.device_ahead_millis);
            let seen = Seen { device, at: now, ahead_millis, unsent: answer.unsent };
            self.database.seen(&[seen], position, |_| Ok(())).map_err(failed)?;
            if phone.book.sync_receive(&mut session, &answer.reply)? == Step::Done {
                return Ok(());
            }
        }
        Err(failed("sync came to no end"))
    }
}

/// Plays a month into `folder/office` and writes `folder/planted.json` and `folder/papers.csv`.
///
/// # Errors
/// [`DemoError`]; `folder` must be new or empty.
pub fn play(folder: &Path, seed: u64, faults: &[Fault]) -> Result<(), DemoError> {
    if folder.exists() && fs::read_dir(folder)?.next().is_some() {
        let why = "it is not empty; nothing there was touched".to_owned();
        return Err(DemoError::Scenario { place: folder.display().to_string(), why });
    }
    fs::create_dir_all(folder)?;
    let mut dice = Dice::new(seed);
    let world = World::draw(&dice, faults)?;
    let begins = UtcMillis::read(&format!("{MONTH}-01T00:00:00Z")).ok_or_else(|| failed("no such month"))?;
    let mut office = Office::make(&folder.join("office"), &mut dice)?;
    let eve = UtcMillis(begins.0 - 24 * 60 * MINUTE);
    let mut desk = office.enrol("office-1", "alder", Role::Office, eve, &mut dice)?;
    let sites = describe(&world, &mut desk, &office.key, &mut dice)?;
    office.sync(&mut desk, eve)?;
    let mut phones = Vec::new();
    for (at, site) in world.sites.iter().enumerate() {
        for (number, by) in site.operators.iter().enumerate() {
            let name = format!("phone-{}{}", site.seals.to_lowercase(), number + 1);
            phones.push((at, number, office.enrol(&name, by, Role::Operator, eve, &mut dice)?));
        }
    }
    let lost = record(&world, (&sites, begins), &mut phones, &mut office, faults)?;
    write_down(folder, &world, (seed, begins), faults, &lost)
}

/// Sites, instruments, hoses, seals and people, as the office writes them.
fn describe(
    world: &World,
    desk: &mut Phone,
    key: &OrganisationKey,
    dice: &mut Dice,
) -> Result<Vec<SiteId>, DemoError> {
    let amount = |text: &str, unit| Amount::read(text, unit).0;
    let mut ids = Vec::new();
    for site in &world.sites {
        let id = SiteId::random(dice);
        let instrument = |name: &str, measures: &str, span: &str, unit, grade: &str, due: &str| {
            Statement::Instrument(Instrument {
                name: name.to_owned(),
                measures: measures.into(),
                span: amount(span, unit),
                grade: grade.to_owned(),
                calibration_due: due.to_owned(),
            })
        };
        let mut says = vec![
            Statement::Site(SiteProfile {
                name: site.name.to_owned(),
                zone: site.zone.to_owned(),
                elevation: amount(&format!("{} ft", site.elevation), Unit::Foot),
                attendance_gap_minutes: 60,
                local_rules: "Invented for a demonstration; local codes come first.".to_owned(),
                organisation: "An invented organisation".to_owned(),
                address: "Invented; mile 12 of a line that is nowhere".to_owned(),
            }),
            Statement::Tank(Tank {
                name: "T-1".to_owned(),
                water_capacity: amount("60 000 gal", Unit::Gallon),
                underground: false,
            }),
            instrument(&site.thermometer.0, "temperature", "160 °F", Unit::Fahrenheit, "", "2027-03-01"),
            instrument(&site.low_gauge.0, "pressure", "60 psi", Unit::PsiGauge, "2A", "2027-03-01"),
            instrument(&site.meter.0, "volume", "1 000 000 gal", Unit::Gallon, "", "2027-06-01"),
        ];
        for (name, _) in &site.rods {
            says.push(instrument(name, "outage", "120 in", Unit::Inch, "", "2027-03-01"));
        }
        for (hose, service) in site.hoses.iter().zip(["LP-gas liquid", "LP-gas liquid", "LP-gas vapour"]) {
            let (name, service) = (hose.clone(), service.to_owned());
            says.push(Statement::Hose(Hose { name, service, test_due: "2027-05-01".to_owned() }));
        }
        says.push(Statement::SealStock(SealStock {
            from: format!("{}500100", site.seals),
            to: format!("{}500199", site.seals),
            kind: "cable".into(),
        }));
        let drafts = says.into_iter().map(Draft::of).collect();
        desk.book.append(Subject::Site(id), drafts, &desk.by)?;
        ids.push(id);
    }
    let people = world.sites.iter().flat_map(|site| site.operators);
    let people = people.chain(["alder"]).map(|code| {
        Draft::of(Statement::Operator(Operator {
            operator: OperatorId(code.to_owned()),
            name: format!("{} (invented)", code[..1].to_uppercase() + &code[1..]),
            named: None,
            trained_on: "2026-02-01".to_owned(),
            active: true,
        }))
    });
    desk.book.append(Subject::Roster(organisation_id(key)), people.collect(), &desk.by)?;
    Ok(ids)
}

/// Every act of every stay in the order of time. Returns what was lost: the device and the entry's number.
fn record(
    world: &World,
    (sites, begins): (&[SiteId], UtcMillis),
    phones: &mut [(usize, usize, Phone)],
    office: &mut Office,
    faults: &[Fault],
) -> Result<Option<(String, u64)>, DemoError> {
    let procedures = Procedures::built_in().map_err(failed)?;
    let procedure = procedures.default_procedure().map(|procedure| procedure.digest);
    let procedure = procedure.ok_or_else(|| failed("there is no procedure"))?;
    let mut timed: Vec<(i64, usize, stay::Act)> = Vec::new();
    for (at, car) in world.cars.iter().enumerate() {
        // Placement is a time at the site.
        let offset = i64::from(world.sites[car.site].offset_minutes);
        let placed = UtcMillis(begins.0 + (car.placed - offset) * MINUTE);
        timed.extend(
            stay::acts(world, car, placed).into_iter().map(|act| (placed.0 + act.after * MINUTE, at, act)),
        );
    }
    timed.sort_by_key(|(when, car, _)| (*when, *car));
    let mut visits: Vec<Option<VisitId>> = vec![None; world.cars.len()];
    let mut lost = None;
    for (when, at, act) in timed {
        let car = &world.cars[at];
        let now = UtcMillis(when);
        let phone = phones.iter_mut().find(|(site, number, _)| (*site, *number) == (car.site, car.phone));
        let (_, _, phone) = phone.ok_or_else(|| failed("a car without a phone"))?;
        phone.clock.set(now);
        let visit = match visits[at] {
            Some(visit) => visit,
            None => {
                let opening = OpenVisit {
                    car: car.opened_as.clone(),
                    site: sites[car.site],
                    receiver: Receiver::FixedTank,
                    procedure,
                    spot: format!("track {}", car.phone + 1),
                };
                let visit = phone.book.open_visit(opening, &phone.by)?;
                visits[at] = Some(visit);
                visit
            }
        };
        let subject = Subject::Visit(visit);
        phone.book.append(subject, act.drafts, &phone.by)?;
        if faults.contains(&Fault::LostEntry) && lost.is_none() && at == 71 && !act.releases {
            lost = Some(lose_one(phone, subject)?);
        }
        if act.releases {
            phone.clock.advance(MINUTE);
            // The first release of each phone is asked of the gate, as a phone asks; the others read alike, and
            // folding all stays for each would take minutes.
            let draft = if phone.asked {
                Draft::of(Statement::Released { as_residue: true })
            } else {
                phone.asked = true;
                let gathered = phone.book.gather()?;
                let view = gathered.view(visit, &procedures);
                Draft::releasing(&view.ok_or_else(|| failed("a stay that is not there"))?, true)?
            };
            phone.book.append(subject, vec![draft], &phone.by)?;
            office.sync(phone, UtcMillis(when + 2 * MINUTE))?;
        }
    }
    for (_, _, phone) in phones.iter_mut() {
        let last = UtcMillis(begins.0 + 40 * 24 * 60 * MINUTE);
        office.sync(phone, last)?;
    }
    Ok(lost)
}

/// An entry is really made and signed, and is nowhere: as when a disk loses its last write and the chain
/// goes on.
fn lose_one(phone: &mut Phone, subject: Subject) -> Result<(String, u64), DemoError> {
    let says = Statement::Remark { text: "Invented: this line never reached the office.".to_owned() };
    let made = phone.book.sketch(subject, vec![Draft::of(says)], &phone.by)?;
    let entry = made.first().ok_or_else(|| failed("nothing was made"))?;
    let mut chain = entry.body.seq.to_be_bytes().to_vec();
    chain.extend_from_slice(&entry.id.0);
    phone.book.store_mut().commit(&[Write::Value { key: "book/chain", value: &chain }])?;
    Ok((phone.book.device().short(), entry.body.seq))
}

fn write_down(
    folder: &Path,
    world: &World,
    (seed, begins): (u64, UtcMillis),
    faults: &[Fault],
    lost: &Option<(String, u64)>,
) -> Result<(), DemoError> {
    let mut planted = Vec::new();
    for (fault, word) in Fault::ALL.iter().filter(|(fault, _)| faults.contains(fault)) {
        let about = match fault {
            Fault::BiasedGauge => world.sites[1].rods[1].0.clone(),
            Fault::DuplicatedSeal => {
                let mut seals: Vec<&str> = world.cars.iter().map(|car| car.seal.as_str()).collect();
                seals.sort_unstable();
                seals
                    .windows(2)
                    .find(|pair| pair[0] == pair[1])
                    .map_or(String::new(), |pair| pair[0].to_owned())
            }
            Fault::LostEntry => lost.as_ref().map_or(String::new(), |(device, _)| device.clone()),
            Fault::SwappedNumber => {
                let swapped = world.cars.iter().find(|car| car.opened_as != car.number);
                swapped.map_or(String::new(), |car| car.opened_as.clone())
            }
            Fault::Overfilled => {
                let fullest = world.cars.iter().max_by(|a, b| a.liquid.total_cmp(&b.liquid));
                fullest.map_or(String::new(), |car| car.number.clone())
            }
        };
        planted.push(serde_json::json!({ "fault": word, "about": about }));
    }
    let told = serde_json::json!({
        "note": "INVENTED: every site, car, person, seal and paper of this month is made up.",
        "seed": seed, "month": MONTH, "planted": planted,
    });
    fs::write(folder.join("planted.json"), format!("{told:#}\n"))?;
    let mut papers = "Paper,Reporting mark and number,Consignor (invented),Date,Quantity,SG\n".to_owned();
    for car in &world.cars {
        let shipped = UtcMillis(begins.0 + car.placed * MINUTE - 4 * 24 * 60 * MINUTE).rfc3339();
        papers.push_str(&format!(
            "{},{},{},{},{} {},{:.4}\n",
            stay::paper_number(car),
            car.number,
            world.shippers[car.shipper].name,
            shipped.get(..10).unwrap_or(""),
            car.billed,
            unit_of(world.shippers[car.shipper].by),
            car.density
        ));
    }
    fs::write(folder.join("papers.csv"), papers)?;
    Ok(())
}

/// The unit in which a shipper bills.
pub(crate) fn unit_of(by: BilledBy) -> Unit {
    match by {
        BilledBy::Scale => Unit::Pound,
        BilledBy::Table | BilledBy::Meter => Unit::Gallon,
    }
}
