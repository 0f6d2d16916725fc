-- Schema 4: what the record says goes with a letter as a file of its own.
ALTER TABLE mail ADD COLUMN extract TEXT NOT NULL DEFAULT '';
