//! What is read from outside: for each kind its sound examples, how hostile ones are built, and what must hold
//! when one is read.

use std::path::{Path, PathBuf};

use farsiding_core::book::Book;
use farsiding_core::calc::outage_table::{OutageTable, TableForm};
use farsiding_core::document::{CheckedChange, Document, ReconcileState};
use farsiding_core::entry::{Certificate, Entry, cbor};
use farsiding_core::evidence::{Checkpoint, Receipt, ledger_log};
use farsiding_core::ids::{Digest, EntryId};
use farsiding_core::store::{MemoryStore, Store as _};
use farsiding_core::sync::carry_in;
use farsiding_core::sync::wire::parts;
use farsiding_packet::{PacketError, PacketSource, Photographs, check_file, of_stay, stay_of, take_apart};
use farsiding_reconcile::papers::import;
use farsiding_words::Language;

use crate::letters::{self, deflated, inflated};
use crate::mutation::{mutated, with_checksum};
use crate::parties::{
    NOW, OTHER, Office, VISIT, all_signed, busy_phone, carry_file, changes, office_key, phone, remark, sync,
};
use farsiding_testkit::Dice;

/// All kinds, in the order they are swept.
pub const KINDS: &[&str] =
    &["entry", "change", "message", "request", "reply", "log", "carry", "outage", "papers", "packet", "slip"];

const CARRY_MAGIC: &[u8] = b"farsiding carry 1\n";

/// What the kinds are tried on.
pub struct Bench {
    pub office: Office,
    honest: Book,
    said: usize,
    /// Sound examples by kind.
    pub sound: Vec<(&'static str, Vec<Vec<u8>>)>,
    messages: Vec<Vec<u8>>,
    changes: Vec<Vec<u8>>,
    session: (Vec<u8>, Vec<u8>),
}

struct NoPhotographs;

impl Photographs for NoPhotographs {
    fn bytes(&self, _: Digest) -> Result<Option<Vec<u8>>, PacketError> {
        Ok(None)
    }
}

fn golden() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("golden/entries")
}

fn golden_entries() -> Vec<Vec<u8>> {
    let mut files: Vec<PathBuf> =
        std::fs::read_dir(golden()).unwrap().map(|item| item.unwrap().path()).collect();
    files.sort();
    let read = |file: &PathBuf| {
        let text = std::fs::read_to_string(file).unwrap();
        let lines = text.lines().filter(|line| !line.starts_with('#'));
        let digits: String = lines.flat_map(str::chars).filter(char::is_ascii_hexdigit).collect();
        let digit = |at: usize| u8::from_str_radix(&digits[at..at + 2], 16).unwrap();
        (0..digits.len()).step_by(2).map(digit).collect()
    };
    let entries: Vec<Vec<u8>> =
        files.iter().filter(|file| file.extension().is_some_and(|e| e == "hex")).map(read).collect();
    assert!(entries.len() > 20, "only {} frozen entries", entries.len());
    entries
}

const OUTAGE: &[&str] = &[
    "outage in,gallons\n0,33700\n10,32900.5\n20,31011\n40,26170\n60,19800\n119,0\n",
    "\u{feff}# invented table\r\n\"0\";\"33 700\"\r\n1;33650\r\n2;33500\r\n3;33300\r\n",
    "0\t1\n1\t2\n2\t3\n3\t4\n",
];
const PAPERS: &[&str] = &[
    "Paper,Car,Shipper,Date,Quantity,SG\r\nA-1,ZZQX 4417,Invented Terminal,2026-11-24,29 340 gal,0.507\r\nA-2,ZZQX 4418,\"Invented, Inc\",11/24/2026,\"28,900\",0.508\r\n",
    "bill;mark only;car;net\nA-3;ZZQX;4419;\"1\n2\"\n",
];

impl Bench {
    pub fn new() -> Bench {
        let mut office = Office::new();
        let mut first = busy_phone(0, 1);
        let exchanged = sync(&mut first, &mut office);
        let mut second = phone(1, 2);
        remark(&mut second, VISIT, "from the other");
        let more = sync(&mut second, &mut office);
        ledger_log::publish(&mut office.store, &office.key, NOW).unwrap();
        let mut watch = first.log_watch().unwrap();
        let log = first.log_request(&mut watch).unwrap();
        let changes: Vec<Vec<u8>> = [&first, &second].iter().flat_map(|book| changes(book, VISIT)).collect();
        let document = |number: u8, from: &[Vec<u8>]| {
            Document::load([number; 16], from.iter().map(Vec::as_slice)).unwrap()
        };
        let (one, mut two) = (document(1, &changes), document(2, &changes[..1]));
        let (mut ours, mut theirs) = (ReconcileState::default(), ReconcileState::default());
        let mut messages = vec![one.reconcile_message(&mut ours).unwrap()];
        two.reconcile_receive(&mut theirs, &messages[0], VISIT).unwrap();
        messages.extend(two.reconcile_message(&mut theirs));
        let fresh = Document::new([3; 16]).unwrap();
        let mut empty = ReconcileState::default();
        messages.extend(fresh.reconcile_message(&mut empty));
        let mut full = document(1, &changes);
        let mut answering = ReconcileState::default();
        full.reconcile_receive(&mut answering, &messages[messages.len() - 1].clone(), VISIT).unwrap();
        messages.extend(full.reconcile_message(&mut answering)); // a whole document in a message

        let stay =
            stay_of(&office.store, &office.key.public(), farsiding_core::ids::VisitId([7; 16])).unwrap();
        let source = PacketSource {
            store: &office.store,
            key: &office.key,
            photographs: &NoPhotographs,
            language: Language::ENGLISH,
        };
        let packet = of_stay(&source, &stay).unwrap();
        let (requests, replies): (Vec<_>, Vec<_>) = exchanged.iter().chain(&more).cloned().unzip();
        let texts = |of: &[&str]| of.iter().map(|text| text.as_bytes().to_vec()).collect::<Vec<_>>();
        let slips = slips(&first, &office, &replies);
        let sound = vec![
            ("entry", golden_entries()),
            ("change", changes.clone()),
            ("message", messages.clone()),
            ("request", requests),
            ("reply", replies),
            ("log", log.into_iter().collect()),
            ("carry", vec![carry_file(&first), carry_file(&second)]),
            ("outage", texts(OUTAGE)),
            ("papers", texts(PAPERS)),
            ("packet", vec![packet]),
            ("slip", slips),
        ];
        Bench { office, honest: second, said: 0, sound, messages, changes, session: exchanged[0].clone() }
    }

    pub fn sound(&self, kind: &str) -> &[Vec<u8>] {
        &self.sound.iter().find(|(name, _)| *name == kind).unwrap().1
    }

    /// A hostile one of a kind, drawn.
    pub fn draw(&self, kind: &str, dice: &mut Dice) -> Vec<u8> {
        let sound = self.sound(kind);
        let one = &sound[dice.below(sound.len())];
        match kind {
            "change" if !dice.once_in(3) => with_checksum(mutated(one, sound, dice)),
            "message" if dice.once_in(2) => {
                // A change that is altered and says so, in a message that is sound.
                let change = with_checksum(mutated(&self.changes[0], &self.changes, dice));
                let mut message = vec![0x42, 0, 0, 0, 1];
                let mut length = change.len();
                while length >= 0x80 {
                    message.push(u8::try_from(length & 0x7f).unwrap() | 0x80);
                    length >>= 7;
                }
                message.push(u8::try_from(length).unwrap());
                message.extend(change);
                message
            }
            "request" if !dice.once_in(3) => letters::request(dice, sound, &self.changes, &self.messages),
            "carry" if !dice.once_in(4) => {
                let plain = inflated(one.strip_prefix(CARRY_MAGIC).unwrap());
                let plain = if dice.once_in(2) { self.carried(dice) } else { mutated(&plain, sound, dice) };
                [CARRY_MAGIC, &deflated(&plain)].concat()
            }
            _ => mutated(one, sound, dice),
        }
    }

    /// A carry file's content in the right shape, of altered changes, without the digest that would tell.
    fn carried(&self, dice: &mut Dice) -> Vec<u8> {
        use ciborium::Value;
        let text = |text: &str| Value::Text(text.to_owned());
        let plain = inflated(self.sound("carry")[0].strip_prefix(CARRY_MAGIC).unwrap());
        let Value::Map(mut fields) = cbor::decode_value(&plain).unwrap() else { panic!("no map") };
        fields.retain(|(name, _)| name != &text("digest"));
        for (name, value) in &mut fields {
            if let (true, Value::Array(changes)) = (*name == text("changes"), value) {
                for change in changes {
                    let Value::Map(parts) = change else { continue };
                    for (part, bytes) in parts {
                        if let (true, Value::Bytes(bytes)) = (*part == text("b"), bytes)
                            && dice.once_in(2)
                        {
                            *bytes = with_checksum(mutated(bytes, &self.changes, dice));
                        }
                    }
                }
            }
        }
        cbor::encode(&Value::Map(fields)).unwrap()
    }

    /// Reads one, and looks at what must hold. `dice` only draws what is not in the bytes.
    pub fn read(&mut self, kind: &str, bytes: &[u8], dice: &mut Dice) {
        match kind {
            "entry" => {
                if let Ok(entry) = Entry::open(bytes) {
                    let known = self.sound("entry").iter().any(|sound| sound == bytes);
                    assert!(known, "an entry came in that was not signed as it stands: {entry:?}");
                }
                let _ = Entry::reopen(EntryId(Digest::of(bytes).0), bytes.to_vec());
            }
            "change" => {
                if let Ok(checked) = CheckedChange::check(bytes, VISIT) {
                    signed(&checked);
                    let mut document = Document::new([9; 16]).unwrap();
                    let _ = document.apply(&checked);
                    let _ = Document::load([9; 16], [checked.bytes()]);
                }
            }
            "message" => {
                let changes = self.changes.iter().map(Vec::as_slice);
                let mut document = Document::load([9; 16], changes).unwrap();
                let mut state = ReconcileState::default();
                if let Ok(outcome) = document.reconcile_receive(&mut state, bytes, VISIT) {
                    outcome.new.iter().for_each(signed);
                }
                let _ = document.reconcile_message(&mut state);
                assert!(document.entry_ids().len() >= 4, "what was there is there");
            }
            "request" => {
                self.office.forget_numbers(); // one that is old is not looked at further
                let _ = self.office.answer(bytes);
                self.office.forget_numbers();
            }
            "log" => {
                let _ = self.office.answer_log(bytes);
            }
            "reply" => {
                let mut book = busy_phone(0, dice.next());
                let mut session = book.sync_session().unwrap();
                let before = book.store().count_without_receipt().unwrap();
                // Not an answer to what is asked now: nothing of it may be taken for a receipt.
                let _ = book.sync_request(&mut session).unwrap();
                let _ = book.sync_receive(&mut session, bytes);
                assert_eq!(book.store().count_without_receipt().unwrap(), before, "taken for a receipt");
                // From an office that means harm: whatever comes in was signed by a device.
                let request = book.sync_request(&mut session).unwrap();
                let reply = letters::reply(dice, &request, &self.session.1, &self.changes);
                let _ = book.sync_receive(&mut session, &reply);
                all_signed(book.store());
                let _ = book.sync_request(&mut session); // it can go on
            }
            "carry" => {
                let mut store = MemoryStore::new();
                let _ = carry_in(&mut store, bytes, Some(&office_key().public()), NOW);
                all_signed(&store);
            }
            "outage" => {
                let text = String::from_utf8_lossy(bytes);
                if let Ok((table, _)) = OutageTable::read(&text, TableForm::INCHES_GALLONS) {
                    for outage in [-1.0, 0.0, 0.5, 33.3, 119.0, 1e9, f64::NAN] {
                        let _ = table.liquid(outage);
                    }
                }
            }
            "papers" => {
                if let Ok(sheet) = import::take_apart(bytes) {
                    let _ = sheet.signature();
                    let _ = sheet.read(&sheet.guess());
                }
            }
            "packet" => {
                let sound = self.sound("packet").iter().any(|sound| sound == bytes);
                // Taking it apart is quick; checking every signature is for one in eight.
                if take_apart(bytes).is_ok() && (sound || Digest::of(bytes).0[0].is_multiple_of(8)) {
                    let report = check_file(bytes, &office_key().public(), None).unwrap();
                    assert_eq!(report.all_holds(), sound, "{report:?}");
                }
            }
            _ => {
                let key = office_key().public();
                if let Ok(certificate) = Certificate::open(bytes, &key) {
                    let known = self.sound("slip").iter().any(|sound| sound == bytes);
                    assert!(known, "a certificate nobody gave: {certificate:?}");
                }
                let _ = Receipt::from_bytes(bytes).map(|receipt| receipt.check(&key));
                let _ = Checkpoint::open(&String::from_utf8_lossy(bytes), &key);
                let _ = parts(bytes);
            }
        }
    }

    /// After the office was sent what was hostile: all it holds is signed, and an honest device gets through.
    pub fn office_is_well(&mut self) {
        all_signed(&self.office.store);
        self.said += 1;
        remark(&mut self.honest, OTHER, &format!("still here {}", self.said));
        sync(&mut self.honest, &mut self.office);
        assert_eq!(self.honest.store().count_without_receipt().unwrap(), 0);
    }
}

fn signed(checked: &CheckedChange) {
    for entry in checked.entries() {
        assert!(
            Entry::open(entry.bytes()).is_ok_and(|again| again.id == entry.id && again.body.about == VISIT)
        );
    }
}

/// Certificates, receipts and checkpoints.
fn slips(book: &Book, office: &Office, replies: &[Vec<u8>]) -> Vec<Vec<u8>> {
    let mut slips: Vec<Vec<u8>> =
        office.store.certificates().unwrap().into_iter().map(|(_, bytes)| bytes).collect();
    let entries = book.store().entries_of(VISIT).unwrap().rows;
    slips.extend(book.store().receipts_of(entries[0].id).unwrap());
    slips.extend(replies.iter().map(|reply| parts(reply).unwrap().head));
    if let Ok(Some(kept)) = office.store.log().newest_checkpoint() {
        slips.push(kept.note.into_bytes());
    }
    slips
}
