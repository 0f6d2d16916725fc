//! The packet of a stay that took things over holds in every language, and says of each what it rests on: the office's
//! file, the entry at another car, and both sides of the handover.

use farsiding_core::entry::{Entry, Statement};
use farsiding_core::evidence::packet::{ENTRIES, Entries, PAGES};
use farsiding_core::procedure::Procedures;
use farsiding_packet::{PacketSource, check_file, of_stay, stay_of, take_apart};
use farsiding_words::Language;

use super::{PICTURE, taken_over};

#[test]
fn a_packet_says_of_what_was_taken_over_what_it_rests_on() {
    let synthetic = taken_over::record(PICTURE);
    let (store, key) = (&synthetic.office.store, synthetic.office.key.public());
    let visits = stay_of(store, &key, synthetic.visit).unwrap();
    for language in Language::all() {
        let source =
            PacketSource { store, key: &synthetic.office.key, photographs: &synthetic.held, language };
        let file = of_stay(&source, &visits).unwrap();
        let report = check_file(&file, &key, None).unwrap();
        assert!(report.all_holds(), "{report:?}");
        let files = take_apart(&file).unwrap().files;
        let entries = Entries::from_bytes(&files.records[ENTRIES]).unwrap();
        let bodies: Vec<_> =
            entries.visit.iter().map(|bytes| Entry::open(bytes).unwrap().body.clone()).collect();
        let rest = bodies.iter().filter(|body| body.rests_on.is_some()).count();
        assert!(rest >= 3, "{rest} entries rest on the car beside");
        let compared = bodies.iter().find_map(|body| match &body.says {
            Statement::Paper(paper) => paper.compared,
            _ => None,
        });
        let sent = entries.site.iter().map(|bytes| Entry::open(bytes).unwrap());
        let sent = sent.filter(|entry| matches!(entry.body.says, Statement::PaperExpected(_)));
        assert_eq!(sent.map(|entry| Some(entry.id)).collect::<Vec<_>>(), [compared]);
        let says = |wanted: fn(&Statement) -> bool| bodies.iter().filter(|body| wanted(&body.says)).count();
        assert_eq!(says(|says| matches!(says, Statement::HandoverGiven { .. })), 1);
        assert_eq!(says(|says| matches!(says, Statement::HandoverTaken { .. })), 1);
        let pages = String::from_utf8(files.records[PAGES].clone()).unwrap();
        let plain: String = pages.chars().filter(|c| !c.is_whitespace()).collect();
        assert!(plain.contains("november(invented).csv"), "{language}: the office's file");
        assert!(plain.contains("33700gal"), "{language}: the car's capacity, said to be still so");
    }
    let view = {
        let gathered =
            farsiding_core::book::Snapshot::read(store, Some(&key), synthetic.office.now()).unwrap();
        gathered.view(synthetic.visit, &Procedures::built_in().unwrap()).unwrap()
    };
    assert!(view.handovers.iter().all(|handover| !handover.one_sided) && view.handovers.len() == 1);
}
