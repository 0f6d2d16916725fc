-- Schema 3: a change stands once in every document it was offered under, and documents belong to sites.
-- What follows from entries (opened_at, belonging, area_tally, photo_in) and what is missing of change is filled in by
-- sqlite_scope.rs and sqlite_heal.rs in the same transaction.
CREATE TABLE change_3 (
  position INTEGER PRIMARY KEY AUTOINCREMENT,
  subject  BLOB NOT NULL,
  hash     BLOB NOT NULL,
  bytes    BLOB NOT NULL,
  digest   BLOB NOT NULL,
  held     INTEGER NOT NULL,
  UNIQUE (subject, hash)
);
INSERT INTO change_3(position, subject, hash, bytes, digest, held)
  SELECT position, subject, hash, bytes, digest, held FROM change ORDER BY position;
DROP TABLE change;
ALTER TABLE change_3 RENAME TO change;
CREATE INDEX change_of ON change(subject, position);
CREATE INDEX change_not_held ON change(position) WHERE held = 0;

-- At which sites visits were opened, with which cars; bound: the visit's id proves that site.
CREATE TABLE opened_at (
  visit BLOB NOT NULL,
  car   BLOB NOT NULL,
  site  BLOB NOT NULL,
  bound INTEGER NOT NULL,
  PRIMARY KEY (visit, car, site, bound)
) WITHOUT ROWID;
CREATE INDEX opened_at_car ON opened_at(car);

-- The areas a document belongs to: a site's id, or nothing for what is everybody's. fed says that the
-- document's changes are in the feed of the area.
CREATE TABLE belonging (
  subject BLOB NOT NULL,
  area    BLOB NOT NULL,
  fed     INTEGER NOT NULL,
  PRIMARY KEY (subject, area)
) WITHOUT ROWID;
CREATE INDEX belonging_in ON belonging(area, subject);
CREATE INDEX belonging_not_fed ON belonging(subject) WHERE fed = 0;

-- Count and sum of the entries of an area's documents.
CREATE TABLE area_tally (
  area  BLOB PRIMARY KEY,
  tally BLOB NOT NULL
) WITHOUT ROWID;

-- What the readers of an area read, at a server some of whose devices are given sites alone; empty elsewhere.
CREATE TABLE feed (
  position INTEGER PRIMARY KEY AUTOINCREMENT,
  area     BLOB NOT NULL,
  change   INTEGER NOT NULL REFERENCES change(position)
);
CREATE INDEX feed_of ON feed(area, position, change);
CREATE INDEX feed_change ON feed(change);

-- The documents in which an entry names a photograph.
CREATE TABLE photo_in (
  sha256  BLOB NOT NULL,
  subject BLOB NOT NULL,
  PRIMARY KEY (sha256, subject)
) WITHOUT ROWID;
