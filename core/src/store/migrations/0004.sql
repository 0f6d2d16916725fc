-- Schema 4: a leaf of the log says what its entry is about (17 bytes). Leaves written before do not.
ALTER TABLE log ADD COLUMN about BLOB;
