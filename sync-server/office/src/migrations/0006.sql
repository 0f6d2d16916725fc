-- Schema 6: what each device brought, what was refused of it, uploads of each device, stays kept out of the lists.

-- Counted by days since 1970, UTC, by the server's clock. Day -1 is the tray of a revoked device: it never ends.
CREATE TABLE brought (
  device        BLOB NOT NULL,
  day           INTEGER NOT NULL,
  bytes         INTEGER NOT NULL DEFAULT 0,
  entries       INTEGER NOT NULL DEFAULT 0,
  visits        INTEGER NOT NULL DEFAULT 0,
  photos        INTEGER NOT NULL DEFAULT 0,
  photo_bytes   INTEGER NOT NULL DEFAULT 0,
  refused       INTEGER NOT NULL DEFAULT 0,
  refused_bytes INTEGER NOT NULL DEFAULT 0,
  PRIMARY KEY (device, day)
) WITHOUT ROWID;

-- What was refused for good: its digest, length and reason, and no more of it than its beginning.
CREATE TABLE refused (
  device    BLOB NOT NULL,
  digest    BLOB NOT NULL,
  subject   BLOB,
  length    INTEGER NOT NULL,
  beginning BLOB NOT NULL,
  why       TEXT NOT NULL,
  at        INTEGER NOT NULL,
  PRIMARY KEY (device, digest)
) WITHOUT ROWID;

-- Photographs on their way in, of each device its own.
CREATE TABLE sending (
  sha256   BLOB NOT NULL,
  device   BLOB NOT NULL,
  length   INTEGER NOT NULL,
  media    TEXT NOT NULL,
  began_at INTEGER NOT NULL,
  moved_at INTEGER NOT NULL,
  PRIMARY KEY (sha256, device)
) WITHOUT ROWID;
INSERT INTO sending(sha256, device, length, media, began_at, moved_at)
  SELECT sha256, device, length, media, began_at, began_at FROM upload;
DROP TABLE upload;

-- Photographs that entries name, with each length that one of them gives.
CREATE TABLE photo_named (
  sha256 BLOB NOT NULL,
  length INTEGER NOT NULL,
  PRIMARY KEY (sha256, length)
) WITHOUT ROWID;

-- Visits kept out of the office's lists; their entries stay where they are, and in the log.
CREATE TABLE hidden_visit (
  visit BLOB PRIMARY KEY,
  why   TEXT NOT NULL,
  by    TEXT NOT NULL,
  at    INTEGER NOT NULL
) WITHOUT ROWID;
