-- Schema 5: roles of accounts, the second factor, browsers an account signed in from, and the audit as a chain.

-- Until now there was one role, and whoever had an account might do everything at the office.
UPDATE account SET role = 'administrator' WHERE role = 'office';

-- The secret must be read to check a code, so it is kept as it is; nothing is asked for until it is confirmed.
-- The last step a code was taken for: the same code is never taken twice.
CREATE TABLE second_factor (
  account      INTEGER PRIMARY KEY REFERENCES account(number),
  secret       BLOB NOT NULL,
  begun_at     INTEGER NOT NULL,
  confirmed_at INTEGER,
  last_step    INTEGER NOT NULL DEFAULT 0
);

-- Codes for the day the telephone is lost: SHA-256 of each, gone once used.
CREATE TABLE recovery_code (
  account   INTEGER NOT NULL REFERENCES account(number),
  code_hash BLOB NOT NULL,
  PRIMARY KEY (account, code_hash)
) WITHOUT ROWID;

-- Somebody whose password was right and whose code is still waited for.
CREATE TABLE half_sign_in (
  token_hash BLOB PRIMARY KEY,
  account    INTEGER NOT NULL REFERENCES account(number),
  made_at    INTEGER NOT NULL
) WITHOUT ROWID;

-- Browsers an account signed in from: their tries are counted apart from those of strangers.
CREATE TABLE known_browser (
  token_hash BLOB NOT NULL,
  account    INTEGER NOT NULL REFERENCES account(number),
  seen_at    INTEGER NOT NULL,
  PRIMARY KEY (token_hash, account)
) WITHOUT ROWID;

-- Each row holds the SHA-256 over the row before and its own words; rows of before are chained when this is applied.
ALTER TABLE audit ADD COLUMN hash BLOB;
CREATE TRIGGER audit_stays BEFORE UPDATE ON audit WHEN OLD.hash IS NOT NULL
BEGIN SELECT RAISE(ABORT, 'a row of the audit is never changed'); END;
CREATE TRIGGER audit_is_kept BEFORE DELETE ON audit
BEGIN SELECT RAISE(ABORT, 'a row of the audit is never removed'); END;
