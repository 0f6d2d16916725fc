//! Tests of what follows a car from one visit to the next: efforts, defects, test dates.

use super::*;
use crate::entry::{Defect, Paper};
use crate::ids::DefectId;

const DEFECT: DefectId = DefectId([3; 16]);

fn effort(fitting: Fitting, text: &str) -> Statement {
    Statement::Effort { fitting, part: Part::Valve, amount: Amount::read(text, Unit::FootPound).0 }
}

fn defect(needs_authority: bool) -> Statement {
    Statement::Defect(Defect {
        defect: DEFECT,
        fitting: Some(Fitting::LiquidA),
        what: "spindle worn".into(),
        needs_authority,
        photo: None,
    })
}

/// Folds a visit together with the car's document.
fn with_car(visit: &[Entry], car: &[Entry], now: i64) -> VisitView {
    let procedures = Procedures::built_in().unwrap();
    let recorded: Vec<Recorded<'_>> = visit.iter().map(Recorded::unsent).collect();
    let car: Vec<Recorded<'_>> = car.iter().map(Recorded::unsent).collect();
    fold(&recorded, &Context { car: &car, ..Context::at(UtcMillis(now), &procedures) })
}

#[test]
fn the_next_operator_is_warned_of_a_valve_that_was_hard_to_close() {
    let mut earlier = Phone::of("op-a", 1);
    earlier.visit = VisitId([4; 16]);
    for text in ["34", "39", "47", "55"] {
        earlier.now += 90 * 1440 * MINUTE;
        earlier.says(effort(Fitting::LiquidA, text));
    }
    let mut phone = Phone::of("op-b", 2);
    phone.now = earlier.now + 1440 * MINUTE;
    phone.says(opened(Receiver::FixedTank));
    let view = with_car(&phone.knows, &earlier.knows, phone.now);
    let worn = view.fittings.iter().find(|f| f.fitting == Fitting::LiquidA).unwrap();
    let codes: Vec<&str> = worn.advice.iter().map(|f| f.code.as_str()).collect();
    assert!(codes.contains(&"effort_above_band") && codes.contains(&"effort_rising"), "{codes:?}");
    let other = view.fittings.iter().find(|f| f.fitting == Fitting::LiquidB).unwrap();
    assert!(other.advice.is_empty());
    assert_eq!(view.car.efforts.len(), 4);
}

#[test]
fn one_effort_nobody_could_have_had_does_not_silence_the_others() {
    let mut phone = Phone::of("op-a", 1);
    phone.says(effort(Fitting::Vapour, "4800"));
    phone.says(effort(Fitting::Vapour, "48"));
    let view = phone.view();
    let vapour = view.fittings.iter().find(|f| f.fitting == Fitting::Vapour).unwrap();
    assert_eq!(vapour.advice.len(), 1, "{:?}", vapour.advice);
}

#[test]
fn a_defect_of_an_earlier_visit_warns_but_does_not_block_this_one() {
    let mut earlier = Phone::of("op-a", 1);
    earlier.visit = VisitId([4; 16]);
    earlier.says(defect(true));
    let mut phone = Phone::of("op-b", 2);
    phone.says(opened(Receiver::FixedTank));
    let view = with_car(&phone.knows, &earlier.knows, phone.now);
    assert_eq!(finding(&view, "known_defect").unwrap().severity, crate::units::Severity::Alarm);
    assert!(!codes(&view).iter().any(|code| code.starts_with("authority_missing")));

    earlier.says(Statement::Resolved { defect: DEFECT, how: "valve changed by a shop".into() });
    let view = with_car(&phone.knows, &earlier.knows, phone.now);
    assert!(finding(&view, "known_defect").is_none());
}

#[test]
fn a_withdrawn_defect_warns_nobody() {
    let mut earlier = Phone::of("op-a", 1);
    earlier.visit = VisitId([4; 16]);
    let wrong = earlier.says(defect(true));
    earlier.withdraws(wrong, "that was another car");
    let phone = Phone::of("op-b", 2);
    let view = with_car(&phone.knows, &earlier.knows, phone.now);
    assert!(view.defects.is_empty());
}

#[test]
fn an_entry_in_both_documents_counts_once() {
    let mut phone = Phone::of("op-a", 1);
    phone.says(effort(Fitting::LiquidA, "33"));
    phone.says(defect(false));
    let view = with_car(&phone.knows, &phone.knows, phone.now);
    assert_eq!((view.car.efforts.len(), view.defects.len()), (1, 1));
}

#[test]
fn a_spoken_approval_lets_the_car_go_and_is_due_in_writing_within_two_weeks() {
    let mut phone = whole_job(Receiver::FixedTank);
    phone.says(defect(true));
    assert!(codes(&phone.view()).contains(&"authority_missing.03030303"));
    let spoken = UtcMillis(phone.now);
    let authority = |reference: &str, written_at| Statement::Authority {
        defect: DEFECT,
        by: "example authority".into(),
        reference: reference.into(),
        spoken_at: Some(spoken),
        written_at,
    };
    phone.says(authority("V-12", None));
    let view = phone.view();
    assert!(!codes(&view).contains(&"authority_missing.03030303"));
    let answer = &view.defects[0].authority.as_ref().unwrap().value;
    assert_eq!(answer.written_due, Some(UtcMillis(spoken.0 + 14 * 1440 * MINUTE)));
    assert!(!answer.overdue);

    let late = UtcMillis(spoken.0 + 15 * 1440 * MINUTE);
    assert!(finding(&view_of(&phone.knows, late), "written_approval_overdue").is_some());
    phone.says(authority("W-12", Some(UtcMillis(spoken.0 + 1440 * MINUTE))));
    assert!(finding(&view_of(&phone.knows, late), "written_approval_overdue").is_none());
}

#[test]
fn an_approval_without_a_date_or_a_name_is_none() {
    let mut phone = whole_job(Receiver::FixedTank);
    phone.says(defect(true));
    phone.says(Statement::Authority {
        defect: DEFECT,
        by: "somebody".into(),
        reference: "R".into(),
        spoken_at: None,
        written_at: None,
    });
    assert!(codes(&phone.view()).contains(&"authority_missing.03030303"));
}

#[test]
fn a_test_date_in_the_past_is_pointed_out_and_an_odd_one_kept() {
    let due = |test, due: &str| Statement::CarTestDate { test, due: due.into() };
    let mut phone = Phone::of("op-a", 1);
    phone.says(due(TestDate::TankQualification, "2026-10"));
    phone.says(due(TestDate::ReliefDevice, "2026-11"));
    phone.says(due(TestDate::ServiceEquipment, "soon"));
    let view = phone.view();
    let overdue: Vec<Option<bool>> = view.car.test_dates.iter().map(|d| d.overdue).collect();
    assert_eq!(overdue, [Some(true), Some(false), None]);
    assert!(finding(&view, "test_overdue").unwrap().message.en().contains("tank qualification"));
    assert!(finding(&view, "test_date_unreadable").unwrap().message.en().contains("soon"));
}

#[test]
fn a_car_folds_alone_and_a_site_folds_its_instruments() {
    let mut phone = Phone::of("op-a", 1);
    phone.says(effort(Fitting::LiquidA, "33"));
    let procedures = Procedures::built_in().unwrap();
    let recorded: Vec<Recorded<'_>> = phone.knows.iter().map(Recorded::unsent).collect();
    let car = CarView::fold(&recorded, &Context::at(UtcMillis(phone.now), &procedures));
    assert_eq!(car.efforts[0].visit, Some(VISIT));

    let gauge = |grade: &str| {
        Statement::Instrument(crate::entry::site_facts::Instrument {
            name: "LG-1".into(),
            measures: "pressure".into(),
            span: Amount::of(60.0, Unit::PsiGauge),
            grade: grade.into(),
            calibration_due: "2026-06".into(),
        })
    };
    let mut office = Phone::of("office", 7);
    office.says(gauge("B"));
    office.says(gauge("2A"));
    let site = SiteView::fold(Some(SITE), all(&office.knows));
    assert_eq!(site.instruments.len(), 1);
    assert_eq!(site.instrument(" lg-1 ").unwrap().grade, "2A");
}

#[test]
fn an_overdue_gauge_and_an_unknown_one_are_pointed_out() {
    let mut office = Phone::of("office", 7);
    office.says(Statement::Instrument(crate::entry::site_facts::Instrument {
        name: "LG-1".into(),
        measures: "pressure".into(),
        span: Amount::of(60.0, Unit::PsiGauge),
        grade: "2A".into(),
        calibration_due: "2026-06".into(),
    }));
    let site = SiteView::fold(Some(SITE), all(&office.knows));
    let phone = whole_job(Receiver::FixedTank);
    let procedures = Procedures::built_in().unwrap();
    let recorded: Vec<Recorded<'_>> = phone.knows.iter().map(Recorded::unsent).collect();
    let ctx = Context { site: Some(&site), ..Context::at(UtcMillis(phone.now), &procedures) };
    let view = fold(&recorded, &ctx);
    assert!(finding(&view, "calibration_overdue").unwrap().message.en().contains("LG-1"));
    assert!(finding(&view, "instrument_unknown").unwrap().message.en().contains("PG-1"));
}

#[test]
fn the_emergency_guide_follows_the_paper_and_is_never_guessed() {
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened(Receiver::FixedTank));
    assert_eq!(phone.view().header.emergency, None);
    let paper = |un: &str| Statement::Paper(Paper { un_number: un.into(), ..Paper::default() });
    phone.says(paper("un 1978"));
    let guide = phone.view().header.emergency.unwrap();
    assert_eq!((guide.un_number, guide.number), ("UN1978", "115"));
    phone.says(paper("UN1005"));
    assert_eq!(phone.view().header.emergency, None, "not in the table: it is looked up, not guessed");
    assert_eq!(SiteView::fold(Some(SITE), []).emergency.unwrap().un_number, "UN1075");
}

#[test]
fn every_reading_carries_the_worth_of_the_gauge_it_was_read_on() {
    let mut office = Phone::of("office", 7);
    office.says(Statement::Instrument(crate::entry::site_facts::Instrument {
        name: "LG-1".into(),
        measures: "pressure".into(),
        span: Amount::of(30.0, Unit::PsiGauge),
        grade: "2A".into(),
        calibration_due: String::new(),
    }));
    let site = SiteView::fold(Some(SITE), all(&office.knows));
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened(Receiver::FixedTank));
    for gauge in ["LG-1", "borrowed"] {
        phone.says(psi(Purpose::HoldTest, Place::Car, "15", gauge));
    }
    phone.says(psi(Purpose::HoldTest, Place::Car, "38", "LG-1"));
    let procedures = Procedures::built_in().unwrap();
    let recorded: Vec<Recorded<'_>> = phone.knows.iter().map(Recorded::unsent).collect();
    let ctx = Context { site: Some(&site), ..Context::at(UtcMillis(phone.now), &procedures) };
    let series = &fold(&recorded, &ctx).series[0];
    let worth = |n: usize| series.points[n].worth.clone();
    // Half a per cent of 30 psi is 0.15 psi; the ± at 95 % is twice that divided by √3.
    assert!((worth(0).plus_minus.unwrap() - 2.0 * 0.15 / 3f64.sqrt()).abs() < 1e-9);
    assert_eq!(worth(0).by.en(), "grade 2A, span 30 psig");
    assert!(worth(1).by.en().starts_with("a usual gauge presumed"), "{}", worth(1).by.en());
    assert!(worth(1).plus_minus > worth(0).plus_minus);
    assert_eq!(worth(2).plus_minus, None);
    assert!(worth(2).by.en().contains("the scale of the gauge"), "{}", worth(2).by.en());
}

#[test]
fn what_two_records_differ_on_is_said_in_words_a_person_uses() {
    use super::story::slot_message;
    for (slot, spoken) in [
        ("fitting/thermometer_well/closure", "thermowell: closure"),
        ("fitting/liquid_a/valve", "liquid valve A: valve"),
        ("reading/arrival/outage/car", "arrival outage (car)"),
        ("protection/blue_sign", "blue sign"),
        ("seal/housing_pin", "seal (housing pin)"),
        ("hold/0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a", "hold"),
        ("fitting/of a later version/valve", "fitting · of a later version · valve"),
        ("reading/one/two", "reading · one · two"),
        ("", ""),
    ] {
        assert_eq!(slot_message(slot).en(), spoken);
    }
}

#[test]
fn what_a_photograph_is_about_reads_within_a_sentence() {
    use super::story::about_message;
    for (about, spoken) in [
        ("seal/housing_pin", "housing pin"),
        ("fitting/liquid_a/valve", "liquid valve A: valve"),
        ("defect/0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a", "defect"),
        ("liquid_a", "liquid valve A"),
        ("The ladder, B end", "The ladder, B end"),
        ("", ""),
    ] {
        assert_eq!(about_message(about).en(), spoken);
    }
}

#[test]
fn a_list_says_where_each_car_stands() {
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened(Receiver::FixedTank));
    assert_eq!(VisitRow::of(&phone.view()).spot, "track 2");
}

#[test]
fn a_number_read_twice_differently_and_a_paper_for_another_car_are_alarms() {
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened_as("ZZQX 4417", Receiver::FixedTank));
    let again =
        |text: &str| Statement::CarNumberAgain { car: crate::entry::car_number::CarNumber(text.into()) };
    phone.says(again("zzqx4417"));
    assert!(finding(&phone.view(), "car_number_differs").is_none());
    phone.says(again("ZZQX 4471"));
    assert!(finding(&phone.view(), "car_number_differs").is_some());
    phone.says(Statement::Paper(crate::entry::Paper { car: "ZZQX 4171".into(), ..Default::default() }));
    assert!(finding(&phone.view(), "paper_for_another_car").is_some());
}

#[test]
fn a_row_says_in_few_words_what_keeps_a_car() {
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened(Receiver::FixedTank));
    assert_eq!(VisitRow::of(&phone.view()).kept_by.en(), "Next: Photo of the car number");
    let mut done = whole_job(Receiver::FixedTank);
    let row = VisitRow::of(&done.view());
    assert_eq!((row.kept_by.en().as_str(), row.open_blockers, row.unreceipted), ("", 0, done.knows.len()));
    done.says(Statement::ItemOut { item: "wrench".into(), fitting: None });
    assert!(VisitRow::of(&done.view()).kept_by.en().starts_with("Not returned: wrench"));
    done.says(Statement::Hold { hold: crate::ids::HoldId([1; 16]), because: "leak".into() });
    let row = VisitRow::of(&done.view());
    assert_eq!(row.kept_by.en(), "On hold: leak");
    assert!(row.on_hold);
}

#[test]
fn what_this_visit_says_of_the_car_comes_before_what_earlier_ones_said() {
    let capacity = |gallons: f64| Statement::CarCapacity {
        capacity: Amount::of(gallons, Unit::Gallon),
        insulation: None,
    };
    let mut earlier = Phone::of("op-a", 1);
    earlier.visit = VisitId([4; 16]);
    earlier.says(capacity(33_700.0));
    let mut phone = Phone::of("op-b", 2);
    phone.says(opened(Receiver::FixedTank));
    let view = with_car(&phone.knows, &earlier.knows, phone.now);
    assert_eq!(view.car.capacity.unwrap().value.text, "33700");

    phone.says(capacity(30_700.0));
    let view = with_car(&phone.knows, &earlier.knows, phone.now);
    let known = view.car.capacity.as_ref().unwrap();
    assert_eq!((known.value.text.as_str(), known.disputed), ("30700", false));
    assert!(finding(&view, "capacity_differs").is_some());
    assert!(view.disagreements.is_empty());
}

#[test]
fn the_roster_gives_names_and_old_training_is_pointed_out() {
    let person = |trained_on: &str| {
        Statement::Operator(crate::entry::site_facts::Operator {
            operator: OperatorId("op-a".into()),
            name: "A. Example".into(),
            named: None,
            trained_on: trained_on.into(),
            active: true,
        })
    };
    let mut office = Phone::of("office", 7);
    let phone = whole_job(Receiver::FixedTank);
    let procedures = Procedures::built_in().unwrap();
    let mut overdue = |trained_on: &str| {
        office.says(person(trained_on));
        let people = people(all(&office.knows), &crate::store::Names::default());
        let recorded: Vec<Recorded<'_>> = phone.knows.iter().map(Recorded::unsent).collect();
        let ctx = Context { people: &people, ..Context::at(UtcMillis(phone.now), &procedures) };
        let view = fold(&recorded, &ctx);
        assert_eq!(view.header.people[0].name, "A. Example");
        finding(&view, "training_overdue").is_some()
    };
    assert!(overdue("2023-11-20"));
    assert!(!overdue("2023-12-20"));
    assert!(!overdue(""));
}

#[test]
fn a_seal_from_elsewhere_and_a_frost_ring_are_pointed_out() {
    let stock = |from: &str, to: &str| {
        Statement::SealStock(crate::entry::site_facts::SealStock {
            from: from.into(),
            to: to.into(),
            kind: "cable".into(),
        })
    };
    let mut office = Phone::of("office", 7);
    office.says(stock("0100", "0199"));
    let mut phone = whole_job(Receiver::FixedTank);
    let procedures = Procedures::built_in().unwrap();
    let view = |phone: &Phone, office: &Phone| {
        let site = SiteView::fold(Some(SITE), all(&office.knows));
        let recorded: Vec<Recorded<'_>> = phone.knows.iter().map(Recorded::unsent).collect();
        let ctx = Context { site: Some(&site), ..Context::at(UtcMillis(phone.now), &procedures) };
        fold(&recorded, &ctx)
    };
    assert!(finding(&view(&phone, &office), "seal_not_from_stock").is_some());
    office.says(stock("0001", "0099"));
    assert!(finding(&view(&phone, &office), "seal_not_from_stock").is_none());
    assert!(finding(&view(&phone, &office), "frost_ring").is_none());
    phone.says(Statement::EmptySign { sign: EmptySign::FrostRing, seen: true });
    assert!(finding(&view(&phone, &office), "frost_ring").is_some());
}

#[test]
fn checks_and_weather_stand_in_the_view() {
    let mut phone = Phone::of("op-a", 1);
    let check = |right, note: &str| Statement::Check { what: "Odorant".into(), right, note: note.into() };
    phone.says(check(false, "reads low"));
    phone.says(Statement::Weather { precipitation: Precipitation::Snow, wind: "NW".into() });
    let view = phone.view();
    assert!(!view.checks[0].right.value);
    assert_eq!(view.weather.as_ref().unwrap().value.en(), "Weather: snow, wind NW.");
    assert!(finding(&view, "check_not_right").is_some());
    phone.says(check(true, "second sample"));
    assert!(finding(&phone.view(), "check_not_right").is_none());
}
