//! The annex's list of the entries that are not part of the stay itself: what was known of the car, the site
//! and people.

use farsiding_core::message;
use farsiding_core::view::slot_message;

use super::super::sheet::{Cell, Sheet};
use super::Told;

pub(super) fn others(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    let mut rows: Vec<Vec<Cell>> = Vec::new();
    let lists = [
        ("car", told.say("packet-of-car")),
        ("site", told.say("packet-of-site")),
        ("roster", told.say("packet-of-people")),
    ];
    for (list, of) in &lists {
        for entry in told.numbered.list(list) {
            let device = told.refolded.certificates.get(&entry.device);
            let device = device.map_or_else(|| entry.device.short(), |certificate| certificate.name.clone());
            rows.push(vec![
                told.number(entry.id).map_or(String::new(), |number| number.to_string()).into(),
                of.clone().into(),
                told.of(&slot_message(&entry.body.slot)).into(),
                format!("{}, {device}", entry.body.by).into(),
                told.text(&told.received(entry.id)).into(),
            ]);
        }
    }
    if rows.is_empty() {
        return;
    }
    sheet.heading(&told.text(&message!("packet-annex-others")));
    sheet.small(&told.say("packet-annex-others-what"));
    let columns = told.columns(&[
        ("packet-column-number", 7.0),
        ("packet-column-of", 10.0),
        ("packet-column-about", 41.0),
        ("packet-column-who-device", 22.0),
        ("packet-column-received", 20.0),
    ]);
    sheet.table(&columns, rows);
}
