//! What a check found, line by line, each kind of damage under its own code word.

use serde::Serialize;

/// How one line ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Outcome {
    /// It holds.
    Holds,
    /// Nothing is wrong with the packet, but the reader should know.
    Marked,
    /// It does not hold.
    Broken,
}

/// The code words, frozen: `FORMAT.md` lists them, both verifiers say them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Code {
    /// The file ends before its end.
    TruncatedFile,
    /// Not a packet at all, or one whose files cannot be taken out.
    UnreadableFile,
    /// An attachment is not of the form described.
    UnreadableAttachment,
    /// Sealed by another key than the one given.
    WrongKey,
    /// The organisation's keys.
    Keys,
    /// What is said of the organisation's keys does not hold.
    ForgedKey,
    /// A key signed outside its time.
    ExpiredKey,
    /// A key that signed here was withdrawn.
    WithdrawnKey,
    /// The seal's own signature does not hold.
    AlteredSeal,
    /// The seal.
    Seal,
    /// An attachment is not the one sealed.
    AlteredAttachment,
    /// An attachment that was sealed is gone.
    RemovedAttachment,
    /// An attachment that was not sealed is there.
    AddedAttachment,
    /// The attachments are the sealed ones, the file around them is not.
    EditedPages,
    /// The entries' signatures.
    Entries,
    /// The signature of an entry does not hold.
    AlteredEntry,
    /// An entry that the log, a chain or the seal counts is gone.
    RemovedEntry,
    /// The entries do not stand in the order of the log.
    ReorderedEntries,
    /// An entry belongs to another record.
    ForeignEntry,
    /// The devices' certificates.
    Devices,
    /// An entry is signed by a device the organisation did not certify.
    ForgedDevice,
    /// An entry of a revoked device came in after the revocation.
    RevokedDevice,
    /// An entry is signed by a device without a certificate here: it does not count.
    UncertifiedDevice,
    /// An entry claims a time after its device's certificate had run out: it does not count.
    ExpiredDevice,
    /// A device's chain.
    Chains,
    /// A device's chain has a gap, or says two things.
    ChainGap,
    /// The log.
    Log,
    /// A checkpoint is not the organisation's.
    ForgedCheckpoint,
    /// The log does not hold an entry where it is said to.
    UnloggedEntry,
    /// Two checkpoints of one log cannot both be true.
    LogFork,
    /// A checkpoint given for comparison cannot be compared.
    NotCompared,
    /// Times in the log fall.
    LogOrder,
    /// The log commits to all entries of the stay, and they are here.
    Whole,
    /// What the log says of a visit as a whole does not hold.
    OtherHead,
    /// The log does not say how many entries there are of a visit.
    NoHead,
    /// An entry says that another visit is of the same stay; it is not here.
    AbsentVisit,
    /// A visit of the stay that no entry joins to another of it.
    UnjoinedVisit,
    /// What is known of times besides what was claimed.
    Times,
    /// An entry says its device was shown a log that this one does not continue.
    OtherLogSeen,
    /// An entry claims a time before that of what its device had been shown when it was made.
    ClaimedBeforeSeen,
    /// An entry claims a time before its device had a certificate.
    ClaimedBeforeCertificate,
    /// An entry came in long after the time it claims.
    ReceivedLongAfter,
    /// The receipts.
    Receipts,
    /// A receipt is not the organisation's, or is about other entries.
    ForgedReceipt,
    /// A receipt says an earlier time than the log.
    BackdatedReceipt,
    /// An entry claims to be made after the office received it.
    ClaimedAfterReceived,
    /// The photographs.
    Photos,
    /// A photograph's bytes are not those signed for.
    AlteredPhoto,
    /// A photograph stands under another one's name.
    SwappedPhoto,
    /// A photograph is not in the packet.
    AbsentPhoto,
    /// An entry gives another length than the photograph has that it names by its digest.
    OtherLength,
    /// A photograph is named by entries of other stays as well.
    PhotoElsewhere,
    /// The seal asks for rules of before over what only later ones make.
    OlderRules,
    /// The seal asks for rules this program does not know.
    LaterRules,
    /// An attachment was sealed in that no entry names.
    ForeignAttachment,
    /// A checkpoint given for comparison is of a longer log.
    OlderPacket,
    /// The folded record.
    View,
    /// The record was folded by the rules of another version.
    OtherFold,
    /// `view.json` is not what the entries fold to.
    AlteredView,
    /// The pages, drawn again from what is attached.
    Pages,
    /// What the pages show is not what is attached.
    AlteredPages,
    /// The pages were not drawn again: what they say rests on the organisation's word.
    PagesNotDrawn,
    /// A time stamp of a third party.
    TimeStamp,
    /// A time stamp that is not of the checkpoint it stands with, or whose authority's word does not hold.
    ForgedTimeStamp,
    /// A time stamp whose authority is not checked: no root was given, or it uses what this version does not know.
    UncheckedTimeStamp,
    /// A witness that was asked for has signed a checkpoint.
    Witness,
    /// None of the witnesses asked for has signed a checkpoint here.
    NoWitness,
}

impl Code {
    /// The word.
    pub fn word(self) -> String {
        serde_json::to_value(self).ok().and_then(|v| v.as_str().map(str::to_owned)).unwrap_or_default()
    }
}

/// One line.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct CheckLine {
    /// How it ended.
    pub outcome: Outcome,
    /// What it is about.
    pub code: Code,
    /// In a sentence.
    pub message: String,
}

/// Everything found.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct CheckReport {
    /// In the order checked.
    pub lines: Vec<CheckLine>,
}

/// Beyond this many lines of one code the rest are only counted.
const MOST_OF_A_KIND: usize = 50;

impl CheckReport {
    pub(super) fn add(&mut self, outcome: Outcome, code: Code, message: impl Into<String>) {
        let alike = self.lines.iter().filter(|line| line.code == code && line.outcome == outcome).count();
        if alike < MOST_OF_A_KIND {
            self.lines.push(CheckLine { outcome, code, message: message.into() });
        } else if alike == MOST_OF_A_KIND {
            let message = "and more of the same kind".to_owned();
            self.lines.push(CheckLine { outcome, code, message });
        }
    }
    /// Something that holds.
    pub fn holds(&mut self, code: Code, message: impl Into<String>) {
        self.add(Outcome::Holds, code, message);
    }
    /// Something the reader should know.
    pub fn mark(&mut self, code: Code, message: impl Into<String>) {
        self.add(Outcome::Marked, code, message);
    }
    /// Something that does not hold.
    pub fn broken(&mut self, code: Code, message: impl Into<String>) {
        self.add(Outcome::Broken, code, message);
    }
    /// Whether all holds.
    pub fn all_holds(&self) -> bool {
        !self.lines.iter().any(|line| line.outcome == Outcome::Broken)
    }
    /// Whether something of this code was found broken.
    pub fn found(&self, code: Code) -> bool {
        self.lines.iter().any(|line| line.code == code && line.outcome == Outcome::Broken)
    }
}
