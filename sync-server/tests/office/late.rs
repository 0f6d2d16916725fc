//! Late entries of a revoked device are kept, shown to the office, and admitted one by one with a reason. An
//! inspector's link does not open visits joined later.

use farsiding_core::entry::{Entry, Statement};
use farsiding_core::ids::EntryId;

use super::pages_stage::{Scene, Session, text};
use super::stage::{Device, Server};

/// Returns the entries of the ledger for which `wanted` returns true.
fn entries(server: &Server, wanted: impl Fn(&Entry) -> bool) -> Vec<Entry> {
    let ledger = rusqlite::Connection::open(server.data.join("ledger.db")).unwrap();
    let mut statement = ledger.prepare("SELECT bytes FROM entry ORDER BY position").unwrap();
    let rows = statement.query_map([], |row| row.get::<_, Vec<u8>>(0)).unwrap();
    rows.map(|bytes| Entry::open(&bytes.unwrap()).unwrap()).filter(wanted).collect()
}

fn admitted(server: &Server, late: EntryId) -> Vec<Entry> {
    entries(server, |entry| entry.body.slot == Statement::Admitted { entry: late }.slot())
}

#[test]
fn what_a_revoked_device_still_delivers_is_let_in_one_by_one_with_a_reason() {
    let scene = Scene::set();
    let server = &scene.server;
    let lost = Device::enrolled(server, &scene.folder.path().join("lost"), "op-2");
    lost.yes(&["sync"]);
    lost.yes(&["add", "4417", "remark", "before it was lost"]);
    lost.yes(&["sync"]);
    lost.yes(&["add", "4417", "remark", "honest, but late"]);
    lost.yes(&["add", "4417", "remark", "<b>made up</b> by a thief"]);
    assert!(server.revoke("lost").status.success());
    lost.no(5, &["sync"]);

    let office = Session::office(server);
    let page = office.until("/office/late", |page| page.contains("honest, but late"));
    assert!(!page.contains("before it was lost"), "{page}");
    assert!(page.contains("&lt;b&gt;made up&lt;/b&gt;") && page.contains("ZZQX 4417"), "{page}");
    assert!(page.contains("2 late entries"), "{page}");
    assert!(office.page("/office/devices").contains("2 late entries of revoked devices to review"));

    let said = |text: &str| {
        let found = entries(
            server,
            |entry| matches!(&entry.body.says, Statement::Remark { text: said } if said == text),
        );
        found[0].id
    };
    let (honest, early) = (said("honest, but late"), said("before it was lost"));
    let admit = |entry: EntryId| format!("/office/late/{entry}/admit");
    // Without a reason nothing is admitted, and entries that are not late cannot be admitted.
    assert_eq!(office.send(&admit(honest), &[("why", " ")]).status, 422);
    assert_eq!(office.send(&admit(early), &[("why", "because")]).status, 404);
    assert_eq!(office.send(&admit(EntryId([9; 32])), &[("why", "because")]).status, 404);
    assert!(admitted(server, honest).is_empty());

    let done = office.send(&admit(honest), &[("why", "The operator was asked on the phone")]);
    assert_eq!(done.status, 303, "{}", text(&done));
    let word = admitted(server, honest);
    assert_eq!(word.len(), 1);
    assert_eq!(word[0].body.why, "The operator was asked on the phone");
    assert_eq!(word[0].body.says, Statement::Admitted { entry: honest });
    let devices = server.devices();
    let desk = devices["devices"].as_array().unwrap().iter().find(|d| d["name"] == "Office desk").unwrap();
    assert_eq!(
        (desk["device"].as_str().unwrap(), &desk["role"]),
        (&*word[0].device.to_string(), &"office".into())
    );
    let page = office.page("/office/late");
    assert!(page.contains("Admitted by") && page.contains("The operator was asked"), "{page}");
    assert!(office.page("/office/devices").contains("1 late entry of a revoked device to review"));
    assert_eq!(office.send(&admit(honest), &[("why", "twice")]).status, 409);

    // The admission is withdrawn, also with a reason; after that the entry can be admitted again.
    let back = format!("/office/late/{honest}/withdraw");
    assert_eq!(office.send(&back, &[("why", "")]).status, 422);
    assert_eq!(office.send(&back, &[("why", "It was somebody else's voice")]).status, 303);
    assert_eq!(office.send(&back, &[("why", "again")]).status, 409);
    assert!(!office.page("/office/late").contains("Admitted by"));
    assert_eq!(office.send(&admit(honest), &[("why", "It was the operator after all")]).status, 303);
    assert!(office.page("/office/late").contains("after all"));
}

#[test]
fn a_link_opens_what_was_one_record_when_it_was_made_and_not_what_is_joined_later() {
    let scene = Scene::set();
    let office = Session::office(&scene.server);
    let inspector = Session::inspector(&scene.server, &scene.link(&office));
    // There is another record at another site, and somebody at the office states that the two are one stay.
    let other = Device::new(&scene.folder.path().join("other"), "op-2");
    other.yes(&["enrol", &scene.server.code("Other", &["--role", "office"]).1]);
    let secret = other.open("QXZZ 77");
    other.yes(&["add", &secret, "remark", "nobody else's business"]);
    other.yes(&["sync"]);
    other.yes(&["join", &scene.visit, &secret, "--why", "said so"]);
    other.yes(&["sync"]);
    office.until(&scene.visit_path(), |page| page.contains("nobody else"));

    let page = inspector.page(&scene.visit_path());
    assert!(page.contains("ZZQX 4417") && !page.contains("nobody else"), "{page}");
    assert_eq!(inspector.get(&format!("/office/visits/{secret}")).status, 403);
    let packet = inspector.get(&format!("{}/packet", scene.visit_path()));
    assert_eq!(packet.status, 200, "{}", text(&packet));
    let own = office.get(&format!("{}/packet", scene.visit_path()));
    assert!(holds(&own.body, &secret), "the office's packet is of both");
    assert!(!holds(&packet.body, &secret), "the other visit's record is in the inspector's packet");
    // A link made now opens what the office sees now.
    let wide = Session::inspector(&scene.server, &scene.link(&office));
    assert!(wide.page(&scene.visit_path()).contains("nobody else"));
}

/// Returns whether a packet's entries are about a visit. Entries are CBOR and contain the visit's 16 bytes
/// unchanged.
fn holds(packet: &[u8], visit: &str) -> bool {
    let id = farsiding_core::ids::VisitId::read(visit).unwrap();
    packet.windows(16).any(|window| window == id.0)
}
