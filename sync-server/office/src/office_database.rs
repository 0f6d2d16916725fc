//! The office database `server.db`, beside the ledger: one-time codes, and what is known of each device.
//! Nothing in it is evidence; certificates are also stored, signed, in the ledger.

use std::path::Path;
use std::time::Duration;

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::{EarlierGrant, LastEntry, PublicKey, Role};
use farsiding_core::ids::{DeviceId, Digest, EntryId};
use rusqlite::{
    Connection, OpenFlags, OptionalExtension as _, Row, Transaction, TransactionBehavior, params,
};

use super::grants::{self, Grant};

use super::audit_chain;
use super::database_error::DatabaseError;
use super::reading;
use farsiding_host::private_file;

/// The numbered migrations, applied in order. The file's `user_version` is the number of migrations it has
/// had.
const MIGRATIONS: &[&str] = &[
    include_str!("migrations/0001.sql"),
    include_str!("migrations/0002.sql"),
    include_str!("migrations/0003.sql"),
    include_str!("migrations/0004.sql"),
    include_str!("migrations/0005.sql"),
    include_str!("migrations/0006.sql"),
    include_str!("migrations/0007.sql"),
    include_str!("migrations/0008.sql"),
    include_str!("migrations/0009.sql"),
];
/// The schema version since which the audit is a chain.
const AUDIT_IS_CHAINED: i64 = 5;

/// A device in the office database.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RegisteredDevice {
    /// The device's public key.
    pub device: DeviceId,
    /// The device's name at the office.
    pub name: String,
    /// The device's name for itself.
    pub own_name: String,
    /// The device's role.
    pub role: Role,
    /// The time of enrolment.
    pub issued_at: UtcMillis,
    /// The time of revocation, if the device was revoked.
    pub revoked_at: Option<UtcMillis>,
    /// The key that issued the certificate; `None` for a certificate of version one, which is kept unchanged.
    pub issuer: Option<PublicKey>,
    /// The device's sites, rights and validity.
    pub grant: Grant,
    /// The earlier grants, oldest first. What the device recorded under them continues to count.
    pub earlier: Vec<EarlierGrant>,
    /// The time at which the certificate was last issued.
    pub renewed_at: Option<UtcMillis>,
    /// For a revoked device, the last entry that the ledger had of it.
    pub last: Option<LastEntry>,
    /// The time of the last sync.
    pub seen_at: Option<UtcMillis>,
    /// The device's clock minus the server's at the last sync, in milliseconds.
    pub ahead_millis: Option<i64>,
    /// The number of unsent entries that the device reported.
    pub unsent_entries: Option<u64>,
    /// The number of unsent photographs that the device reported.
    pub unsent_photos: Option<u64>,
}

/// A one-time code in the database.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct IssuedCode {
    /// The name for the device.
    pub name: String,
    /// The role for the device.
    pub role: Role,
    /// The grant for the device.
    pub grant: Grant,
    /// The time at which the code expires.
    pub expires_at: UtcMillis,
    /// The device that used the code.
    pub used_by: Option<DeviceId>,
    /// The time at which another code for the same name replaced this one.
    pub replaced_at: Option<UtcMillis>,
}

/// A device to be inserted.
#[derive(Debug, Clone)]
pub struct NewDevice<'a> {
    /// The device's public key.
    pub device: DeviceId,
    /// The device's name at the office.
    pub name: &'a str,
    /// The device's name for itself.
    pub own_name: &'a str,
    /// The device's role.
    pub role: Role,
    /// The device's grant.
    pub grant: &'a Grant,
    /// The key that issues the certificate.
    pub issuer: PublicKey,
}

/// What a sync round reported about its device.
#[derive(Debug, Clone, Copy)]
pub struct Seen {
    /// The device.
    pub device: DeviceId,
    /// The time of the round, by the server's clock.
    pub at: UtcMillis,
    /// The device's clock minus the server's, in milliseconds.
    pub ahead_millis: i64,
    /// The numbers of entries and photographs that are still unsent.
    pub unsent: (u64, u64),
}

/// The office database.
#[derive(Debug)]
pub struct OfficeDatabase {
    connection: Connection,
}

fn role_at(row: &Row<'_>, column: &str) -> rusqlite::Result<Role> {
    Ok(match row.get::<_, String>(column)?.as_str() {
        "office" => Role::Office,
        "inspector" => Role::Inspector,
        _ => Role::Operator,
    })
}

fn grant_at(row: &Row<'_>) -> rusqlite::Result<Grant> {
    let (sites, rights): (Option<String>, Option<String>) = (row.get("sites")?, row.get("rights")?);
    Ok(grants::of_columns(sites.as_deref(), rights.as_deref(), row.get("valid_until")?))
}

fn earlier_at(row: &Row<'_>) -> rusqlite::Result<Vec<EarlierGrant>> {
    let text: Option<String> = row.get("earlier")?;
    // An unreadable grant is dropped, so that a damaged row grants less, never more.
    Ok(text.and_then(|text| serde_json::from_str(&text).ok()).unwrap_or_default())
}

fn last_at(row: &Row<'_>) -> rusqlite::Result<Option<LastEntry>> {
    let (seq, entry): (Option<String>, Option<[u8; 32]>) = (row.get("last_seq")?, row.get("last_entry")?);
    let seq = seq.and_then(|text| text.parse().ok());
    Ok(seq.zip(entry).map(|(seq, entry)| LastEntry { seq, entry: EntryId(entry) }))
}

fn device_at(row: &Row<'_>) -> rusqlite::Result<RegisteredDevice> {
    let count =
        |column: &str| Ok::<_, rusqlite::Error>(row.get::<_, Option<i64>>(column)?.map(i64::cast_unsigned));
    Ok(RegisteredDevice {
        device: DeviceId(row.get("device")?),
        name: row.get("name")?,
        own_name: row.get("own_name")?,
        role: role_at(row, "role")?,
        issued_at: UtcMillis(row.get("issued_at")?),
        revoked_at: row.get::<_, Option<i64>>("revoked_at")?.map(UtcMillis),
        issuer: row.get::<_, Option<[u8; 32]>>("issuer")?.map(DeviceId),
        grant: grant_at(row)?,
        earlier: earlier_at(row)?,
        renewed_at: row.get::<_, Option<i64>>("renewed_at")?.map(UtcMillis),
        last: last_at(row)?,
        seen_at: row.get::<_, Option<i64>>("seen_at")?.map(UtcMillis),
        ahead_millis: row.get("ahead_millis")?,
        unsent_entries: count("unsent_entries")?,
        unsent_photos: count("unsent_photos")?,
    })
}

impl OfficeDatabase {
    /// Opens or creates the file and migrates its schema to the newest version.
    ///
    /// # Errors
    /// Returns a [`DatabaseError`] when the file cannot be opened or comes from a later version.
    pub fn open(file: &Path) -> Result<OfficeDatabase, DatabaseError> {
        private_file::make_private(file).map_err(|e| DatabaseError::Database(e.to_string()))?;
        let mut connection = Connection::open(file)?;
        connection.busy_timeout(Duration::from_secs(10))?;
        connection.pragma_update(None, "journal_mode", "WAL")?;
        connection.pragma_update(None, "synchronous", "FULL")?;
        let transaction = connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
        let found: i64 = transaction.query_row("PRAGMA user_version", [], |row| row.get(0))?;
        let known = i64::try_from(MIGRATIONS.len()).unwrap_or(i64::MAX);
        if found > known {
            return Err(DatabaseError::TooNew { found, known });
        }
        for (migration, version) in MIGRATIONS.iter().zip(1i64..).filter(|(_, version)| *version > found) {
            transaction.execute_batch(migration)?;
            if version == AUDIT_IS_CHAINED {
                audit_chain::chain_rows_of_before(&transaction)?;
            }
            transaction.pragma_update(None, "user_version", version)?;
        }
        transaction.commit()?;
        Ok(OfficeDatabase { connection })
    }

    /// Opens the file normally, or only for reading if it is write-protected.
    ///
    /// # Errors
    /// Returns a [`DatabaseError`], also for a write-protected file of an earlier version.
    pub fn open_to_read(file: &Path) -> Result<OfficeDatabase, DatabaseError> {
        if !reading::is_write_protected(file) {
            return OfficeDatabase::open(file);
        }
        let flags = OpenFlags::SQLITE_OPEN_READ_ONLY | OpenFlags::SQLITE_OPEN_URI;
        let uri = reading::uri(file).map_err(|e| DatabaseError::Database(e.to_string()))?;
        let connection = Connection::open_with_flags(uri, flags)?;
        let found: i64 = connection.query_row("PRAGMA user_version", [], |row| row.get(0))?;
        let known = i64::try_from(MIGRATIONS.len()).unwrap_or(i64::MAX);
        match found.cmp(&known) {
            std::cmp::Ordering::Greater => Err(DatabaseError::TooNew { found, known }),
            std::cmp::Ordering::Equal => Ok(OfficeDatabase { connection }),
            std::cmp::Ordering::Less => Err(DatabaseError::Database(
                "an earlier version wrote server.db, and it is write-protected: copy the folder to where this version \
                 can bring it up to date"
                    .to_owned(),
            )),
        }
    }

    /// Returns the connection, for the tables of other modules (`accounts`, for example).
    pub const fn connection(&self) -> &Connection {
        &self.connection
    }

    /// Returns the connection, for transactions.
    pub const fn connection_mut(&mut self) -> &mut Connection {
        &mut self.connection
    }

    /// Runs `work` in one transaction.
    ///
    /// # Errors
    /// Returns the error of `work`, or a [`DatabaseError`].
    pub fn in_one_step(
        &mut self,
        work: impl FnOnce(&Connection) -> Result<(), DatabaseError>,
    ) -> Result<(), DatabaseError> {
        let transaction = self.connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
        work(&transaction)?;
        Ok(transaction.commit()?)
    }

    /// Stores the hash of a new code, in one transaction. `decide` sees all devices and may refuse. An open
    /// code for a name that `is_same` recognises is replaced by the new one. Returns whether a code was
    /// replaced.
    ///
    /// # Errors
    /// Returns the error of `decide`, or a [`DatabaseError`].
    pub fn add_code<E: From<DatabaseError>>(
        &self,
        hash: Digest,
        code: &IssuedCode,
        now: UtcMillis,
        is_same: impl Fn(&str) -> bool,
        decide: impl FnOnce(&[RegisteredDevice]) -> Result<(), E>,
    ) -> Result<bool, E> {
        let transaction = self.immediate()?;
        decide(&all_devices(&transaction)?)?;
        let replaced = write_code(&transaction, hash, code, now, is_same).map_err(DatabaseError::from)?;
        transaction.commit().map_err(DatabaseError::from)?;
        Ok(replaced)
    }

    fn immediate(&self) -> Result<Transaction<'_>, DatabaseError> {
        // The server keeps the database behind a lock, and a command has it alone, so transactions never
        // nest.
        Ok(Transaction::new_unchecked(&self.connection, TransactionBehavior::Immediate)?)
    }

    /// Uses a code for a device, in one transaction. `decide` sees the row of the code, the row of the device
    /// and all devices, and says whether the code is accepted; only then is anything written. If the device
    /// is known already, nothing is written: it asked again because the first answer was lost.
    ///
    /// # Errors
    /// Returns the error of `decide`, or a [`DatabaseError`].
    pub fn use_code<E: From<DatabaseError>>(
        &self,
        hash: Digest,
        (device, own_name, issuer): (DeviceId, &str, PublicKey),
        now: UtcMillis,
        decide: impl FnOnce(Option<&IssuedCode>, Option<&RegisteredDevice>, &[RegisteredDevice]) -> Result<(), E>,
    ) -> Result<RegisteredDevice, E> {
        let transaction = self.immediate()?;
        let code = read_code(&transaction, hash)?;
        let before = read_device(&transaction, device)?;
        decide(code.as_ref(), before.as_ref(), &all_devices(&transaction)?)?;
        if let Some(before) = before {
            return Ok(before);
        }
        let code =
            code.ok_or_else(|| DatabaseError::Database("a code that is not there was taken".to_owned()))?;
        transaction
            .execute(
                "UPDATE enrolment SET used_by = ?2, used_at = ?3 WHERE code_hash = ?1",
                params![hash.0, device.0, now.0],
            )
            .map_err(DatabaseError::from)?;
        let (name, role, grant) = (code.name.as_str(), code.role, &code.grant);
        let new = NewDevice { device, name, own_name, role, grant, issuer };
        let made = insert_device(&transaction, &new, now)?;
        transaction.commit().map_err(DatabaseError::from)?;
        Ok(made)
    }

    /// Inserts a device without a code: the office's own signer.
    ///
    /// # Errors
    /// Returns a [`DatabaseError`], also when the device exists already.
    pub fn add_device(&self, new: &NewDevice<'_>, now: UtcMillis) -> Result<RegisteredDevice, DatabaseError> {
        insert_device(&self.connection, new, now)
    }

    /// Changes the grant of a device that is not revoked. The new certificate is dated later than the one
    /// before, whatever the clock shows. Returns the device after the change; a revoked device is not
    /// changed.
    ///
    /// # Errors
    /// Returns a [`DatabaseError`] when the database fails.
    pub fn change_grant(
        &self,
        device: DeviceId,
        (grant, earlier): (&Grant, &[EarlierGrant]),
        issuer: PublicKey,
        now: UtcMillis,
    ) -> Result<Option<RegisteredDevice>, DatabaseError> {
        let earlier = serde_json::to_string(earlier).map_err(|e| DatabaseError::Database(e.to_string()))?;
        self.connection.execute(
            "UPDATE device SET sites = ?2, rights = ?3, valid_until = ?4, issuer = ?5, earlier = ?7,
               renewed_at = max(?6, coalesce(renewed_at, issued_at) + 1)
             WHERE device = ?1 AND revoked_at IS NULL",
            params![
                device.0,
                grants::sites_column(grant.sites.as_ref()),
                grants::rights_column(grant.rights.as_ref()),
                grant.valid_until.map(|at| at.0),
                issuer.0,
                now.0,
                earlier
            ],
        )?;
        self.device(device)
    }

    /// Records that a device's certificate is issued again without changes, also for a revoked device.
    /// Returns the device after the change.
    ///
    /// # Errors
    /// Returns a [`DatabaseError`] when the database fails.
    pub fn issue_anew(
        &self,
        device: DeviceId,
        issuer: PublicKey,
        now: UtcMillis,
    ) -> Result<Option<RegisteredDevice>, DatabaseError> {
        self.connection.execute(
            "UPDATE device SET issuer = ?2, renewed_at = max(?3, coalesce(renewed_at, issued_at) + 1)
             WHERE device = ?1",
            params![device.0, issuer.0, now.0],
        )?;
        self.device(device)
    }

    /// Returns one device, if it exists.
    ///
    /// # Errors
    /// Returns a [`DatabaseError`] when the database fails.
    pub fn device(&self, device: DeviceId) -> Result<Option<RegisteredDevice>, DatabaseError> {
        read_device(&self.connection, device)
    }

    /// Returns all devices, sorted by name.
    ///
    /// # Errors
    /// Returns a [`DatabaseError`] when the database fails.
    pub fn devices(&self) -> Result<Vec<RegisteredDevice>, DatabaseError> {
        all_devices(&self.connection)
    }

    /// Marks a device as revoked, with the last entry that the ledger has of it. A device that was revoked
    /// earlier keeps its first time and its last entry. Returns the device after the change.
    ///
    /// # Errors
    /// Returns a [`DatabaseError`] when the database fails.
    pub fn revoke(
        &self,
        device: DeviceId,
        last: Option<LastEntry>,
        issuer: PublicKey,
        now: UtcMillis,
    ) -> Result<Option<RegisteredDevice>, DatabaseError> {
        self.connection.execute(
            "UPDATE device SET revoked_at = ?2, last_seq = ?3, last_entry = ?4, issuer = ?5,
               renewed_at = max(?2, coalesce(renewed_at, issued_at) + 1)
             WHERE device = ?1 AND revoked_at IS NULL",
            params![
                device.0,
                now.0,
                last.map(|last| last.seq.to_string()),
                last.map(|last| last.entry.0),
                issuer.0
            ],
        )?;
        self.device(device)
    }

    /// Records that devices synced and how far the ledger is now written, and runs `noted` in the same
    /// transaction. The transaction does not wait for the disk: a sudden loss of power may take back the
    /// notes of the last moments, never a part of them, and the rounds themselves are durable in the ledger.
    ///
    /// # Errors
    /// Returns a [`DatabaseError`] when the database fails.
    pub fn seen(
        &mut self,
        devices: &[Seen],
        ledger_position: u64,
        noted: impl FnOnce(&Connection) -> Result<(), DatabaseError>,
    ) -> Result<(), DatabaseError> {
        self.connection.pragma_update(None, "synchronous", "NORMAL")?;
        let kept = self.write_seen(devices, ledger_position, noted);
        self.connection.pragma_update(None, "synchronous", "FULL")?;
        kept
    }

    fn write_seen(
        &mut self,
        devices: &[Seen],
        ledger_position: u64,
        noted: impl FnOnce(&Connection) -> Result<(), DatabaseError>,
    ) -> Result<(), DatabaseError> {
        let transaction = self.connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
        for seen in devices {
            let (entries, photos) = seen.unsent;
            transaction
                .prepare_cached(
                    "UPDATE device SET seen_at = ?2, ahead_millis = ?3, unsent_entries = ?4, unsent_photos = ?5
                     WHERE device = ?1",
                )?
                .execute(params![
                    seen.device.0,
                    seen.at.0,
                    seen.ahead_millis,
                    entries.cast_signed(),
                    photos.cast_signed()
                ])?;
        }
        noted(&transaction)?;
        put_setting(&transaction, LEDGER_POSITION, &ledger_position.to_string())?;
        transaction.commit()?;
        Ok(())
    }

    /// Returns how far the ledger was written when a device was last answered.
    ///
    /// # Errors
    /// Returns a [`DatabaseError`] when the database fails.
    pub fn ledger_position(&self) -> Result<u64, DatabaseError> {
        Ok(self.setting(LEDGER_POSITION)?.and_then(|text| text.parse().ok()).unwrap_or(0))
    }

    /// Deletes the remembered position of the ledger, after a restored ledger has taken a new name.
    ///
    /// # Errors
    /// Returns a [`DatabaseError`] when the database fails.
    pub fn forget_ledger_position(&self) -> Result<(), DatabaseError> {
        put_setting(&self.connection, LEDGER_POSITION, "0")
    }

    /// Stores a position beyond the end of any ledger. The next start then treats the ledger as restored from
    /// a backup, which it was.
    ///
    /// # Errors
    /// Returns a [`DatabaseError`] when the database fails.
    pub fn came_from_backup(&self) -> Result<(), DatabaseError> {
        put_setting(&self.connection, LEDGER_POSITION, &u64::MAX.to_string())
    }

    /// Returns the address at which devices reach this server.
    ///
    /// # Errors
    /// Returns a [`DatabaseError`] when the database fails.
    pub fn server_url(&self) -> Result<Option<String>, DatabaseError> {
        self.setting(SERVER_URL)
    }

    /// Stores the address at which devices reach this server.
    ///
    /// # Errors
    /// Returns a [`DatabaseError`] when the database fails.
    pub fn set_server_url(&self, url: &str) -> Result<(), DatabaseError> {
        put_setting(&self.connection, SERVER_URL, url)
    }

    /// Returns whether everybody who signs in needs a second factor.
    ///
    /// # Errors
    /// Returns a [`DatabaseError`] when the database fails.
    pub fn second_factor_required(&self) -> Result<bool, DatabaseError> {
        Ok(self.setting(SECOND_FACTOR)?.as_deref() == Some("required"))
    }

    /// Requires a second factor from everybody who signs in, or leaves the choice to each person.
    ///
    /// # Errors
    /// Returns a [`DatabaseError`] when the database fails.
    pub fn require_second_factor(&self, required: bool) -> Result<(), DatabaseError> {
        put_setting(&self.connection, SECOND_FACTOR, if required { "required" } else { "own choice" })
    }

    /// Stores a small setting under a name.
    ///
    /// # Errors
    /// Returns a [`DatabaseError`] when the database fails.
    pub(crate) fn put_setting(&self, key: &str, value: &str) -> Result<(), DatabaseError> {
        put_setting(&self.connection, key, value)
    }

    /// Returns a small setting by its name.
    ///
    /// # Errors
    /// Returns a [`DatabaseError`] when the database fails.
    pub(crate) fn setting(&self, key: &str) -> Result<Option<String>, DatabaseError> {
        let found = self
            .connection
            .query_row("SELECT value FROM setting WHERE key = ?1", [key], |row| row.get(0))
            .optional()?;
        Ok(found)
    }
}

const LEDGER_POSITION: &str = "ledger_position";
const SERVER_URL: &str = "server_url";
const SECOND_FACTOR: &str = "second_factor";

fn put_setting(connection: &Connection, key: &str, value: &str) -> Result<(), DatabaseError> {
    connection.execute("INSERT OR REPLACE INTO setting(key, value) VALUES(?1, ?2)", [key, value])?;
    Ok(())
}

fn read_code(connection: &Connection, hash: Digest) -> Result<Option<IssuedCode>, DatabaseError> {
    let code = connection.query_row("SELECT * FROM enrolment WHERE code_hash = ?1", [hash.0], |row| {
        Ok(IssuedCode {
            name: row.get("name")?,
            role: role_at(row, "role")?,
            grant: grant_at(row)?,
            expires_at: UtcMillis(row.get("expires_at")?),
            used_by: row.get::<_, Option<[u8; 32]>>("used_by")?.map(DeviceId),
            replaced_at: row.get::<_, Option<i64>>("replaced_at")?.map(UtcMillis),
        })
    });
    Ok(code.optional()?)
}

fn read_device(connection: &Connection, device: DeviceId) -> Result<Option<RegisteredDevice>, DatabaseError> {
    Ok(connection.query_row("SELECT * FROM device WHERE device = ?1", [device.0], device_at).optional()?)
}

fn all_devices(connection: &Connection) -> Result<Vec<RegisteredDevice>, DatabaseError> {
    let mut statement = connection.prepare_cached("SELECT * FROM device ORDER BY name, device")?;
    let rows = statement.query_map([], device_at)?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// Inserts a code. Open codes for the same name are no longer valid. Returns whether there was one.
fn write_code(
    connection: &Connection,
    hash: Digest,
    code: &IssuedCode,
    now: UtcMillis,
    is_same: impl Fn(&str) -> bool,
) -> rusqlite::Result<bool> {
    let mut statement = connection.prepare(
        "SELECT code_hash, name FROM enrolment
         WHERE used_by IS NULL AND replaced_at IS NULL AND expires_at > ?1",
    )?;
    let open = statement.query_map([now.0], |row| Ok((row.get(0)?, row.get(1)?)))?;
    let open = open.collect::<rusqlite::Result<Vec<([u8; 32], String)>>>()?;
    let mut replaced = false;
    for (other, _) in open.iter().filter(|(_, name)| is_same(name)) {
        let sql = "UPDATE enrolment SET replaced_at = ?2 WHERE code_hash = ?1";
        replaced |= connection.execute(sql, params![other, now.0])? > 0;
    }
    connection.execute(
        "INSERT INTO enrolment(code_hash, name, role, made_at, expires_at, sites, rights, valid_until)
         VALUES(?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8)",
        params![
            hash.0,
            code.name,
            code.role.as_str(),
            now.0,
            code.expires_at.0,
            grants::sites_column(code.grant.sites.as_ref()),
            grants::rights_column(code.grant.rights.as_ref()),
            code.grant.valid_until.map(|at| at.0)
        ],
    )?;
    Ok(replaced)
}

fn insert_device(
    connection: &Connection,
    new: &NewDevice<'_>,
    now: UtcMillis,
) -> Result<RegisteredDevice, DatabaseError> {
    connection.execute(
        "INSERT INTO device(device, name, own_name, role, issued_at, issuer, sites, rights, valid_until, renewed_at)
         VALUES(?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?5)",
        params![
            new.device.0,
            new.name,
            new.own_name,
            new.role.as_str(),
            now.0,
            new.issuer.0,
            grants::sites_column(new.grant.sites.as_ref()),
            grants::rights_column(new.grant.rights.as_ref()),
            new.grant.valid_until.map(|at| at.0)
        ],
    )?;
    read_device(connection, new.device)?
        .ok_or_else(|| DatabaseError::Database("a device just written is not there".to_owned()))
}
