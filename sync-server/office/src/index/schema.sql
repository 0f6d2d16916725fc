-- The index of stays. Everything here is derived from the ledger and made again when it is missing or of
-- another version; nothing refers to it and nobody backs it up.
CREATE TABLE meta (
  key   TEXT PRIMARY KEY,
  value TEXT NOT NULL
) WITHOUT ROWID;

-- One row per stay: joined visits together.
CREATE TABLE stay (
  number      INTEGER PRIMARY KEY AUTOINCREMENT, -- never used twice: a row gone is gone
  first       BLOB NOT NULL UNIQUE,
  car         TEXT NOT NULL,
  car_plain   TEXT NOT NULL,
  car_digits  TEXT NOT NULL,
  car_id      BLOB,
  site        BLOB,
  since       INTEGER NOT NULL,
  latest      INTEGER NOT NULL,
  released    INTEGER NOT NULL,
  released_at INTEGER,
  pulled      INTEGER NOT NULL,
  line        TEXT NOT NULL,
  facts       TEXT,
  stale       INTEGER NOT NULL DEFAULT 0
);
CREATE INDEX stay_open ON stay(site, since) WHERE released = 0;
CREATE INDEX stay_leaving ON stay(released_at) WHERE released = 1 AND pulled = 0;
CREATE INDEX stay_plain ON stay(car_plain, since);
CREATE INDEX stay_digits ON stay(car_digits, since);
CREATE INDEX stay_car ON stay(car_id);
CREATE INDEX stay_since ON stay(since);
CREATE INDEX stay_site ON stay(site, since);
CREATE INDEX stay_stale ON stay(stale) WHERE stale = 1;

CREATE TABLE visit (
  visit BLOB PRIMARY KEY,
  stay  INTEGER NOT NULL
) WITHOUT ROWID;
CREATE INDEX visit_of ON visit(stay);

-- Visits said to be the same stay.
CREATE TABLE pair (
  visit BLOB NOT NULL,
  other BLOB NOT NULL,
  PRIMARY KEY (visit, other)
) WITHOUT ROWID;
CREATE INDEX pair_other ON pair(other);

-- Visits whose entries rest on those of another one on the track.
CREATE TABLE rests (
  visit BLOB NOT NULL,
  other BLOB NOT NULL,
  PRIMARY KEY (visit, other)
) WITHOUT ROWID;
CREATE INDEX rests_other ON rests(other);

CREATE TABLE seal (
  stay  INTEGER NOT NULL,
  plain TEXT NOT NULL,
  said  TEXT NOT NULL
);
CREATE INDEX seal_plain ON seal(plain);
CREATE INDEX seal_of ON seal(stay);

CREATE TABLE site (
  site BLOB PRIMARY KEY,
  name TEXT NOT NULL,
  zone TEXT NOT NULL
) WITHOUT ROWID;

-- The chain of each device as runs of entries that follow one another.
CREATE TABLE run (
  device  BLOB NOT NULL,
  first   INTEGER NOT NULL,
  last    INTEGER NOT NULL,
  prev    BLOB,
  last_id BLOB NOT NULL
);
CREATE INDEX run_of ON run(device);
