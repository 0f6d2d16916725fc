//! Entries: signed statements that never change.
//!
//! An entry is deterministic CBOR inside a COSE_Sign1 envelope, signed by the device that made it and chained
//! to that device's previous entry. This module holds the kinds of statements, the envelope, keys and device
//! certificates. Storage of entries is in `document` and `store`, and their interpretation in `view`.

pub mod car_number;
mod carried_facts;
pub mod cbor;
mod certificate;
mod claim;
pub mod coded;
mod enrolment;
mod envelope;
mod error;
mod examples;
mod hand;
mod key;
mod kinds;
mod leaving_facts;
mod organisation;
mod paper_facts;
mod person_name;
mod rests_on;
mod seen;
pub mod site_facts;
mod slot;
pub mod spec;
mod statement;
mod transfer_facts;
mod trouble_facts;
pub mod value_reader;
pub mod value_writer;
mod visit_facts;
pub mod vocabulary;

pub use carried_facts::{CoverCondition, NextTime, NextTimeDone, PlugCondition, ValveFeel};
pub use certificate::{Certificate, EarlierGrant, LastEntry, Right, Role};
pub use claim::{ClaimKey, Claims, fitting_set};
pub use coded::Coded;
pub use enrolment::{ENROLMENT_WINDOW_MILLIS, EnrolmentRequest};
pub use envelope::{Body, Entry, LARGEST_ENTRY};
pub use error::EntryError;
pub use hand::Hand;
pub(crate) use key::text_signature_holds;
pub use key::{
    DeviceKey, OrganisationKey, PersonSigner, PublicKey, hint_of, is_sound_key, open_addressed,
    open_envelope, open_of_organisation,
};
pub use kinds::StatementKind;
pub use leaving_facts::{CarLeft, CarMoved, CarOutcome};
pub use organisation::{
    AnyTime, CLOCK_PLAY_MILLIS, Forked, KeyError, KeyFault, KeyStanding, KeyStatement, KeyWord, KnownKey,
    Learned, MOST_KEY_STATEMENTS, OrganisationKeys, SignedUpTo, Trusts, Use, WhyWithdrawn,
};
pub use paper_facts::{LONGEST_PAPER_FIELD, PaperExpected, PaperTakenBack};
pub use person_name::{LONGEST_NAME, PersonName, is_name};
pub use rests_on::RestsOn;
pub use seen::SeenLog;
pub use slot::{Slot, SlotParts, under};
pub use spec::{Act, StatementSpec};
pub use statement::Statement;
pub use transfer_facts::{Inspection, RecoveryPlanned, TankGauged, TruckLoad};
pub use trouble_facts::{Incident, IncidentCall, IncidentStopped, Leak, LeakChecked};
pub use visit_facts::{Defect, Opened, Paper, Reading, Seal};
