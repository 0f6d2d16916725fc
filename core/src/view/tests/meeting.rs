//! Records that meet: stays joined, numbers one slip apart, clocks that differ, chains with gaps.

use super::*;

#[test]
fn a_clock_a_year_wrong_is_shown_as_claimed_and_corrected_when_known() {
    let year = 365 * 24 * 60 * MINUTE;
    let mut phone = Phone::of("op-a", 1);
    phone.now += year;
    phone.says(opened(Receiver::FixedTank));
    let early = phone.says(psi(Purpose::Arrival, Place::Car, "118", "PG-1"));
    let view = view_of(&phone.knows, UtcMillis(MORNING + 10 * MINUTE));
    assert!(finding(&view, "from_the_future").is_some());

    // It speaks to the server for the first time and learns how far it is off.
    phone.ahead = Some(year);
    phone.says(quiet(Fitting::LiquidA));
    let view = view_of(&phone.knows, UtcMillis(MORNING + 10 * MINUTE));
    assert!(finding(&view, "from_the_future").is_none());
    assert!(finding(&view, "clock_off").unwrap().message.contains("365 d"));
    let said = view.history.iter().map(|l| &l.said).find(|s| s.entry == early).unwrap();
    assert!(said.ahead_from_neighbour);
    assert!(said.shown.starts_with("2026-11-24"), "{}", said.shown);
    assert!(said.device_time.starts_with("2027-11-24 08"), "{}", said.device_time);
    assert_eq!(said.claimed, UtcMillis(MORNING + year + 2 * MINUTE + 1000));
}
