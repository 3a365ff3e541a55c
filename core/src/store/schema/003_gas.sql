-- Version 3: a cylinder is weighed, or told by a word: two more units of a reading.

CREATE TABLE reading_3 (
  entry_seq   INTEGER PRIMARY KEY REFERENCES entry (seq),
  gauge       TEXT    NOT NULL CHECK (gauge <> ''),
  unit        TEXT    NOT NULL CHECK (unit IN (
    'lamps', 'percent', 'litres', 'volts', 'kilograms', 'words')),
  value_milli INTEGER NOT NULL CHECK (value_milli BETWEEN 0 AND 10000000)
) STRICT;

INSERT INTO reading_3 SELECT entry_seq, gauge, unit, value_milli FROM reading;
DROP TABLE reading;
ALTER TABLE reading_3 RENAME TO reading;
