-- Schema 7: certificates of version two: at which sites, with which rights, until when, and how a revoked
-- device ended. A device whose issuer is NULL has the certificate version one wrote, byte for byte.
ALTER TABLE enrolment ADD COLUMN sites TEXT;         -- ids, hexadecimal, by blanks; NULL: all, also later ones
ALTER TABLE enrolment ADD COLUMN rights TEXT;        -- words, by blanks; NULL: what the role may
ALTER TABLE enrolment ADD COLUMN valid_until INTEGER;
ALTER TABLE enrolment ADD COLUMN replaced_at INTEGER; -- when another code for the same name was made

ALTER TABLE device ADD COLUMN issuer BLOB;
ALTER TABLE device ADD COLUMN sites TEXT;
ALTER TABLE device ADD COLUMN rights TEXT;
ALTER TABLE device ADD COLUMN valid_until INTEGER;
ALTER TABLE device ADD COLUMN renewed_at INTEGER;
ALTER TABLE device ADD COLUMN earlier TEXT;          -- what it was granted before, oldest first, JSON
ALTER TABLE device ADD COLUMN last_seq TEXT;         -- a number of 64 bits without a sign does not fit INTEGER
ALTER TABLE device ADD COLUMN last_entry BLOB;

-- What a link opened when it was made: visit ids, one after the other. NULL in links of before: the one visit.
ALTER TABLE link ADD COLUMN visits BLOB;
