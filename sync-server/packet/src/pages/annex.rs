//! The annex's list of the entries that are not part of the stay itself: what was known of the car, the site
//! and people.

use farsiding_core::view::spoken_about;

use super::super::sheet::{Cell, Sheet};
use super::Told;

pub(super) fn others(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    let mut rows: Vec<Vec<Cell>> = Vec::new();
    for (list, of) in [("car", "car"), ("site", "site"), ("roster", "people")] {
        for entry in told.numbered.list(list) {
            let device = told.refolded.certificates.get(&entry.device);
            let device = device.map_or_else(|| entry.device.short(), |certificate| certificate.name.clone());
            rows.push(vec![
                told.number(entry.id).map_or(String::new(), |number| number.to_string()).into(),
                of.into(),
                spoken_about(&entry.body.slot).into(),
                format!("{}, {device}", entry.body.by).into(),
                told.received(entry.id).into(),
            ]);
        }
    }
    if rows.is_empty() {
        return;
    }
    sheet.heading("Annex B  What was known of car, site and people");
    sheet.small("These entries are of other records; what counts of them went into this one. They are attached whole.");
    sheet.table(
        &[("No.", 7.0), ("Of the", 10.0), ("About", 41.0), ("Who, on what", 22.0), ("Received", 20.0)],
        rows,
    );
}
