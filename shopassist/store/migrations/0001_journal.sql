CREATE TABLE row (
  seq INTEGER PRIMARY KEY,
  stream TEXT NOT NULL,
  stream_seq INTEGER NOT NULL,
  kind TEXT NOT NULL,
  version INTEGER NOT NULL,
  utc REAL NOT NULL,
  since_boot REAL NOT NULL,
  boot_id TEXT NOT NULL,
  utc_offset REAL NOT NULL,
  happened REAL NOT NULL,
  body TEXT NOT NULL,
  hash TEXT NOT NULL,
  UNIQUE (stream, stream_seq),
  CHECK (happened <= utc),
  CHECK (stream NOT LIKE 'pot/%' OR happened = utc)
) STRICT;

CREATE INDEX opening ON row (seq, stream) WHERE stream_seq = 1;

CREATE INDEX displaced ON row (seq) WHERE kind IN ('copied', 'imported', 'restored');

CREATE TRIGGER row_never_rewritten BEFORE UPDATE ON row
BEGIN SELECT RAISE(ABORT, 'a row is never rewritten'); END;

CREATE TRIGGER row_never_removed BEFORE DELETE ON row
BEGIN SELECT RAISE(ABORT, 'a row is never removed'); END;

CREATE TRIGGER row_only_appended BEFORE INSERT ON row
WHEN NEW.seq <> (SELECT coalesce(max(seq), 0) + 1 FROM row)
BEGIN SELECT RAISE(ABORT, 'a row is only ever appended'); END;

CREATE TABLE sample (
  row_seq INTEGER PRIMARY KEY REFERENCES row (seq),
  data BLOB NOT NULL
) STRICT;

CREATE TRIGGER sample_never_rewritten BEFORE UPDATE ON sample
BEGIN SELECT RAISE(ABORT, 'a block is never rewritten'); END;

CREATE TRIGGER sample_never_removed BEFORE DELETE ON sample
BEGIN SELECT RAISE(ABORT, 'a block is never removed'); END;

CREATE TABLE heartbeat (
  id INTEGER PRIMARY KEY CHECK (id = 1),
  utc REAL NOT NULL,
  since_boot REAL NOT NULL,
  boot_id TEXT NOT NULL,
  utc_offset REAL NOT NULL,
  running INTEGER NOT NULL,
  seq INTEGER NOT NULL,
  hash TEXT NOT NULL
) STRICT;

CREATE TABLE meta (
  name TEXT PRIMARY KEY,
  value TEXT NOT NULL
) STRICT;

CREATE TABLE fold (
  stream TEXT PRIMARY KEY CHECK (stream NOT LIKE 'pot/%'),
  version INTEGER NOT NULL,
  upto INTEGER NOT NULL,
  result TEXT NOT NULL,
  hash TEXT NOT NULL
) STRICT;
