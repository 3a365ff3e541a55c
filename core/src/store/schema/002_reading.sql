-- Version 2: what a gauge showed, beside what that gave, so that two readings tell how much was used.

CREATE TABLE reading (
  entry_seq   INTEGER PRIMARY KEY REFERENCES entry (seq),
  gauge       TEXT    NOT NULL CHECK (gauge <> ''),
  unit        TEXT    NOT NULL CHECK (unit IN ('lamps', 'percent', 'litres', 'volts')),
  value_milli INTEGER NOT NULL CHECK (value_milli BETWEEN 0 AND 10000000)
) STRICT;
