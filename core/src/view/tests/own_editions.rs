//! Tests of the organisation's own editions: under which a stay begins, which it keeps, and what is said where the text
//! is not here.

use super::*;
use crate::entry::site_facts::PublishedProcedure;
use crate::entry::{Certificate, OrganisationKey, Right, Role};
use crate::ids::OrganisationId;
use crate::procedure::{BUILT_IN, EditedText, Sentence, Threshold, built_in};

const OTHER_SITE: SiteId = SiteId([8; 16]);

fn organisation() -> OrganisationKey {
    OrganisationKey::from_secret([99; 32])
}

/// A device that writes into the roster.
struct Desk {
    key: DeviceKey,
    role: Role,
    rights: Option<Vec<Right>>,
    said: Vec<Entry>,
    now: i64,
}

impl Desk {
    fn of(secret: u8, role: Role) -> Desk {
        let key = DeviceKey::from_secret([secret; 32]);
        Desk { key, role, rights: None, said: Vec::new(), now: MORNING }
    }

    fn says(&mut self, says: Statement, follows: Vec<EntryId>, replaces: Vec<EntryId>) -> EntryId {
        self.now += MINUTE;
        let withdraws = matches!(says, Statement::Withdrawn {});
        let slot = if withdraws { self.said[0].body.slot.clone() } else { says.slot() };
        let body = Body {
            about: Subject::Roster(OrganisationId::of_key(&organisation().public())),
            slot,
            says,
            follows,
            why: if replaces.is_empty() { String::new() } else { "a slip".to_owned() },
            replaces,
            by: OperatorId("ash".into()),
            seq: self.said.len() as u64 + 1,
            prev: self.said.last().map(|entry| entry.id),
            when: Stamp { at: UtcMillis(self.now), offset_minutes: 0, ahead_millis: None },
            done: None,
            rests_on: None,
            place: None,
            seen: None,
            hand: None,
        };
        self.said.push(Entry::seal(body, &self.key).unwrap());
        self.said.last().unwrap().id
    }

    fn publishes(&mut self, text: &str, sites: &[SiteId]) -> (Digest, EntryId) {
        let procedure = Digest::of(text.as_bytes());
        let said = PublishedProcedure {
            procedure,
            text: text.to_owned(),
            sites: sites.to_vec(),
            from: None,
            note: "of our own".to_owned(),
        };
        let slot = crate::entry::Slot::procedure(&procedure);
        let before = self.said.iter().filter(|entry| *entry.body.slot == *slot).map(|entry| entry.id);
        let before = before.collect();
        (procedure, self.says(Statement::ProcedurePublished(said), before, vec![]))
    }

    fn takes_back(&mut self, procedure: Digest, published: EntryId) {
        let because = "the new gauge came".to_owned();
        self.says(Statement::ProcedureWithdrawn { procedure, because }, vec![published], vec![]);
    }

    fn certificate(&self) -> Certificate {
        let plain = Certificate::by_role(
            OrganisationId::of_key(&organisation().public()),
            self.key.public(),
            "desk".to_owned(),
            self.role,
            UtcMillis(0),
        );
        Certificate { issuer: Some(organisation().public()), rights: self.rights.clone(), ..plain }
    }

    fn editions(&self) -> Editions {
        let authority = Authority::of([self.certificate()], true);
        let judged = authority.roster(self.said.iter().map(|entry| (entry, Some(UtcMillis(self.now)))));
        Editions::fold(judged, &Editions::default())
    }
}

fn edited(name: &str) -> EditedText {
    let mut text = EditedText::start(BUILT_IN[BUILT_IN.len() - 1]).unwrap();
    text.name_edition(name);
    text
}

fn begun_under(procedure: Digest) -> Statement {
    let Statement::Opened(opened) = opened(Receiver::FixedTank) else { panic!("opened") };
    Statement::Opened(Opened { procedure, ..opened })
}

fn view_under(phone: &Phone, editions: &Editions) -> VisitView {
    let procedures = Procedures::built_in().unwrap();
    let recorded: Vec<Recorded<'_>> = phone.knows.iter().map(Recorded::unsent).collect();
    let now = UtcMillis(phone.now + MINUTE);
    fold(&recorded, &Context { editions: Some(editions), ..Context::at(now, &procedures) })
}

#[test]
fn a_site_takes_the_newest_edition_that_is_for_it_and_not_taken_back() {
    let mut desk = Desk::of(1, Role::Office);
    assert!(desk.editions().for_site(SITE).is_none(), "the built-in one applies");
    let (first, published) = desk.publishes(&edited("1").text(), &[]);
    assert_eq!(desk.editions().for_site(SITE).unwrap().digest, first);
    let (second, of_second) = desk.publishes(&edited("2").text(), &[SITE]);
    let editions = desk.editions();
    assert_eq!(editions.for_site(SITE).unwrap().digest, second);
    assert_eq!(editions.for_site(OTHER_SITE).unwrap().digest, first);
    desk.takes_back(second, of_second);
    let editions = desk.editions();
    assert_eq!(editions.for_site(SITE).unwrap().digest, first);
    assert_eq!(editions.edition(second).unwrap().taken_back.as_ref().unwrap().because, "the new gauge came");
    assert!(editions.get(second).is_some(), "its text stays for the stays that began under it");
    desk.takes_back(first, published);
    assert!(desk.editions().for_site(SITE).is_none());
    // Published once more, it counts again.
    desk.publishes(&edited("2").text(), &[SITE]);
    assert_eq!(desk.editions().for_site(SITE).unwrap().digest, second);
}

#[test]
fn entries_in_any_order_make_the_same_editions_and_a_text_is_read_once() {
    let mut desk = Desk::of(1, Role::Office);
    let (first, published) = desk.publishes(&edited("1").text(), &[]);
    desk.publishes(&edited("2").text(), &[SITE]);
    desk.takes_back(first, published);
    let one = desk.editions();
    desk.said.reverse();
    let other = desk.editions();
    assert_eq!(one, other);
    let authority = Authority::of([desk.certificate()], true);
    let judged = authority.roster(desk.said.iter().map(|entry| (entry, Some(UtcMillis(desk.now)))));
    let again = Editions::fold(judged, &one);
    let shared = |editions: &Editions| editions.edition(first).unwrap().procedure.clone().unwrap();
    assert!(std::sync::Arc::ptr_eq(&shared(&one), &shared(&again)));
}

#[test]
fn what_a_phones_key_publishes_does_not_count_whatever_its_certificate_says() {
    let text = edited("1").text();
    for (role, rights) in [
        (Role::Operator, None),
        (Role::Operator, Some(Right::ALL.to_vec())),
        (Role::Inspector, None),
        (Role::Office, Some(vec![Right::KeepPeople])),
    ] {
        let mut desk = Desk::of(1, role);
        desk.rights = rights.clone();
        desk.publishes(&text, &[]);
        assert_eq!(desk.editions().iter().count(), 0, "{role:?} {rights:?}");
    }
    // A phone that may keep the people takes nothing back either, in whatever words.
    let mut desk = Desk::of(1, Role::Office);
    let (digest, published) = desk.publishes(&text, &[]);
    let mut phone = Desk::of(2, Role::Operator);
    phone.rights = Some(Right::ALL.to_vec());
    phone.now = desk.now;
    phone.said = desk.said.clone();
    phone.takes_back(digest, published);
    phone.says(Statement::Withdrawn {}, vec![], vec![published]);
    let authority = Authority::of([desk.certificate(), phone.certificate()], true);
    let judged = authority.roster(phone.said.iter().map(|entry| (entry, Some(UtcMillis(phone.now)))));
    let editions = Editions::fold(judged, &Editions::default());
    assert_eq!(editions.for_site(SITE).unwrap().digest, digest);
}

#[test]
fn a_text_from_outside_is_checked_again_and_a_bad_one_is_never_used() {
    let good = edited("1").text();
    let lawless = good.replacen("[[steps]]\nid = \"chocks\"", "[[steps]]\nid = \"wedges\"", 1);
    let torn = good.replacen("id = \"weather\"", "id = weather", 1);
    let rootless = "id = \"p\"\nedition = \"1\"\ntitle = \"t\"\n[[steps]]\nid = \"s\"\nstage = \"receive\"\ntitle = \"t\"\nwhat_to_do = \"w\"\nwhy = \"y\"\n";
    for (bad, line) in [(lawless.as_str(), false), (torn.as_str(), true), (rootless, false)] {
        let mut desk = Desk::of(1, Role::Office);
        let (digest, _) = desk.publishes(bad, &[]);
        let editions = desk.editions();
        assert!(editions.for_site(SITE).is_none() && editions.get(digest).is_none(), "{bad}");
        let why = editions.edition(digest).unwrap().procedure.clone().unwrap_err().en();
        assert!(!line || why.starts_with("Line "), "{why}");
    }
    // The entry names another digest than that of its text.
    let mut desk = Desk::of(1, Role::Office);
    let said = PublishedProcedure {
        procedure: Digest([5; 32]),
        text: good,
        sites: vec![],
        from: None,
        note: String::new(),
    };
    desk.says(Statement::ProcedurePublished(said), vec![], vec![]);
    assert!(desk.editions().for_site(SITE).is_none());
}

#[test]
fn a_stay_keeps_the_edition_it_began_under() {
    let mut desk = Desk::of(1, Role::Office);
    let mut own = edited("1");
    own.reword("chocks", Sentence::Title, &[("en-US".to_owned(), "Wedges set".to_owned())].into());
    let (first, published) = desk.publishes(&own.text(), &[]);
    let mut phone = Phone::of("op-a", 2);
    phone.says(begun_under(first));
    let title = |editions: &Editions| {
        let view = view_under(&phone, editions);
        assert!(view.header.procedure_known);
        view.steps.step("chocks").unwrap().title.en()
    };
    assert_eq!(title(&desk.editions()), "Wedges set");
    desk.publishes(&edited("2").text(), &[]);
    assert_eq!(title(&desk.editions()), "Wedges set");
    desk.takes_back(first, published);
    assert_eq!(title(&desk.editions()), "Wedges set");
}

#[test]
fn a_text_that_is_not_here_yet_is_said_and_blocks_until_somebody_answers() {
    let mut phone = Phone::of("op-a", 2);
    phone.says(begun_under(Digest([4; 32])));
    let view = view_under(&phone, &Editions::default());
    assert!(!view.header.procedure_known);
    let finding = view.findings.iter().find(|finding| finding.code == "procedure_unknown").unwrap();
    assert!(finding.message.en().contains("not here yet"), "{}", finding.message.en());
    assert!(view.blockers.iter().any(|item| item.code == "alarm.procedure_unknown"));
    assert!(view.unloading.blockers.iter().any(|item| item.code == "alarm.procedure_unknown"));
}

#[test]
fn what_an_edition_leaves_out_stands_in_every_stay_under_it() {
    let mut desk = Desk::of(1, Role::Office);
    let mut own = edited("1");
    own.switch_off("chocks", "wheel stops are built into the track");
    own.switch_off("escape_way", "");
    let (digest, _) = desk.publishes(&own.text(), &[]);
    let mut phone = Phone::of("op-a", 2);
    phone.says(begun_under(digest));
    let view = view_under(&phone, &desk.editions());
    let said: Vec<String> =
        view.findings.iter().filter(|f| f.code == "procedure_leaves_out").map(|f| f.message.en()).collect();
    let chocks = said.iter().find(|said| said.contains("173.31(g)(3)")).unwrap_or_else(|| panic!("{said:?}"));
    assert!(chocks.contains("wheel stops are built into the track"), "{chocks}");
    assert!(
        said.iter().any(|said| said.contains("common practice") && said.contains("scape route")),
        "{said:?}"
    );
    // The built-in edition leaves nothing out.
    let mut plain = Phone::of("op-a", 2);
    plain.says(begun_under(built_in().last().unwrap().digest));
    assert!(view_under(&plain, &desk.editions()).findings.iter().all(|f| f.code != "procedure_leaves_out"));
}

#[test]
fn thresholds_of_the_edition_decide_in_the_stay() {
    let mut desk = Desk::of(1, Role::Office);
    let mut own = edited("1");
    own.set_threshold(Threshold::AttendanceGap, Some(10));
    own.set_threshold(Threshold::Hold, Some(20));
    own.set_threshold(Threshold::ReadingInterval, Some(25));
    let (digest, _) = desk.publishes(&own.text(), &[]);
    let mut phone = Phone::of("op-a", 2);
    phone.says(begun_under(digest));
    phone.says(psi(Purpose::HoldTest, Place::Car, "15", "LG-1"));
    phone.now += 5 * MINUTE;
    phone.says(psi(Purpose::HoldTest, Place::Car, "15", "LG-1"));
    let view = view_under(&phone, &desk.editions());
    assert_eq!(view.attendance.threshold_minutes, 10);
    assert_eq!(view.steps.step("transfer_readings").unwrap().repeat_minutes, Some(25));
    let short = |view: &VisitView| view.findings.iter().any(|finding| finding.code == "hold_too_short");
    assert!(short(&view));
    phone.now += 20 * MINUTE;
    phone.says(psi(Purpose::HoldTest, Place::Car, "15", "LG-1"));
    assert!(!short(&view_under(&phone, &desk.editions())));
}
