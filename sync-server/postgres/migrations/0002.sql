-- Schema 2: a whole ledger is carried into a database and out of it.
ALTER TABLE farsiding.head
  -- The moment at which a ledger was carried here that no folder names yet; 0 if there is none. It may be carried here
  -- again as long as nothing was written since.
  ADD COLUMN arrived bigint NOT NULL DEFAULT 0,
  -- Where the ledger was carried to, as a sentence: it is served from here no more. Empty if it was not.
  ADD COLUMN gone bytea NOT NULL DEFAULT '';
