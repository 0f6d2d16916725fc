-- Schema 2: the ledger's log, and what a device keeps of it.

-- One leaf per entry, dense from 0, in the order entries first came to this ledger; received_at never
-- falls. Empty on a device.
CREATE TABLE log (
  number      INTEGER PRIMARY KEY,
  entry       INTEGER NOT NULL UNIQUE REFERENCES entry(position),
  received_at INTEGER NOT NULL
);

-- Hashes of the complete subtrees above the leaves: level 1 covers two leaves, level 2 four.
CREATE TABLE log_tree (
  level INTEGER NOT NULL,
  place INTEGER NOT NULL,
  hash  BLOB NOT NULL,
  PRIMARY KEY (level, place)
) WITHOUT ROWID;

-- Signed checkpoints: at the server those it published, on a device those it checked, each with the path
-- from the one before (since).
CREATE TABLE checkpoint (
  number INTEGER PRIMARY KEY AUTOINCREMENT,
  origin TEXT NOT NULL,
  size   INTEGER NOT NULL,
  note   TEXT NOT NULL,
  at     INTEGER NOT NULL,
  since  BLOB NOT NULL,
  UNIQUE (origin, size)
);
CREATE INDEX checkpoint_by_size ON checkpoint(size, number);

-- A third party's time stamp on a checkpoint's note (RFC 3161).
CREATE TABLE timestamp (
  checkpoint INTEGER NOT NULL REFERENCES checkpoint(number),
  note       TEXT NOT NULL,
  token      BLOB NOT NULL,
  at         INTEGER NOT NULL,
  PRIMARY KEY (checkpoint, at)
) WITHOUT ROWID;

-- On a device: the server's proofs that entries stand in its log, one row for several entries.
CREATE TABLE proof (
  number INTEGER PRIMARY KEY AUTOINCREMENT,
  bytes  BLOB NOT NULL UNIQUE
);
ALTER TABLE entry ADD COLUMN proof INTEGER REFERENCES proof(number);
CREATE INDEX entry_without_proof ON entry(position) WHERE proof IS NULL AND receipt IS NOT NULL;
