//! The office's database: one-time codes, and what is known of each device. Own tables in
//! `server.db`, beside the ledger; nothing in it is evidence, and everything evidential in it
//! (certificates) is repeated, signed, in the ledger.

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

/// Numbered migrations, applied in order; the file's `user_version` says how many it has had.
const MIGRATIONS: &[&str] = &[
    include_str!("migrations/0001.sql"),
    include_str!("migrations/0002.sql"),
    include_str!("migrations/0003.sql"),
    include_str!("migrations/0004.sql"),
    include_str!("migrations/0005.sql"),
    include_str!("migrations/0006.sql"),
    include_str!("migrations/0007.sql"),
];
/// The schema from which on the audit is a chain.
const AUDIT_IS_CHAINED: i64 = 5;

/// A device as the database knows it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RegisteredDevice {
    /// Its public key.
    pub device: DeviceId,
    /// The name the office gave it.
    pub name: String,
    /// What it calls itself.
    pub own_name: String,
    /// What it may do.
    pub role: Role,
    /// When it was enrolled.
    pub issued_at: UtcMillis,
    /// When it was revoked.
    pub revoked_at: Option<UtcMillis>,
    /// Who issued its certificate; nothing in a certificate of version one, which is kept as it was.
    pub issuer: Option<PublicKey>,
    /// Its sites, rights and validity.
    pub grant: Grant,
    /// What it was granted before, oldest first: what it recorded then goes on counting.
    pub earlier: Vec<EarlierGrant>,
    /// When its certificate was issued last.
    pub renewed_at: Option<UtcMillis>,
    /// With a revocation: the last entry the ledger had of it.
    pub last: Option<LastEntry>,
    /// When it last synced.
    pub seen_at: Option<UtcMillis>,
    /// Its clock minus the server's then, milliseconds.
    pub ahead_millis: Option<i64>,
    /// Entries it said it had unsent.
    pub unsent_entries: Option<u64>,
    /// Photographs it said it had unsent.
    pub unsent_photos: Option<u64>,
}

/// A one-time code's row.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct IssuedCode {
    /// The name the office gave.
    pub name: String,
    /// The role it gives.
    pub role: Role,
    /// What it grants.
    pub grant: Grant,
    /// Until when it may be used.
    pub expires_at: UtcMillis,
    /// Which device used it.
    pub used_by: Option<DeviceId>,
    /// When another code for the same name took its place.
    pub replaced_at: Option<UtcMillis>,
}

/// A device as it is first written down.
#[derive(Debug, Clone)]
pub struct NewDevice<'a> {
    /// Its public key.
    pub device: DeviceId,
    /// The office's name for it.
    pub name: &'a str,
    /// Its own name for itself.
    pub own_name: &'a str,
    /// Its role.
    pub role: Role,
    /// What it is granted.
    pub grant: &'a Grant,
    /// Who issues its certificate.
    pub issuer: PublicKey,
}

/// What a device's round told of it.
#[derive(Debug, Clone, Copy)]
pub struct Seen {
    /// Which device.
    pub device: DeviceId,
    /// When the round came, by the server's clock.
    pub at: UtcMillis,
    /// Device clock minus server clock, milliseconds.
    pub ahead_millis: i64,
    /// Entries and photographs it still has unsent.
    pub unsent: (u64, u64),
}

/// The database's file.
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
    // A damaged row grants less, never more.
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
    /// Opens or makes the file and brings its schema up to date.
    ///
    /// # Errors
    /// [`DatabaseError`], as for every call below.
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

    /// Opens the file as always, or where nothing may be written for reading alone.
    ///
    /// # Errors
    /// [`DatabaseError`], also for a write-protected file of an earlier version.
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

    /// The database, for the tables others keep here (`accounts`).
    pub const fn connection(&self) -> &Connection {
        &self.connection
    }

    /// The same, for transactions.
    pub const fn connection_mut(&mut self) -> &mut Connection {
        &mut self.connection
    }

    /// Runs `work` in one transaction.
    ///
    /// # Errors
    /// What `work` fails with, or [`DatabaseError`].
    pub fn in_one_step(
        &mut self,
        work: impl FnOnce(&Connection) -> Result<(), DatabaseError>,
    ) -> Result<(), DatabaseError> {
        let transaction = self.connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
        work(&transaction)?;
        Ok(transaction.commit()?)
    }

    /// Keeps a new code's hash, in one step: `decide` sees the devices there are and may refuse. An open code
    /// for a name that `is_same` says is this one is good no longer; returns whether there was one.
    ///
    /// # Errors
    /// What `decide` refuses with, or the database's own.
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
        // The database is behind a lock in a server and alone in a command: nothing nests in it.
        Ok(Transaction::new_unchecked(&self.connection, TransactionBehavior::Immediate)?)
    }

    /// Uses a code for a device, in one step: `decide` sees the code's row, the device's and everybody's, and
    /// says whether the code is taken. Only then is anything written, and of a device that is known nothing
    /// ever: it asked again because the answer got lost.
    ///
    /// # Errors
    /// What `decide` refuses with, or the database's own.
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

    /// Writes down a device that needs no code: the office's own.
    ///
    /// # Errors
    /// [`DatabaseError`], also when it is there already.
    pub fn add_device(&self, new: &NewDevice<'_>, now: UtcMillis) -> Result<RegisteredDevice, DatabaseError> {
        insert_device(&self.connection, new, now)
    }

    /// Gives a device that is not revoked another grant. Its certificate is issued anew, later than the one
    /// before whatever the clock says. Returns the device as it now stands, revoked ones unchanged.
    ///
    /// # Errors
    /// [`DatabaseError`].
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

    /// Notes that a device's certificate is issued anew as it stands, revoked ones too. Returns the device as it now
    /// stands.
    ///
    /// # Errors
    /// [`DatabaseError`].
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

    /// One device.
    ///
    /// # Errors
    /// [`DatabaseError`].
    pub fn device(&self, device: DeviceId) -> Result<Option<RegisteredDevice>, DatabaseError> {
        read_device(&self.connection, device)
    }

    /// All devices, by name.
    ///
    /// # Errors
    /// [`DatabaseError`].
    pub fn devices(&self) -> Result<Vec<RegisteredDevice>, DatabaseError> {
        all_devices(&self.connection)
    }

    /// Marks a device revoked, with the last entry the ledger has of it; one revoked earlier keeps its first
    /// time and its last entry. Returns it as it now stands.
    ///
    /// # Errors
    /// [`DatabaseError`].
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

    /// Notes that devices synced, how far the ledger is now written, and what else is `noted` with it.
    ///
    /// # Errors
    /// [`DatabaseError`].
    pub fn seen(
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

    /// How far the ledger was written when a device was last answered.
    ///
    /// # Errors
    /// [`DatabaseError`].
    pub fn ledger_position(&self) -> Result<u64, DatabaseError> {
        Ok(self.setting(LEDGER_POSITION)?.and_then(|text| text.parse().ok()).unwrap_or(0))
    }

    /// Forgets how far the ledger was written, once a restored ledger has taken a new name.
    ///
    /// # Errors
    /// [`DatabaseError`].
    pub fn forget_ledger_position(&self) -> Result<(), DatabaseError> {
        put_setting(&self.connection, LEDGER_POSITION, "0")
    }

    /// Remembers a ledger written further than any: the next start takes the ledger for one that came
    /// from a backup, as it did.
    ///
    /// # Errors
    /// [`DatabaseError`].
    pub fn came_from_backup(&self) -> Result<(), DatabaseError> {
        put_setting(&self.connection, LEDGER_POSITION, &u64::MAX.to_string())
    }

    /// The address devices reach this server at.
    ///
    /// # Errors
    /// [`DatabaseError`].
    pub fn server_url(&self) -> Result<Option<String>, DatabaseError> {
        self.setting(SERVER_URL)
    }

    /// Remembers the address devices reach this server at.
    ///
    /// # Errors
    /// [`DatabaseError`].
    pub fn set_server_url(&self, url: &str) -> Result<(), DatabaseError> {
        put_setting(&self.connection, SERVER_URL, url)
    }

    /// Whether the organisation asks everybody who signs in for a second factor.
    ///
    /// # Errors
    /// [`DatabaseError`].
    pub fn second_factor_required(&self) -> Result<bool, DatabaseError> {
        Ok(self.setting(SECOND_FACTOR)?.as_deref() == Some("required"))
    }

    /// Asks everybody who signs in for a second factor, or leaves it to each.
    ///
    /// # Errors
    /// [`DatabaseError`].
    pub fn require_second_factor(&self, required: bool) -> Result<(), DatabaseError> {
        put_setting(&self.connection, SECOND_FACTOR, if required { "required" } else { "own choice" })
    }

    /// Keeps a small named text.
    ///
    /// # Errors
    /// [`DatabaseError`].
    pub(crate) fn put_setting(&self, key: &str, value: &str) -> Result<(), DatabaseError> {
        put_setting(&self.connection, key, value)
    }

    /// A small named text.
    ///
    /// # Errors
    /// [`DatabaseError`].
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

/// Puts a code in; open ones for the same name are good no longer. Returns whether there was one.
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
