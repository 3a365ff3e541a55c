-- Version 6: a photo of a fitting, as whoever made the pack or the owner gave it.

CREATE TABLE photo (
  vehicle_id   INTEGER NOT NULL REFERENCES vehicle (id),
  fitting      TEXT    NOT NULL CHECK (fitting <> ''),
  giver        TEXT    NOT NULL CHECK (giver IN ('pack', 'owner')),
  added_utc_ms INTEGER NOT NULL,
  image        BLOB    NOT NULL CHECK (length(image) BETWEEN 1 AND 400000),
  PRIMARY KEY (vehicle_id, fitting)
) STRICT;
