//! The result of a check, line by line; each kind of fault has a code of its own.

use serde::Serialize;

use crate::{Arg, Message, message};

/// The outcome of one line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Outcome {
    /// The check succeeded.
    Holds,
    /// Nothing is wrong with the packet, but the reader should take note.
    Marked,
    /// The check failed.
    Broken,
}

/// The codes. They are frozen: `FORMAT.md` lists them, and both verifiers use them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Code {
    /// The file is truncated.
    TruncatedFile,
    /// The file is not a packet, or its attachments cannot be extracted.
    UnreadableFile,
    /// An attachment does not have the described form.
    UnreadableAttachment,
    /// The packet was sealed with another key than the given one.
    WrongKey,
    /// The organisation's keys.
    Keys,
    /// A statement about the organisation's keys is invalid.
    ForgedKey,
    /// A key signed outside its period.
    ExpiredKey,
    /// A key that signed in the packet was withdrawn.
    WithdrawnKey,
    /// The seal's own signature is invalid.
    AlteredSeal,
    /// The seal.
    Seal,
    /// An attachment differs from the sealed one.
    AlteredAttachment,
    /// A sealed attachment is missing.
    RemovedAttachment,
    /// An attachment is present that was not sealed.
    AddedAttachment,
    /// The attachments equal the sealed ones, but the file around them does not.
    EditedPages,
    /// The signatures of the entries.
    Entries,
    /// The signature of an entry is invalid.
    AlteredEntry,
    /// An entry that the log, a chain or the seal counts is missing.
    RemovedEntry,
    /// The entries are not in the order of the log.
    ReorderedEntries,
    /// An entry belongs to another record.
    ForeignEntry,
    /// The certificates of the devices.
    Devices,
    /// An entry is signed by a device that the organisation did not certify.
    ForgedDevice,
    /// An entry of a revoked device arrived after the revocation.
    RevokedDevice,
    /// An entry is signed by a device without a certificate in the packet and does not count.
    UncertifiedDevice,
    /// An entry claims a time after its device's certificate expired and does not count.
    ExpiredDevice,
    /// The chain of a device.
    Chains,
    /// The chain of a device has a gap or contradicts itself.
    ChainGap,
    /// The log.
    Log,
    /// A checkpoint was not signed by the organisation.
    ForgedCheckpoint,
    /// The log does not hold an entry at the stated place.
    UnloggedEntry,
    /// Two checkpoints of one log contradict each other.
    LogFork,
    /// A checkpoint given for comparison cannot be compared.
    NotCompared,
    /// Times in the log decrease.
    LogOrder,
    /// The log commits to all entries of the stay, and they are present.
    Whole,
    /// The log's statement about a visit as a whole is invalid.
    OtherHead,
    /// The log does not state the number of entries about a visit.
    NoHead,
    /// An entry states that another visit belongs to the stay, but that visit is missing.
    AbsentVisit,
    /// No entry joins a visit of the stay to another visit of it.
    UnjoinedVisit,
    /// What is known about times besides the claimed ones.
    Times,
    /// An entry names a checkpoint of a log that this one does not continue.
    OtherLogSeen,
    /// An entry claims a time before that of a checkpoint its device had already seen.
    ClaimedBeforeSeen,
    /// An entry claims a time before its device had a certificate.
    ClaimedBeforeCertificate,
    /// An entry arrived long after the time it claims.
    ReceivedLongAfter,
    /// The receipts.
    Receipts,
    /// A receipt was not signed by the organisation or covers other entries.
    ForgedReceipt,
    /// A receipt states an earlier time than the log.
    BackdatedReceipt,
    /// An entry claims a time after its arrival at the office.
    ClaimedAfterReceived,
    /// The names of people.
    Names,
    /// A name is not the one that its entry commits to.
    AlteredName,
    /// A name belongs to nobody whom the entries name.
    ForeignName,
    /// The photographs.
    Photos,
    /// A photograph's bytes differ from the signed digest.
    AlteredPhoto,
    /// A photograph is stored under the name of another one.
    SwappedPhoto,
    /// A photograph is missing from the packet.
    AbsentPhoto,
    /// An entry states another length than that of the photograph with the digest it names.
    OtherLength,
    /// Entries of other stays name the same photograph.
    PhotoElsewhere,
    /// The seal states old rules for content that only newer rules produce.
    OlderRules,
    /// The seal states rules that this version does not know.
    LaterRules,
    /// A sealed attachment is named by no entry.
    ForeignAttachment,
    /// A checkpoint given for comparison is of a longer log.
    OlderPacket,
    /// The folded record.
    View,
    /// The record was folded by another version of the rules.
    OtherFold,
    /// `view.json` differs from the fold of the entries.
    AlteredView,
    /// The pages, drawn again from the attachments.
    Pages,
    /// The pages differ from the attachments.
    AlteredPages,
    /// The pages were not drawn again, so their content depends on trust in the organisation.
    PagesNotDrawn,
    /// A third party's time stamp.
    TimeStamp,
    /// A time stamp does not belong to its checkpoint, or its authority's signature is invalid.
    ForgedTimeStamp,
    /// A time stamp's authority was not checked: no root was given, or it uses features that this version
    /// does not know.
    UncheckedTimeStamp,
    /// A requested witness has signed a checkpoint.
    Witness,
    /// None of the requested witnesses has signed a checkpoint in the packet.
    NoWitness,
}

impl Code {
    /// Returns the code as text.
    pub fn word(self) -> String {
        serde_json::to_value(self).ok().and_then(|v| v.as_str().map(str::to_owned)).unwrap_or_default()
    }
}

/// One line of the report.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct CheckLine {
    /// How it ended.
    pub outcome: Outcome,
    /// The subject of the line.
    pub code: Code,
    /// The finding. In JSON its id stands as `message`, with `args` beside it.
    #[serde(flatten)]
    pub message: Message,
}

/// The complete result.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct CheckReport {
    /// The lines in the order of the checks.
    pub lines: Vec<CheckLine>,
}

/// The number of lines per code after which further ones are only counted.
const MOST_OF_A_KIND: usize = 50;

impl CheckReport {
    pub(super) fn add(&mut self, outcome: Outcome, code: Code, message: Message) {
        let alike = self.lines.iter().filter(|line| line.code == code && line.outcome == outcome).count();
        if alike < MOST_OF_A_KIND {
            self.lines.push(CheckLine { outcome, code, message });
        } else if alike == MOST_OF_A_KIND {
            let message = message!("verify-and-more");
            self.lines.push(CheckLine { outcome, code, message });
        }
    }
    /// Adds a successful check.
    pub fn holds(&mut self, code: Code, message: Message) {
        self.add(Outcome::Holds, code, message);
    }
    /// Adds a note to the reader.
    pub fn mark(&mut self, code: Code, message: Message) {
        self.add(Outcome::Marked, code, message);
    }
    /// Adds a failed check.
    pub fn broken(&mut self, code: Code, message: Message) {
        self.add(Outcome::Broken, code, message);
    }
    /// Returns true if no check failed.
    pub fn all_holds(&self) -> bool {
        !self.lines.iter().any(|line| line.outcome == Outcome::Broken)
    }
    /// Returns true if a check with this code failed.
    pub fn found(&self, code: Code) -> bool {
        self.lines.iter().any(|line| line.code == code && line.outcome == Outcome::Broken)
    }
}

/// Returns a name, an id, a time or what an error says, shown as it is in every language.
pub(super) fn shown(what: impl ToString) -> Arg {
    Arg::typed(what.to_string())
}
