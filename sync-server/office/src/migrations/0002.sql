-- Schema 2: who signs in at the office's pages, links for inspectors, sessions, and who looked at what.
-- Secrets are never kept: passwords as argon2id strings, session tokens and link secrets as SHA-256.
CREATE TABLE account (
  number      INTEGER PRIMARY KEY,
  name        TEXT NOT NULL UNIQUE COLLATE NOCASE,
  password    TEXT NOT NULL,
  role        TEXT NOT NULL,
  made_at     INTEGER NOT NULL,
  disabled_at INTEGER
);

CREATE TABLE link (
  number      INTEGER PRIMARY KEY,
  secret_hash BLOB NOT NULL UNIQUE,
  visit       BLOB NOT NULL,
  label       TEXT NOT NULL,
  made_by     TEXT NOT NULL,
  made_at     INTEGER NOT NULL,
  expires_at  INTEGER NOT NULL,
  revoked_at  INTEGER
);
CREATE INDEX link_of ON link(visit);

CREATE TABLE session (
  token_hash BLOB PRIMARY KEY,
  account    INTEGER REFERENCES account(number),
  link       INTEGER REFERENCES link(number),
  made_at    INTEGER NOT NULL,
  seen_at    INTEGER NOT NULL,
  CHECK ((account IS NULL) <> (link IS NULL))
) WITHOUT ROWID;

CREATE TABLE audit (
  number  INTEGER PRIMARY KEY AUTOINCREMENT,
  at      INTEGER NOT NULL,
  who     TEXT NOT NULL,
  role    TEXT NOT NULL,
  did     TEXT NOT NULL,
  subject TEXT NOT NULL
);
CREATE INDEX audit_of ON audit(subject, number);
