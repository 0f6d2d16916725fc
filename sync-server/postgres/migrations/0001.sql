-- Schema 1 of a ledger in PostgreSQL. Released migrations are never edited; a change is a new file.
--
-- Every table is keyed by organisation first (16 bytes), so that many organisations share a database and no
-- statement reads another's rows. Numbers and positions are drawn from the organisation's row in `head`, which stays
-- locked until the commit: they become visible in their order, which a sequence does not promise. Texts are kept as
-- UTF-8 in bytea, because a text of PostgreSQL cannot hold the character zero, and bytes compare as bytes.

-- One row per organisation: what every transaction reads first and writes last.
CREATE TABLE farsiding.head (
  organisation bytea  PRIMARY KEY,
  moment       bigint NOT NULL,  -- the number of transactions so far
  writer       bytea  NOT NULL,  -- who wrote last: 16 random bytes of an opened store
  fence        bigint NOT NULL,  -- raised by a server that takes over; who holds a lower one writes no more
  entries      bigint NOT NULL,  -- the newest position of an entry, and so on for each table
  changes      bigint NOT NULL,
  receipts     bigint NOT NULL,
  proofs       bigint NOT NULL,
  checkpoints  bigint NOT NULL,
  feed         bigint NOT NULL,
  fed          bigint NOT NULL,  -- the newest change that is in the feed
  tally        bytea  NOT NULL,  -- count and sum of the entries, 40 bytes
  leaves       bigint NOT NULL,  -- the size of the log
  leaf_at      bigint NOT NULL,  -- the time of its last leaf, in milliseconds since 1970
  peaks        bytea  NOT NULL   -- the hashes of the complete subtrees at its right edge, the largest first
);

-- The ledger of record. id is the SHA-256 of bytes and is checked on every read.
CREATE TABLE farsiding.entry (
  organisation bytea  NOT NULL,
  position     bigint NOT NULL,
  id           bytea  NOT NULL,
  bytes        bytea  NOT NULL,
  PRIMARY KEY (organisation, position),
  UNIQUE (organisation, id)
);
-- The signer's key stands at the same place in every entry, so that a device's entries are found without decoding.
CREATE INDEX entry_of_device ON farsiding.entry(organisation, substr(bytes, 11, 32), position);

-- Which documents an entry stands in.
CREATE TABLE farsiding.standing (
  organisation bytea  NOT NULL,
  subject      bytea  NOT NULL,
  position     bigint NOT NULL,
  PRIMARY KEY (organisation, subject, position)
);
CREATE INDEX standing_of ON farsiding.standing(organisation, position);

CREATE TABLE farsiding.change (
  organisation bytea   NOT NULL,
  position     bigint  NOT NULL,
  subject      bytea   NOT NULL,
  hash         bytea   NOT NULL,
  bytes        bytea   NOT NULL,
  digest       bytea   NOT NULL,  -- SHA-256 of bytes
  held         boolean NOT NULL,
  ids          bytea,             -- the ids of its entries, bound to the change by eight bytes
  PRIMARY KEY (organisation, position),
  UNIQUE (organisation, subject, hash)
);
CREATE INDEX change_of ON farsiding.change(organisation, subject, position);
CREATE INDEX change_not_held ON farsiding.change(organisation, position) WHERE NOT held;

CREATE TABLE farsiding.receipt (
  organisation bytea  NOT NULL,
  number       bigint NOT NULL,
  digest       bytea  NOT NULL,  -- SHA-256 of bytes: a receipt may be longer than an index takes
  bytes        bytea  NOT NULL,
  PRIMARY KEY (organisation, number),
  UNIQUE (organisation, digest)
);
-- The receipt of an entry. A row of its own, because an update would write the entry's bytes anew.
CREATE TABLE farsiding.covered (
  organisation bytea  NOT NULL,
  position     bigint NOT NULL,
  receipt      bigint NOT NULL,
  PRIMARY KEY (organisation, position)
);

CREATE TABLE farsiding.proof (
  organisation bytea  NOT NULL,
  number       bigint NOT NULL,
  digest       bytea  NOT NULL,
  bytes        bytea  NOT NULL,
  PRIMARY KEY (organisation, number),
  UNIQUE (organisation, digest)
);
CREATE TABLE farsiding.proven (
  organisation bytea  NOT NULL,
  position     bigint NOT NULL,
  proof        bigint NOT NULL,
  PRIMARY KEY (organisation, position)
);

CREATE TABLE farsiding.value (
  organisation bytea NOT NULL,
  key          bytea NOT NULL,
  value        bytea NOT NULL,
  PRIMARY KEY (organisation, key)
);

CREATE TABLE farsiding.certificate (
  organisation bytea NOT NULL,
  device       bytea NOT NULL,
  bytes        bytea NOT NULL,
  PRIMARY KEY (organisation, device)
);

CREATE TABLE farsiding.quarantine (
  organisation bytea  NOT NULL,
  digest       bytea  NOT NULL,
  subject      bytea,
  bytes        bytea  NOT NULL,
  why          bytea  NOT NULL,
  at           bigint NOT NULL,
  PRIMARY KEY (organisation, digest)
);

CREATE TABLE farsiding.photo (
  organisation bytea   NOT NULL,
  sha256       bytea   NOT NULL,
  length       bigint  NOT NULL,
  media        bytea   NOT NULL,
  here         boolean NOT NULL,
  held         boolean NOT NULL,
  PRIMARY KEY (organisation, sha256)
);

CREATE TABLE farsiding.draft (
  organisation bytea NOT NULL,
  key          bytea NOT NULL,
  text         bytea NOT NULL,
  PRIMARY KEY (organisation, key)
);

-- One leaf per entry, dense from 0, in the order in which entries first came; received_at never falls.
CREATE TABLE farsiding.log (
  organisation bytea  NOT NULL,
  number       bigint NOT NULL,
  entry        bigint NOT NULL,
  received_at  bigint NOT NULL,
  about        bytea,
  PRIMARY KEY (organisation, number),
  UNIQUE (organisation, entry)
);

-- Hashes of the complete subtrees above the leaves: level 1 covers two leaves, level 2 four.
CREATE TABLE farsiding.log_tree (
  organisation bytea   NOT NULL,
  level        integer NOT NULL,
  place        bigint  NOT NULL,
  hash         bytea   NOT NULL,
  PRIMARY KEY (organisation, level, place)
);

CREATE TABLE farsiding.checkpoint (
  organisation bytea   NOT NULL,
  number       bigint  NOT NULL,
  origin       bytea   NOT NULL,
  size         bigint  NOT NULL,
  note         bytea   NOT NULL,
  signatures   integer NOT NULL,  -- the number of lines after the note's last empty line
  at           bigint  NOT NULL,
  since        bytea   NOT NULL,
  PRIMARY KEY (organisation, number),
  UNIQUE (organisation, origin, size)
);
CREATE INDEX checkpoint_by_size ON farsiding.checkpoint(organisation, size, number);

-- A third party's time stamp on a checkpoint's note (RFC 3161).
CREATE TABLE farsiding.stamp (
  organisation bytea  NOT NULL,
  checkpoint   bigint NOT NULL,
  note         bytea  NOT NULL,
  token        bytea  NOT NULL,
  at           bigint NOT NULL,
  PRIMARY KEY (organisation, checkpoint, at)
);

-- At which sites visits were opened, with which cars; bound: the visit's id proves that site.
CREATE TABLE farsiding.opened_at (
  organisation bytea   NOT NULL,
  visit        bytea   NOT NULL,
  car          bytea   NOT NULL,
  site         bytea   NOT NULL,
  bound        boolean NOT NULL,
  PRIMARY KEY (organisation, visit, car, site, bound)
);
CREATE INDEX opened_at_car ON farsiding.opened_at(organisation, car);

-- The areas a document belongs to: a site's id, or nothing for what is everybody's. fed says that the document's
-- changes are in the feed of the area.
CREATE TABLE farsiding.belonging (
  organisation bytea   NOT NULL,
  subject      bytea   NOT NULL,
  area         bytea   NOT NULL,
  fed          boolean NOT NULL,
  PRIMARY KEY (organisation, subject, area)
);
CREATE INDEX belonging_in ON farsiding.belonging(organisation, area, subject);
CREATE INDEX belonging_not_fed ON farsiding.belonging(organisation, subject) WHERE NOT fed;

-- Count and sum of the entries of an area's documents; of all documents under one zero byte.
CREATE TABLE farsiding.area_tally (
  organisation bytea NOT NULL,
  area         bytea NOT NULL,
  tally        bytea NOT NULL,
  PRIMARY KEY (organisation, area)
);

-- What the readers of an area read, in order.
CREATE TABLE farsiding.feed (
  organisation bytea  NOT NULL,
  position     bigint NOT NULL,
  area         bytea  NOT NULL,
  change       bigint NOT NULL,
  PRIMARY KEY (organisation, position)
);
CREATE INDEX feed_of ON farsiding.feed(organisation, area, position, change);
CREATE INDEX feed_change ON farsiding.feed(organisation, change);

-- The documents in which an entry names a photograph.
CREATE TABLE farsiding.photo_in (
  organisation bytea NOT NULL,
  sha256       bytea NOT NULL,
  subject      bytea NOT NULL,
  PRIMARY KEY (organisation, sha256, subject)
);
