-- Version 1: vehicles, the log of what was said about each, and small settings of the app.
-- Quantities are integers; codes are those of the row modules beside this folder.

CREATE TABLE vehicle (
  id             INTEGER PRIMARY KEY,
  title          TEXT    NOT NULL CHECK (title <> ''),
  pack_toml      TEXT    NOT NULL,
  good_pack_toml TEXT,
  added_utc_ms   INTEGER NOT NULL,
  current        INTEGER NOT NULL CHECK (current IN (0, 1))
) STRICT;

CREATE UNIQUE INDEX vehicle_current ON vehicle (current) WHERE current = 1;

-- The composite references keep a run, and what an entry voids, within one vehicle's log.
CREATE TABLE entry (
  seq        INTEGER PRIMARY KEY,
  vehicle_id INTEGER NOT NULL REFERENCES vehicle (id),
  run_seq    INTEGER,
  utc_ms     INTEGER NOT NULL,
  mono_ms    INTEGER,
  boot       TEXT,
  act        TEXT    NOT NULL CHECK (act IN (
    'report', 'tick', 'look', 'void', 'cannot', 'left_anyway',
    'open', 'pause', 'resume', 'close', 'note')),
  step       TEXT    CHECK (step <> ''),
  target     TEXT    CHECK (target <> ''),
  voids      INTEGER,
  note       TEXT    NOT NULL,
  UNIQUE (vehicle_id, seq),
  FOREIGN KEY (vehicle_id, run_seq) REFERENCES entry (vehicle_id, seq),
  FOREIGN KEY (vehicle_id, voids) REFERENCES entry (vehicle_id, seq),
  CHECK (run_seq < seq),
  CHECK (voids < seq),
  CHECK ((mono_ms IS NULL) = (boot IS NULL)),
  CHECK ((step IS NOT NULL) = (act IN ('tick', 'look', 'cannot', 'left_anyway'))),
  CHECK ((target IS NOT NULL) = (act = 'open')),
  CHECK ((voids IS NOT NULL) = (act = 'void'))
) STRICT;

CREATE TABLE fact (
  entry_seq INTEGER NOT NULL REFERENCES entry (seq),
  position  INTEGER NOT NULL CHECK (position >= 0),
  variable  TEXT    NOT NULL CHECK (variable <> ''),
  settings  TEXT    NOT NULL CHECK (settings <> ''),
  how       TEXT    NOT NULL CHECK (how IN (
    'done', 'looked', 'told', 'reading', 'settled', 'assumed')),
  PRIMARY KEY (entry_seq, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE setting (
  key   TEXT PRIMARY KEY CHECK (key <> ''),
  value TEXT NOT NULL
) STRICT, WITHOUT ROWID;
