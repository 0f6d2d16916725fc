-- Schema 1 of the register. Released migrations are never edited; a change is a new file.
CREATE TABLE setting (
  key   TEXT PRIMARY KEY,
  value TEXT NOT NULL
) WITHOUT ROWID;

-- One-time codes. The code itself is never kept.
CREATE TABLE enrolment (
  code_hash  BLOB PRIMARY KEY,
  name       TEXT NOT NULL,
  role       TEXT NOT NULL,
  made_at    INTEGER NOT NULL,
  expires_at INTEGER NOT NULL,
  used_by    BLOB,
  used_at    INTEGER
) WITHOUT ROWID;

CREATE TABLE device (
  device         BLOB PRIMARY KEY,
  name           TEXT NOT NULL,
  own_name       TEXT NOT NULL,
  role           TEXT NOT NULL,
  issued_at      INTEGER NOT NULL,
  revoked_at     INTEGER,
  seen_at        INTEGER,
  ahead_millis   INTEGER,
  unsent_entries INTEGER,
  unsent_photos  INTEGER
) WITHOUT ROWID;

-- Photographs on their way in.
CREATE TABLE upload (
  sha256   BLOB PRIMARY KEY,
  length   INTEGER NOT NULL,
  media    TEXT NOT NULL,
  device   BLOB NOT NULL,
  began_at INTEGER NOT NULL
) WITHOUT ROWID;
