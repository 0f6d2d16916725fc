//! Puts the organisation's rules on operators' rights into force: the rules are an entry in the roster, and
//! the operators' certificates carry the resulting rights, so that every device applies them.
//!
//! What an operator recorded before continues to count, because the certificate also names the earlier
//! rights. Called when rules are decided and when the server starts.

use farsiding_core::authority::rights_of;
use farsiding_core::book::Roster;
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::site_facts::Rules;
use farsiding_core::entry::{OrganisationKey, Right, Role};
use farsiding_core::store::{Store, StoreError};

use super::{EnrolmentError, certificate_of, renew};
use crate::grants::Grant;
use crate::ledger::LedgerPlace;
use crate::office_database::{OfficeDatabase, RegisteredDevice};

/// Returns the organisation's rules from the ledger.
///
/// # Errors
/// Returns [`EnrolmentError::Ledger`] when the ledger fails.
pub fn rules(store: &dyn Store, key: &OrganisationKey) -> Result<Rules, EnrolmentError> {
    let roster = Roster::read(store, &key.public()).map_err(|e| StoreError::Database(e.to_string()))?;
    Ok(roster.rules)
}

/// Returns the rights that a device's certificate names: the granted rights and, for an operator, at most
/// those that the rules leave to operators. `None` means the rights of the role.
pub fn narrowed(role: Role, grant: &Grant, rules: &Rules) -> Option<Vec<Right>> {
    match (&rules.operator_rights, role) {
        (Some(left), Role::Operator) => {
            let own = grant.rights.as_deref().unwrap_or(rights_of(role));
            Some(own.iter().copied().filter(|right| left.contains(right)).collect())
        }
        _ => grant.rights.clone(),
    }
}

/// Renews the certificates of operators' devices that do not agree with the rules, and returns how many.
///
/// # Errors
/// Returns an [`EnrolmentError`]; certificates renewed before the failure stay renewed.
pub fn put_into_force(
    database: &OfficeDatabase,
    (store, ledger_file): (&mut dyn Store, &LedgerPlace),
    key: &OrganisationKey,
    now: UtcMillis,
) -> Result<usize, EnrolmentError> {
    let rules = rules(store, key)?;
    let mut renewed = 0;
    for device in database.devices()? {
        if device.revoked_at.is_none()
            && device.role == Role::Operator
            && !says_so(store, key, &device, &rules)?
        {
            renew(database, (store, ledger_file), key, &device, now)?;
            renewed += 1;
        }
    }
    Ok(renewed)
}

fn says_so(
    store: &dyn Store,
    key: &OrganisationKey,
    device: &RegisteredDevice,
    rules: &Rules,
) -> Result<bool, EnrolmentError> {
    let known = certificate_of(store, key, device.device)?;
    let rights = narrowed(device.role, &device.grant, rules);
    Ok(known.is_some_and(|certificate| certificate.rights == rights))
}
