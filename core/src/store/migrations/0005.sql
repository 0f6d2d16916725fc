-- Schema 5: the ids of a change's entries beside it, so that who delivers it need not read it: 32 bytes
-- each, then eight bytes that bind them to the change. Rows written before have none.
ALTER TABLE change ADD COLUMN ids BLOB;
