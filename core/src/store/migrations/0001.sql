-- Schema 1. Released migrations are never edited; a change is a new file.
CREATE TABLE value (
  key   TEXT PRIMARY KEY,
  value BLOB NOT NULL
) WITHOUT ROWID;

-- The ledger of record. id is the SHA-256 of bytes and is checked on every read.
CREATE TABLE entry (
  position INTEGER PRIMARY KEY AUTOINCREMENT,
  id       BLOB NOT NULL UNIQUE,
  bytes    BLOB NOT NULL,
  receipt  INTEGER REFERENCES receipt(number)
);
CREATE INDEX entry_without_receipt ON entry(position) WHERE receipt IS NULL;

-- Which documents an entry stands in: its visit, and its car when it is known of the car.
CREATE TABLE standing (
  subject  BLOB NOT NULL,
  position INTEGER NOT NULL REFERENCES entry(position),
  PRIMARY KEY (subject, position)
) WITHOUT ROWID;

CREATE TABLE change (
  position INTEGER PRIMARY KEY AUTOINCREMENT,
  subject  BLOB NOT NULL,
  hash     BLOB NOT NULL UNIQUE,
  bytes    BLOB NOT NULL,
  digest   BLOB NOT NULL,
  held     INTEGER NOT NULL
);
CREATE INDEX change_of ON change(subject, position);
CREATE INDEX change_not_held ON change(position) WHERE held = 0;

CREATE TABLE receipt (
  number INTEGER PRIMARY KEY AUTOINCREMENT,
  bytes  BLOB NOT NULL UNIQUE
);

CREATE TABLE certificate (
  device BLOB PRIMARY KEY,
  bytes  BLOB NOT NULL
) WITHOUT ROWID;

CREATE TABLE quarantine (
  digest  BLOB PRIMARY KEY,
  subject BLOB,
  bytes   BLOB NOT NULL,
  why     TEXT NOT NULL,
  at      INTEGER NOT NULL
) WITHOUT ROWID;

CREATE TABLE photo (
  sha256 BLOB PRIMARY KEY,
  length INTEGER NOT NULL,
  media  TEXT NOT NULL,
  here   INTEGER NOT NULL,
  held   INTEGER NOT NULL
) WITHOUT ROWID;

CREATE TABLE draft (
  key  TEXT PRIMARY KEY,
  text TEXT NOT NULL
) WITHOUT ROWID;
