/**
 * The first schema. Three habits run through it:
 *
 * - Every foreign key is checked at the end of a transaction, so that an edit may touch its places in any order.
 * - What SQLite can only refuse at once, but must hold at the end (one position for one run, one value for one act of reading), goes
 *   through the table `conflict`: a trigger enters a row there as long as two rows disagree, and the row points at a study that
 *   cannot exist, so that no transaction ends with it.
 * - Texts with NUL are refused: SQLite's own functions stop at it, and would then check half a text.
 */
export const migration1 = `
PRAGMA application_id = 1114597740;

CREATE TABLE study (
  item INTEGER PRIMARY KEY CHECK (item = 1),
  identity TEXT NOT NULL CHECK (length(identity) = 36),
  name TEXT NOT NULL CHECK (name <> '' AND instr(name, char(0)) = 0),
  method TEXT NOT NULL CHECK (method IN ('wbt', 'iso')),
  confidence REAL NOT NULL CHECK (confidence >= 0.5 AND confidence < 1),
  is_example INTEGER NOT NULL CHECK (is_example IN (0, 1)),
  created_at TEXT NOT NULL CHECK (created_at <> ''),
  created_by TEXT NOT NULL CHECK (created_by <> '' AND instr(created_by, char(0)) = 0),
  runs INTEGER NOT NULL CHECK (runs >= 0),
  seal TEXT NOT NULL CHECK (length(seal) = 64 AND seal NOT GLOB '*[^0-9a-f]*')
) STRICT;

CREATE TABLE conflict (
  subject TEXT NOT NULL CHECK (subject IN ('act', 'run', 'variant')),
  number INTEGER NOT NULL,
  never INTEGER NOT NULL DEFAULT 0 CHECK (never = 0) REFERENCES study (item) DEFERRABLE INITIALLY DEFERRED,
  PRIMARY KEY (subject, number)
) STRICT, WITHOUT ROWID;

CREATE TABLE variant (
  item INTEGER PRIMARY KEY CHECK (item BETWEEN 1 AND 1000000000000),
  name TEXT NOT NULL CHECK (name <> '' AND instr(name, char(0)) = 0),
  position INTEGER NOT NULL CHECK (position >= 0)
) STRICT;
CREATE INDEX variant_position ON variant (position);

CREATE TABLE variant_level (
  variant INTEGER NOT NULL REFERENCES variant (item) DEFERRABLE INITIALLY DEFERRED,
  factor TEXT NOT NULL CHECK (factor <> '' AND instr(factor, char(0)) = 0),
  level TEXT NOT NULL CHECK (instr(level, char(0)) = 0),
  PRIMARY KEY (variant, factor)
) STRICT, WITHOUT ROWID;

CREATE TABLE fuel (
  item INTEGER PRIMARY KEY CHECK (item BETWEEN 1 AND 1000000000000),
  name TEXT NOT NULL CHECK (name <> '' AND instr(name, char(0)) = 0),
  value TEXT NOT NULL CHECK (json_valid(value))
) STRICT;

CREATE TABLE pot (
  item INTEGER PRIMARY KEY CHECK (item BETWEEN 1 AND 1000000000000),
  name TEXT NOT NULL CHECK (name <> '' AND instr(name, char(0)) = 0),
  value TEXT NOT NULL CHECK (json_valid(value))
) STRICT;

CREATE TABLE instrument (
  item INTEGER PRIMARY KEY CHECK (item BETWEEN 1 AND 1000000000000),
  name TEXT NOT NULL CHECK (name <> '' AND instr(name, char(0)) = 0),
  value TEXT NOT NULL CHECK (json_valid(value))
) STRICT;

CREATE TABLE setting (
  name TEXT PRIMARY KEY NOT NULL CHECK (name <> '' AND instr(name, char(0)) = 0),
  value TEXT NOT NULL CHECK (json_valid(value))
) STRICT, WITHOUT ROWID;

CREATE TABLE attachment (
  item INTEGER PRIMARY KEY CHECK (item BETWEEN 1 AND 1000000000000),
  file TEXT NOT NULL CHECK (file <> '' AND instr(file, char(0)) = 0),
  sha256 TEXT NOT NULL CHECK (length(sha256) = 64 AND sha256 NOT GLOB '*[^0-9a-f]*')
) STRICT;

CREATE TABLE run (
  item INTEGER PRIMARY KEY CHECK (item BETWEEN 1 AND 1000000000000),
  name TEXT NOT NULL CHECK (name <> '' AND instr(name, char(0)) = 0),
  position INTEGER NOT NULL CHECK (position >= 0),
  variant INTEGER NOT NULL REFERENCES variant (item) DEFERRABLE INITIALLY DEFERRED,
  method TEXT NOT NULL CHECK (method IN ('wbt', 'iso')),
  date TEXT CHECK (date <> '' AND instr(date, char(0)) = 0),
  run_order REAL CHECK (abs(run_order) <= 1e12),
  block TEXT CHECK (block <> '' AND instr(block, char(0)) = 0),
  operator TEXT CHECK (operator <> '' AND instr(operator, char(0)) = 0),
  left_out TEXT CHECK (left_out <> '' AND instr(left_out, char(0)) = 0),
  attachment INTEGER REFERENCES attachment (item) DEFERRABLE INITIALLY DEFERRED,
  seal TEXT NOT NULL CHECK (length(seal) = 64)
) STRICT;
CREATE INDEX run_position ON run (position);
CREATE INDEX run_variant ON run (variant);
CREATE INDEX run_attachment ON run (attachment) WHERE attachment IS NOT NULL;

CREATE TABLE run_level (
  run INTEGER NOT NULL REFERENCES run (item) DEFERRABLE INITIALLY DEFERRED,
  factor TEXT NOT NULL CHECK (factor <> '' AND instr(factor, char(0)) = 0),
  level TEXT CHECK (instr(level, char(0)) = 0),
  PRIMARY KEY (run, factor)
) STRICT, WITHOUT ROWID;

CREATE TABLE phase (
  id INTEGER PRIMARY KEY,
  run INTEGER NOT NULL REFERENCES run (item) DEFERRABLE INITIALLY DEFERRED,
  name TEXT NOT NULL,
  timing TEXT NOT NULL CHECK (timing IN ('time', 'dateTime', 'utcDateTime', 'duration')),
  source_row INTEGER CHECK (source_row > 0),
  CHECK ((id = run * 8 + CASE name WHEN 'cold-start' THEN 0 WHEN 'hot-start' THEN 1 WHEN 'simmer' THEN 2
    WHEN 'high-power' THEN 3 WHEN 'medium-power' THEN 4 WHEN 'low-power' THEN 5 END) IS TRUE)
) STRICT;
CREATE INDEX phase_run ON phase (run);

CREATE TABLE reading (
  phase INTEGER NOT NULL REFERENCES phase (id) DEFERRABLE INITIALLY DEFERRED,
  "column" TEXT NOT NULL CHECK ("column" <> '' AND instr("column", char(0)) = 0),
  act INTEGER NOT NULL CHECK (act BETWEEN 1 AND 1000000000000),
  value REAL NOT NULL CHECK (abs(value) <= 1e12),
  PRIMARY KEY (phase, "column"),
  CHECK (value >= 0 OR substr("column", -2) <> '_g')
) STRICT, WITHOUT ROWID;
CREATE INDEX reading_act ON reading (act);

CREATE TABLE phase_text (
  phase INTEGER NOT NULL REFERENCES phase (id) DEFERRABLE INITIALLY DEFERRED,
  "column" TEXT NOT NULL CHECK ("column" <> '' AND instr("column", char(0)) = 0),
  position INTEGER NOT NULL CHECK (position >= 0),
  text TEXT NOT NULL CHECK (instr(text, char(0)) = 0),
  PRIMARY KEY (phase, "column"),
  UNIQUE (phase, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE series (
  item INTEGER PRIMARY KEY CHECK (item BETWEEN 1 AND 1000000000000),
  run INTEGER NOT NULL REFERENCES run (item) DEFERRABLE INITIALLY DEFERRED,
  name TEXT NOT NULL CHECK (name <> '' AND instr(name, char(0)) = 0),
  unit TEXT NOT NULL CHECK (instr(unit, char(0)) = 0),
  minutes BLOB NOT NULL CHECK (length(minutes) % 8 = 0),
  "values" BLOB NOT NULL,
  seal TEXT NOT NULL CHECK (length(seal) = 64),
  CHECK (length("values") = length(minutes))
) STRICT;
CREATE INDEX series_run ON series (run);

CREATE TABLE remark (
  item INTEGER PRIMARY KEY CHECK (item BETWEEN 1 AND 1000000000000),
  kind TEXT NOT NULL CHECK (kind IN ('assumed', 'question', 'rowLeftOut')),
  run INTEGER REFERENCES run (item) DEFERRABLE INITIALLY DEFERRED,
  value TEXT NOT NULL CHECK (json_valid(value))
) STRICT;
CREATE INDEX remark_run ON remark (run) WHERE run IS NOT NULL;

CREATE TABLE counter (
  subject TEXT PRIMARY KEY NOT NULL
    CHECK (subject IN ('variant', 'fuel', 'pot', 'instrument', 'attachment', 'remark', 'series', 'run', 'act')),
  next INTEGER NOT NULL CHECK (next BETWEEN 1 AND 1000000000001),
  seal TEXT NOT NULL CHECK (length(seal) = 64)
) STRICT, WITHOUT ROWID;

CREATE TABLE migration (
  number INTEGER PRIMARY KEY CHECK (number > 0),
  checksum TEXT NOT NULL CHECK (length(checksum) = 64 AND checksum NOT GLOB '*[^0-9a-f]*'),
  at TEXT NOT NULL CHECK (at <> ''),
  program TEXT NOT NULL CHECK (program <> '' AND instr(program, char(0)) = 0)
) STRICT;

CREATE TABLE change (
  id INTEGER PRIMARY KEY CHECK (id > 0),
  edit INTEGER NOT NULL CHECK (edit > 0),
  step INTEGER NOT NULL CHECK (step >= 0),
  at TEXT NOT NULL CHECK (at <> ''),
  who TEXT NOT NULL CHECK (who <> '' AND instr(who, char(0)) = 0),
  way TEXT NOT NULL CHECK (way IN ('edit', 'undo', 'redo')),
  of_edit INTEGER CHECK (of_edit > 0 AND of_edit < edit),
  what TEXT NOT NULL CHECK (what <> '' AND instr(what, char(0)) = 0),
  about TEXT NOT NULL CHECK (json_valid(about)),
  why TEXT CHECK (why <> '' AND instr(why, char(0)) = 0),
  subject TEXT NOT NULL CHECK (subject IN ('study', 'setting', 'variant', 'fuel', 'pot', 'instrument', 'attachment', 'remark',
    'series', 'run', 'runField', 'phase', 'timing', 'reading', 'text')),
  item INTEGER CHECK (item > 0),
  phase TEXT CHECK (phase IN ('cold-start', 'hot-start', 'simmer', 'high-power', 'medium-power', 'low-power')),
  field TEXT CHECK (field <> '' AND instr(field, char(0)) = 0),
  "before" TEXT CHECK (json_valid("before")),
  "after" TEXT CHECK (json_valid("after")),
  place INTEGER CHECK (place >= 0),
  seal TEXT NOT NULL CHECK (length(seal) = 64),
  CHECK ((of_edit IS NULL) = (way = 'edit')),
  CHECK ("before" IS NOT NULL OR "after" IS NOT NULL),
  UNIQUE (edit, step)
) STRICT;
CREATE INDEX change_item ON change (item, subject);
CREATE INDEX change_edit ON change (edit, way, of_edit) WHERE step = 0;

CREATE TRIGGER change_update BEFORE UPDATE ON change BEGIN
  SELECT RAISE (ABORT, 'the record is only added to');
END;
CREATE TRIGGER change_delete BEFORE DELETE ON change BEGIN
  SELECT RAISE (ABORT, 'the record is only added to');
END;
CREATE TRIGGER change_insert BEFORE INSERT ON change
WHEN NEW.id IS NOT (SELECT coalesce(max(id), 0) + 1 FROM change)
  OR EXISTS (SELECT 1 FROM change WHERE edit = NEW.edit AND step = NEW.step)
BEGIN
  SELECT RAISE (ABORT, 'the record is only added to');
END;

CREATE TRIGGER reading_insert AFTER INSERT ON reading
WHEN EXISTS (SELECT 1 FROM reading WHERE act = NEW.act AND value <> NEW.value)
  AND NOT EXISTS (SELECT 1 FROM conflict WHERE subject = 'act' AND number = NEW.act)
BEGIN
  INSERT INTO conflict (subject, number) VALUES ('act', NEW.act);
END;
CREATE TRIGGER reading_update AFTER UPDATE OF act, value ON reading BEGIN
  INSERT INTO conflict (subject, number) SELECT 'act', NEW.act
  WHERE EXISTS (SELECT 1 FROM reading WHERE act = NEW.act AND value <> NEW.value)
    AND NOT EXISTS (SELECT 1 FROM conflict WHERE subject = 'act' AND number = NEW.act);
  DELETE FROM conflict WHERE subject = 'act' AND number IN (OLD.act, NEW.act)
    AND (SELECT count(DISTINCT value) FROM reading WHERE act = conflict.number) < 2;
END;
CREATE TRIGGER reading_delete AFTER DELETE ON reading
WHEN EXISTS (SELECT 1 FROM conflict WHERE subject = 'act' AND number = OLD.act)
BEGIN
  DELETE FROM conflict WHERE subject = 'act' AND number = OLD.act
    AND (SELECT count(DISTINCT value) FROM reading WHERE act = OLD.act) < 2;
END;

CREATE TRIGGER run_insert AFTER INSERT ON run
WHEN EXISTS (SELECT 1 FROM run WHERE position = NEW.position AND item <> NEW.item)
  AND NOT EXISTS (SELECT 1 FROM conflict WHERE subject = 'run' AND number = NEW.position)
BEGIN
  INSERT INTO conflict (subject, number) VALUES ('run', NEW.position);
END;
CREATE TRIGGER run_update AFTER UPDATE OF position ON run BEGIN
  INSERT INTO conflict (subject, number) SELECT 'run', NEW.position
  WHERE EXISTS (SELECT 1 FROM run WHERE position = NEW.position AND item <> NEW.item)
    AND NOT EXISTS (SELECT 1 FROM conflict WHERE subject = 'run' AND number = NEW.position);
  DELETE FROM conflict WHERE subject = 'run' AND number = OLD.position
    AND (SELECT count(*) FROM run WHERE position = OLD.position) < 2;
END;
CREATE TRIGGER run_delete AFTER DELETE ON run
WHEN EXISTS (SELECT 1 FROM conflict WHERE subject = 'run' AND number = OLD.position)
BEGIN
  DELETE FROM conflict WHERE subject = 'run' AND number = OLD.position
    AND (SELECT count(*) FROM run WHERE position = OLD.position) < 2;
END;

CREATE TRIGGER variant_insert AFTER INSERT ON variant
WHEN EXISTS (SELECT 1 FROM variant WHERE position = NEW.position AND item <> NEW.item)
  AND NOT EXISTS (SELECT 1 FROM conflict WHERE subject = 'variant' AND number = NEW.position)
BEGIN
  INSERT INTO conflict (subject, number) VALUES ('variant', NEW.position);
END;
CREATE TRIGGER variant_update AFTER UPDATE OF position ON variant BEGIN
  INSERT INTO conflict (subject, number) SELECT 'variant', NEW.position
  WHERE EXISTS (SELECT 1 FROM variant WHERE position = NEW.position AND item <> NEW.item)
    AND NOT EXISTS (SELECT 1 FROM conflict WHERE subject = 'variant' AND number = NEW.position);
  DELETE FROM conflict WHERE subject = 'variant' AND number = OLD.position
    AND (SELECT count(*) FROM variant WHERE position = OLD.position) < 2;
END;
CREATE TRIGGER variant_delete AFTER DELETE ON variant
WHEN EXISTS (SELECT 1 FROM conflict WHERE subject = 'variant' AND number = OLD.position)
BEGIN
  DELETE FROM conflict WHERE subject = 'variant' AND number = OLD.position
    AND (SELECT count(*) FROM variant WHERE position = OLD.position) < 2;
END;
`;
