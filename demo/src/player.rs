//! Plays the scenario: turns each line into entries in a device's book, photographs, or a sync.
//!
//! A line's words are a statement as `farsiding device add` takes it, or one of the player's own:
//! `open CAR RECEIVER SPOT` · `photo OF [SLOT]` · `correct KIND …` · `settle SLOT keep DEVICE` ·
//! `join DEVICE` · `pass-over CODE` · `override GATE CODE …` · `fit_to_unload` · `release` · `sync` (`sync photos`
//! fetches them too) · `shows WHAT` (what the device must show now, or the demonstration ends with an error) · at
//! the office `publish PROCEDURE` (of `procedures/`) and `packet` (of the story's car; it is checked as a stranger
//! would). `--why REASON` stands behind any of them. `it` is the last defect or hold, `last` the last photograph.

use std::collections::BTreeMap;

use farsiding_core::book::{Draft, OpenVisit, Snapshot};
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::Statement;
use farsiding_core::entry::vocabulary::{Gate, Receiver};
use farsiding_core::evidence::packet::PROCEDURE;
use farsiding_core::ids::{DefectId, EntryId, OrganisationId, SiteId, Subject, VisitId};
use farsiding_core::procedure::Procedures;
use farsiding_core::view::{Fate, VisitView};
use farsiding_device::forms::{self, Surrounding, Words};
use farsiding_device::shapes::FormContext;
use farsiding_device::{DeviceError, address};
use farsiding_words::english;

use crate::device::{Device, offset_minutes};
use crate::office::Office;
use crate::scenario::{Line, Scenario, Scene, Story};
use crate::{DemoError, office, picture, shows, telling};

/// What `it` and `last` stand for.
#[derive(Debug, Default)]
struct Lately {
    defect: String,
    hold: String,
    incident: String,
    leak: String,
    photo: String,
    fresh: String,
    now: Option<UtcMillis>,
    offset_minutes: i16,
}

impl Surrounding for Lately {
    fn here(&self) -> FormContext {
        FormContext { now: self.now.unwrap_or(UtcMillis(0)), offset_minutes: self.offset_minutes }
    }
    fn defect(&self, _: &str) -> Result<String, DeviceError> {
        Ok(self.defect.clone())
    }
    fn hold(&self, _: &str) -> Result<String, DeviceError> {
        Ok(self.hold.clone())
    }
    fn incident(&self, _: &str) -> Result<String, DeviceError> {
        Ok(self.incident.clone())
    }
    fn leak(&self, _: &str) -> Result<String, DeviceError> {
        Ok(self.leak.clone())
    }
    fn note(&self, _: &str) -> Result<String, DeviceError> {
        Err(DeviceError::Refused("the scenario has no note for next time".to_owned()))
    }
    fn photo(&self, _: &str) -> Result<String, DeviceError> {
        Ok(self.photo.clone())
    }
    fn new_id(&mut self) -> String {
        self.fresh.clone()
    }
}

/// Plays a scenario.
#[derive(Debug)]
pub struct Player<'s> {
    scenario: &'s Scenario,
    office: &'s mut Office,
    devices: BTreeMap<String, Device>,
    procedures: Procedures,
    lately: Lately,
    pictures: u32,
    told: BTreeMap<String, Vec<(String, EntryId)>>,
}

/// Where the player is: for messages.
struct Place<'a> {
    story: &'a Story,
    scene: &'a Scene,
    line: &'a Line,
}

impl Place<'_> {
    fn refuse(&self, why: impl ToString) -> DemoError {
        let place = format!("{}, \"{}\", {}", self.story.car, self.scene.title, self.line.clock);
        DemoError::Scenario { place, why: why.to_string() }
    }
}

impl<'s> Player<'s> {
    /// Makes and enrols the devices, and has the office describe its sites and people.
    ///
    /// # Errors
    /// [`DemoError`].
    pub fn new(scenario: &'s Scenario, office: &'s mut Office) -> Result<Player<'s>, DemoError> {
        let procedures = Procedures::built_in()
            .map_err(|e| DemoError::Scenario { place: "procedure".to_owned(), why: e.to_string() })?;
        let mut devices = BTreeMap::new();
        for cast in &scenario.cast.device {
            let text = office.issue(&cast.name, &cast.role)?;
            let folder = office.folder().join(&cast.name);
            let mut device = Device::make(&folder, &cast.name, &cast.operator, &text, scenario.begins())?;
            if cast.role == "office" {
                for file in &scenario.site_files {
                    let said = device.run(&["site", "load", &file.to_string_lossy()])?;
                    telling::line("", said.trim());
                }
                device.run(&["sync"])?;
            }
            devices.insert(cast.name.clone(), device);
        }
        for device in devices.values_mut() {
            device.run(&["sync"])?;
        }
        Ok(Player {
            scenario,
            office,
            devices,
            procedures,
            lately: Lately::default(),
            pictures: 0,
            told: BTreeMap::new(),
        })
    }

    /// Plays every story and tells it.
    ///
    /// # Errors
    /// [`DemoError`], also when something does not go as the scenario says.
    pub fn play(&mut self) -> Result<(), DemoError> {
        let of = self.scenario.stories.len();
        for (at, story) in self.scenario.stories.iter().enumerate() {
            telling::story(at + 1, of, story);
            for scene in &story.scene {
                self.scene(story, scene)?;
            }
            let last = story.scene.last().map_or("", |scene| scene.on.as_str());
            let view = self.view(last, story)?;
            telling::summary(&view);
        }
        Ok(())
    }

    fn scene(&mut self, story: &Story, scene: &Scene) -> Result<(), DemoError> {
        let person = scene.by.clone().or_else(|| self.devices.get(&scene.on).map(|d| d.operator.0.clone()));
        let name = self.person(&person.unwrap_or_default());
        telling::scene(scene, &name);
        let ahead = scene.clock_ahead_minutes;
        let device = self.device(&scene.on)?;
        if let Some(minutes) = ahead {
            device.put_clock_ahead(minutes);
        }
        for line in scene.lines(&story.offset)? {
            let place = Place { story, scene, line: &line };
            self.device(&scene.on)?.set_clock(line.at, &story.offset);
            self.office.set_clock(line.at)?;
            self.lately.now = Some(line.at);
            self.lately.offset_minutes = offset_minutes(&story.offset);
            self.line(&place)?;
        }
        self.flush(story, &scene.on)
    }

    fn person(&self, code: &str) -> String {
        let cast = self.scenario.cast.device.iter().find(|cast| cast.operator == code);
        cast.map_or(code.to_owned(), |cast| cast.person.clone())
    }

    fn device(&mut self, name: &str) -> Result<&mut Device, DemoError> {
        self.devices.get_mut(name).ok_or_else(|| DemoError::Scenario {
            place: name.to_owned(),
            why: "there is no such device in cast.toml".to_owned(),
        })
    }

    /// Plays a line: plain statements that stand together are recorded together.
    fn line(&mut self, place: &Place<'_>) -> Result<(), DemoError> {
        let mut drafts = Vec::new();
        for words in &place.line.acts {
            let (words, why) = take_why(words);
            let verb = words.first().cloned().unwrap_or_default();
            let rest = words.get(1..).unwrap_or_default();
            if forms::VISIT_FORMS.iter().any(|form| form.kind == verb) && verb != "opened" {
                drafts.push(Draft { why, ..Draft::of(self.fill(place, &verb, rest, None)?) });
                continue;
            }
            self.record(place, std::mem::take(&mut drafts))?;
            match verb.as_str() {
                "open" => self.open(place, rest)?,
                "photo" => self.photo(place, rest)?,
                "sync" => self.sync(place, rest)?,
                "publish" => self.publish(place, rest)?,
                "packet" => self.packet(place)?,
                "shows" => {
                    self.flush(place.story, &place.scene.on)?;
                    let view = self.view(&place.scene.on, place.story)?;
                    for text in shows::shown(&view, rest).map_err(|instead| DemoError::NotAsTold {
                        place: format!("{}, {}", place.scene.title, place.line.clock),
                        said: rest.join(" "),
                        instead,
                    })? {
                        telling::shown(&place.line.clock, &text);
                    }
                }
                _ => {
                    let draft = self.act(place, &verb, rest, &why)?;
                    self.record(place, vec![draft])?;
                }
            }
        }
        self.record(place, drafts)
    }

    /// A draft for what a person does about the record as shown.
    fn act(&mut self, place: &Place<'_>, verb: &str, rest: &[String], why: &str) -> Result<Draft, DemoError> {
        let view = self.view(&place.scene.on, place.story)?;
        match (verb, rest) {
            ("correct", [kind, fields @ ..]) => {
                // How a visit was opened is corrected in part; whatever else is corrected says its slot.
                let slot = match kind.as_str() {
                    "opened" => kind.clone(),
                    _ => self.fill(place, kind, fields, None)?.slot(),
                };
                let wrong = view.history.iter().rfind(|line| line.slot == slot && line.fate == Fate::Live);
                let wrong = wrong.ok_or_else(|| place.refuse(format!("nothing stands in {slot}")))?;
                let before = self.said(place, wrong.said.entry)?;
                let says = self.fill(place, kind, fields, Some(&before))?;
                Ok(Draft::instead_of(says, vec![wrong.said.entry], why))
            }
            ("settle", [slot, keep, device]) if keep == "keep" => {
                let disagreement = view.disagreements.iter().find(|d| d.slot == *slot);
                let claim = disagreement.and_then(|d| {
                    d.claims.iter().zip(&d.entries).find(|(claim, _)| claim.said.device_name == *device)
                });
                let (_, keeps) = claim.ok_or_else(|| place.refuse(format!("{slot} is not disputed")))?;
                Ok(Draft::settling(&view, *keeps, why)?)
            }
            ("pass-over", [code]) => {
                let code = shows::full_code(&view, code);
                Ok(Draft::passing_over(&view, &code, why)?)
            }
            ("override", [gate, codes @ ..]) => {
                let gate = Gate::read(gate).ok_or_else(|| place.refuse(format!("{gate} is no gate")))?;
                Ok(Draft::overriding(&view, gate, codes, why)?)
            }
            ("fit_to_unload", []) => Ok(Draft::clearing(&view)?),
            ("release", []) => Ok(Draft::releasing(&view, true)?),
            ("join", [device]) => {
                let other = self.opened_on(device, &place.story.car);
                let other =
                    other.ok_or_else(|| place.refuse(format!("{device} opened no visit of this car")))?;
                Ok(Draft::of(Statement::Joined { other }).because(why))
            }
            _ => Err(place.refuse(format!("\"{verb} {}\" is not understood", rest.join(" ")))),
        }
    }

    fn opened_on(&self, device: &str, car: &str) -> Option<VisitId> {
        let opened = &self.devices.get(device)?.opened;
        opened.iter().rfind(|(story, _)| story == car).map(|(_, visit)| *visit)
    }

    fn fill(
        &mut self,
        place: &Place<'_>,
        kind: &str,
        words: &[String],
        before: Option<&Statement>,
    ) -> Result<Statement, DemoError> {
        let form = forms::form_of(kind, forms::VISIT_FORMS).map_err(|e| place.refuse(e))?;
        let mut typed = Words::default();
        for word in words {
            match word.split_once('=') {
                Some((name, value)) if form.fields.iter().any(|field| field.name == name) => {
                    typed.named.insert(name.to_owned(), value.to_owned());
                }
                _ => typed.plain.push(word.clone()),
            }
        }
        let before = before
            .and_then(|says| serde_json::to_value(says).ok()?.get(form.kind)?.as_object().cloned())
            .unwrap_or_default();
        let book = self.device(&place.scene.on)?.book()?;
        let fresh = DefectId::random(book.randomness()).to_string();
        self.lately.fresh = fresh;
        let filled = forms::fill(form, typed, Some(before), &mut self.lately).map_err(|e| place.refuse(e))?;
        if let Some(remark) = filled.remarks.first() {
            return Err(place.refuse(remark));
        }
        match &filled.says {
            Statement::Defect(defect) => self.lately.defect = defect.defect.to_string(),
            Statement::Hold { hold, .. } => self.lately.hold = hold.to_string(),
            Statement::Incident(incident) => self.lately.incident = incident.incident.to_string(),
            Statement::Leak(leak) => self.lately.leak = leak.leak.to_string(),
            _ => {}
        }
        Ok(filled.says)
    }

    fn said(&mut self, place: &Place<'_>, id: EntryId) -> Result<Statement, DemoError> {
        let visit = self.visit(&place.scene.on, place.story)?;
        let gathered = self.device(&place.scene.on)?.book()?.gather()?;
        let stay = gathered.stay_of(visit).map_or(vec![visit], <[VisitId]>::to_vec);
        let found = gathered.entries_of(&stay).find(|(_, entry)| entry.id == id);
        found.map(|(_, entry)| entry.body.says.clone()).ok_or_else(|| place.refuse("that entry is not here"))
    }

    fn open(&mut self, place: &Place<'_>, words: &[String]) -> Result<(), DemoError> {
        let [car, receiver, spot] = words else {
            return Err(place.refuse("open takes a car, a receiver and a spot"));
        };
        let receiver = Receiver::read(receiver).ok_or_else(|| place.refuse("no such receiver"))?;
        let gathered = self.device(&place.scene.on)?.book()?.gather()?;
        let site = address::site(&gathered, &place.story.site).map_err(|e| place.refuse(e))?;
        let procedure = gathered.procedure_for(site, &self.procedures);
        let procedure = procedure.ok_or_else(|| place.refuse("there is no procedure"))?;
        let device = self.device(&place.scene.on)?;
        let operator = operator(place.scene, device);
        let visit = OpenVisit { car: car.clone(), site, receiver, procedure, spot: spot.clone() };
        let visit = device.book()?.open_visit(visit, &operator)?;
        device.opened.push((place.story.car.clone(), visit));
        let made = device.book()?.entries(Subject::Visit(visit))?.0;
        let made: Vec<EntryId> = made.iter().map(|(entry, _)| entry.id).collect();
        self.note(place, made);
        Ok(())
    }

    fn photo(&mut self, place: &Place<'_>, words: &[String]) -> Result<(), DemoError> {
        let of = words.first().ok_or_else(|| place.refuse("photo says what it shows"))?.clone();
        let about = words.get(1).cloned().unwrap_or_default();
        self.pictures += 1;
        let label = format!("{} {of} {}", place.story.car, self.pictures);
        let folder = self.office.folder().join("pictures");
        std::fs::create_dir_all(&folder)?;
        let file = folder.join(format!("{:03}-{of}.png", self.pictures));
        std::fs::write(&file, picture::png(&label)?)?;
        let visit = self.visit(&place.scene.on, place.story)?.to_string();
        let about = about.replace("defect/it", &format!("defect/{}", self.lately.defect));
        let file = file.to_string_lossy().into_owned();
        let device = self.device(&place.scene.on)?;
        let said = device.run(&["photo", &visit, &file, "--of", &of, "--about", &about, "--json"])?;
        let answer: serde_json::Value = serde_json::from_str(&said).unwrap_or_default();
        let text = |value: &serde_json::Value| value.as_str().unwrap_or_default().to_owned();
        self.lately.photo = answer.get("photo").map(text).unwrap_or_default();
        let made = answer.get("entries").and_then(|ids| ids.get(0)).map(text).unwrap_or_default();
        self.note(place, EntryId::read(&made).ok().into_iter().collect());
        Ok(())
    }

    /// Publishes one of the organisation's own procedures for its site, signed on the office's device.
    fn publish(&mut self, place: &Place<'_>, words: &[String]) -> Result<(), DemoError> {
        let own = words.first().and_then(|name| self.scenario.procedures.get(name));
        let own = own.ok_or_else(|| place.refuse("there is no such procedure"))?;
        let device = self.device(&place.scene.on)?;
        let (operator, gathered) = (operator(place.scene, device), device.book()?.gather()?);
        let site = address::site(&gathered, &own.site).map_err(|e| place.refuse(e))?;
        let organisation = device.book()?.organisation_key()?;
        let organisation = organisation.ok_or_else(|| place.refuse("this device is not enrolled"))?;
        let says = own.published(site).map_err(|why| place.refuse(english(&why)))?;
        let roster = Subject::Roster(OrganisationId::of_key(&organisation));
        device.book()?.append(roster, vec![Draft::of(says)], &operator).map_err(|e| place.refuse(e))?;
        telling::shown(&place.line.clock, &format!("{}, for {}: {}", own.edition, own.site, own.note));
        Ok(())
    }

    /// Makes the packet of the story's car at the office and checks it with the organisation's public key. It must hold,
    /// and hold the procedure that the stay was begun under.
    fn packet(&mut self, place: &Place<'_>) -> Result<(), DemoError> {
        let view = self.view(&place.scene.on, place.story)?;
        let (title, procedure) = (english(&view.header.procedure_title), view.header.procedure);
        let file = self.office.folder().join("packet.pdf");
        let out = file.to_string_lossy().into_owned();
        let made = ["export", "packet", "--car", &place.story.car, "--out", &out, "--json"];
        let made: serde_json::Value = serde_json::from_str(&self.office.run(&made)?).unwrap_or_default();
        let key = made.get("organisation_key").and_then(serde_json::Value::as_str).unwrap_or_default();
        let checked = office::run(&["verify", &out, "--key", key], &place.line.at.rfc3339())?;
        let packet = farsiding_packet::take_apart(&std::fs::read(&file)?).map_err(|e| place.refuse(e))?;
        let contained = packet.files.photos.get(PROCEDURE).map(|text| text.sha256);
        if contained != procedure {
            return Err(place.refuse(format!("the packet does not contain \"{title}\"")));
        }
        let named =
            checked.lines().filter(|line| procedure.is_some_and(|own| line.contains(&own.to_string())));
        let last = checked.lines().last();
        for text in named.chain(last) {
            telling::shown(&place.line.clock, text.trim());
        }
        Ok(())
    }

    fn sync(&mut self, place: &Place<'_>, words: &[String]) -> Result<(), DemoError> {
        self.flush(place.story, &place.scene.on)?;
        let arguments: &[&str] = match words {
            [] => &["sync"],
            [photos] if photos == "photos" => &["sync", "--fetch-photos"],
            _ => return Err(place.refuse("sync stands alone, or with `photos`")),
        };
        let said = self.device(&place.scene.on)?.run(arguments)?;
        for text in said.lines() {
            telling::shown(&place.line.clock, text);
        }
        Ok(())
    }

    fn record(&mut self, place: &Place<'_>, drafts: Vec<Draft>) -> Result<(), DemoError> {
        if drafts.is_empty() {
            return Ok(());
        }
        let visit = self.visit(&place.scene.on, place.story)?;
        let device = self.device(&place.scene.on)?;
        let operator = operator(place.scene, device);
        let made = device
            .book()?
            .append(Subject::Visit(visit), drafts, &operator)
            .map_err(|error| place.refuse(error))?;
        self.note(place, made);
        Ok(())
    }

    fn note(&mut self, place: &Place<'_>, made: Vec<EntryId>) {
        let told = self.told.entry(place.scene.on.clone()).or_default();
        told.extend(made.into_iter().map(|id| (place.line.clock.clone(), id)));
    }

    /// Tells what was recorded since the last time, in the view's own sentences.
    fn flush(&mut self, story: &Story, on: &str) -> Result<(), DemoError> {
        let made = self.told.remove(on).unwrap_or_default();
        if made.is_empty() {
            return Ok(());
        }
        let view = self.view(on, story)?;
        let gathered = self.device(on)?.book()?.gather()?;
        telling::recorded(&view, &gathered, &made);
        Ok(())
    }

    fn visit(&mut self, on: &str, story: &Story) -> Result<VisitId, DemoError> {
        if let Some(visit) = self.opened_on(on, &story.car) {
            return Ok(visit);
        }
        let gathered = self.device(on)?.book()?.gather()?;
        address::visit(&gathered, &story.car)
            .map_err(|e| DemoError::Scenario { place: format!("{} on {on}", story.car), why: e.to_string() })
    }

    /// Opens a record for one more car at the first story's site, for whoever looks at the demonstration, and brings it
    /// to the office.
    ///
    /// # Errors
    /// [`DemoError`].
    pub fn leaves_a_car(&mut self, now: UtcMillis) -> Result<(), DemoError> {
        let (site, _) = self.first_site()?;
        self.office.set_clock(now)?;
        let device = self.device("phone-2")?;
        device.set_clock(now, "-06:00");
        device.run(&["open", "--car", "ZZQX 2051", "--site", &site, "--spot", "track 2"])?;
        device.run(&["sync"])?;
        Ok(())
    }

    /// Returns the name and the id of the first story's site, as its last device knows it.
    ///
    /// # Errors
    /// [`DemoError::Scenario`] if there is no story or the device does not know the site.
    pub fn first_site(&mut self) -> Result<(String, SiteId), DemoError> {
        let refuse = |why: String| DemoError::Scenario { place: "the first story's site".to_owned(), why };
        let story = self.scenario.stories.first().ok_or_else(|| refuse("there is no story".to_owned()))?;
        let on = story.scene.last().map_or("", |scene| scene.on.as_str());
        let gathered = self.device(on)?.book()?.gather()?;
        let site = address::site(&gathered, &story.site).map_err(|error| refuse(error.to_string()))?;
        Ok((story.site.clone(), site))
    }

    fn view(&mut self, on: &str, story: &Story) -> Result<VisitView, DemoError> {
        let visit = self.visit(on, story)?;
        let gathered: Snapshot = self.device(on)?.book()?.gather()?;
        gathered.view(visit, &self.procedures).ok_or_else(|| DemoError::Scenario {
            place: format!("{} on {on}", story.car),
            why: "the visit is not there".to_owned(),
        })
    }
}

fn operator(scene: &Scene, device: &Device) -> farsiding_core::ids::OperatorId {
    scene.by.clone().map_or_else(|| device.operator.clone(), farsiding_core::ids::OperatorId)
}

/// Takes `--why REASON` out of a line's words.
fn take_why(words: &[String]) -> (Vec<String>, String) {
    match words.iter().position(|word| word == "--why") {
        Some(at) => (words[..at].to_vec(), words[at + 1..].join(" ")),
        None => (words.to_vec(), String::new()),
    }
}
