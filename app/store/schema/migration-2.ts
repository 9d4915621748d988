/** Answers to questions, and how far a run on the Bench is, are kept as remarks. */
export const migration2 = `
CREATE TABLE remark_2 (
  item INTEGER PRIMARY KEY CHECK (item BETWEEN 1 AND 1000000000000),
  kind TEXT NOT NULL CHECK (kind IN ('assumed', 'question', 'rowLeftOut', 'answer', 'bench')),
  run INTEGER REFERENCES run (item) DEFERRABLE INITIALLY DEFERRED,
  value TEXT NOT NULL CHECK (json_valid(value))
) STRICT;
INSERT INTO remark_2 (item, kind, run, value) SELECT item, kind, run, value FROM remark;
DROP TABLE remark;
ALTER TABLE remark_2 RENAME TO remark;
CREATE INDEX remark_run ON remark (run) WHERE run IS NOT NULL;
`;
