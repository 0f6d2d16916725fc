-- Schema 8: the language in which the holder of an account reads the pages, as a BCP 47 tag. NULL: the
-- organisation's.
ALTER TABLE account ADD COLUMN language TEXT;
