-- Schema 9: editions of the organisation's procedures while they are made. A published edition is an entry of the
-- ledger, and its draft is gone.
CREATE TABLE procedure_draft (
    number INTEGER PRIMARY KEY,
    made_from BLOB NOT NULL,     -- the SHA-256 of the edition that it was started from
    text TEXT NOT NULL,
    begun_by TEXT NOT NULL,
    begun_at INTEGER NOT NULL,   -- milliseconds since 1970, UTC
    changed_by TEXT NOT NULL,
    changed_at INTEGER NOT NULL
);
