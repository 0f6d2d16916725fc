-- Schema 3: shipping papers as imported, what is sent by mail, seals declared void.
CREATE TABLE paper_file (
  digest    BLOB PRIMARY KEY, -- SHA-256 of bytes: the file exactly as it came, whatever was read out of it
  name      TEXT NOT NULL,
  bytes     BLOB NOT NULL,
  signature TEXT NOT NULL,
  mapping   TEXT NOT NULL,
  taken_at  INTEGER NOT NULL,
  taken_by  TEXT NOT NULL
) WITHOUT ROWID;

CREATE TABLE paper (
  file     BLOB NOT NULL REFERENCES paper_file(digest),
  line     INTEGER NOT NULL,
  number   TEXT NOT NULL,
  car      TEXT NOT NULL,
  shipper  TEXT NOT NULL,
  billed   TEXT NOT NULL,
  density  TEXT NOT NULL,
  day      TEXT NOT NULL,
  PRIMARY KEY (file, line)
) WITHOUT ROWID;

-- Which column is what, by the heads of a file: remembered for the next of its kind.
CREATE TABLE paper_mapping (
  signature TEXT PRIMARY KEY,
  mapping   TEXT NOT NULL,
  used_at   INTEGER NOT NULL
) WITHOUT ROWID;

CREATE TABLE mail (
  number    INTEGER PRIMARY KEY AUTOINCREMENT,
  defect    BLOB,
  visit     BLOB,
  recipient TEXT NOT NULL,
  subject   TEXT NOT NULL,
  body      TEXT NOT NULL,
  photos    TEXT NOT NULL, -- digests, JSON
  asked_by  TEXT NOT NULL,
  asked_at  INTEGER NOT NULL,
  state     TEXT NOT NULL CHECK (state IN ('waiting', 'sent', 'failed')),
  tries     INTEGER NOT NULL,
  next_at   INTEGER NOT NULL,
  said      TEXT NOT NULL, -- what the mail server or the network said last
  done_at   INTEGER
);
CREATE INDEX mail_due ON mail(next_at) WHERE state = 'waiting';
CREATE INDEX mail_of ON mail(defect);

CREATE TABLE seal_void (
  plain TEXT PRIMARY KEY,
  why   TEXT NOT NULL,
  by    TEXT NOT NULL,
  at    INTEGER NOT NULL
) WITHOUT ROWID;
