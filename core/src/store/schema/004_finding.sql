-- Version 4: what was said in the search for the cause of a fault, so that it goes on in any process.

CREATE TABLE finding (
  entry_seq INTEGER PRIMARY KEY REFERENCES entry (seq),
  symptom   TEXT    NOT NULL CHECK (symptom <> ''),
  fitting   TEXT    NOT NULL CHECK (fitting <> ''),
  asked     TEXT    NOT NULL CHECK (asked <> ''),
  answer    TEXT    NOT NULL CHECK (answer <> '')
) STRICT;
