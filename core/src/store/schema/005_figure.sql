-- Version 5: numbers that only the people on board can tell: how many they are, how often they shower.

CREATE TABLE figure (
  entry_seq   INTEGER PRIMARY KEY REFERENCES entry (seq),
  figure      TEXT    NOT NULL CHECK (figure <> ''),
  value_milli INTEGER CHECK (value_milli >= 0)
) STRICT;
