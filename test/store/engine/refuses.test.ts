import { afterAll, beforeAll, expect, test } from "vitest";
import { Connection } from "../../../app/store/schema/connection.ts";
import { newPaths, sampleStudy } from "./sample.ts";

const path = newPaths()();
let connection: Connection;

beforeAll(() => {
  sampleStudy(path).close();
  connection = new Connection(path, false);
});
afterAll(() => connection.close(false));

const seal = `'${"a".repeat(64)}'`;
const reading = (column: string, act: string, value: string, phase = "8"): string =>
  `INSERT INTO reading (phase, "column", act, value) VALUES (${phase}, ${column}, ${act}, ${value})`;
const change = (columns: string, values: string): string =>
  `INSERT INTO change (id, edit, step, at, who, what, about, subject, seal, ${columns})
   SELECT max(id) + 1, max(edit) + 1, 0, 't', 'w', 'x', '{}', 'setting', ${seal}, ${values} FROM change`;
const goodChange = change(`way, field, "after"`, `'edit', 'f', '1'`);

/** What the file itself must refuse, by which rule of it, whoever writes. */
const refused: readonly (readonly [string, string, RegExp])[] = [
  [
    "a second study",
    "INSERT INTO study SELECT 2, identity, name, method, confidence, is_example, created_at, created_by, runs, seal FROM study",
    /CHECK/,
  ],
  ["a study without a name", "UPDATE study SET name = ''", /CHECK/],
  ["a name with NUL", "UPDATE study SET name = 'a' || char(0) || 'b'", /CHECK/],
  ["an unknown method", "UPDATE study SET method = 'other'", /CHECK/],
  ["confidence below a half", "UPDATE study SET confidence = 0.49", /CHECK/],
  ["confidence of one", "UPDATE study SET confidence = 1", /CHECK/],
  ["confidence as text", "UPDATE study SET confidence = 'high'", /REAL/],
  ["a short seal", "UPDATE study SET seal = 'ab'", /CHECK/],
  ["a variant's empty name", "UPDATE variant SET name = ''", /CHECK/],
  ["a position below zero", "UPDATE variant SET position = -1", /CHECK/],
  ["a position twice among variants", "UPDATE variant SET position = 0 WHERE item = 2", /FOREIGN KEY/],
  ["a position twice among runs", "UPDATE run SET position = 0 WHERE item = 2", /FOREIGN KEY/],
  [
    "another run at a position",
    `INSERT INTO run (item, name, position, variant, method, seal) VALUES (9, 'x', 1, 1, 'wbt', ${seal})`,
    /FOREIGN KEY/,
  ],
  ["item number 0", "INSERT INTO variant VALUES (0, 'x', 9)", /CHECK/],
  ["a level of no factor", "INSERT INTO variant_level VALUES (1, '', 'x')", /CHECK/],
  ["a level of no variant", "INSERT INTO variant_level VALUES (77, 'f', 'x')", /FOREIGN KEY/],
  ["a level twice", "INSERT INTO variant_level VALUES (1, 'pot', 'x')", /UNIQUE/],
  ["a fuel that is not JSON", "UPDATE fuel SET value = '{'", /CHECK/],
  ["a pot without a name", "UPDATE pot SET name = ''", /CHECK/],
  ["an instrument that is not JSON", "UPDATE instrument SET value = 'x'", /CHECK/],
  ["a setting that is not JSON", "UPDATE setting SET value = ''", /CHECK/],
  ["a digest of 63 letters", `UPDATE attachment SET sha256 = '${"a".repeat(63)}'`, /CHECK/],
  ["a digest that is not hexadecimal", `UPDATE attachment SET sha256 = '${"g".repeat(64)}'`, /CHECK/],
  ["an attachment in use removed", "DELETE FROM attachment", /FOREIGN KEY/],
  ["a variant in use removed", "DELETE FROM variant WHERE item = 2", /FOREIGN KEY/],
  ["a run of no variant", "UPDATE run SET variant = 9", /FOREIGN KEY/],
  ["a run of no attachment", "UPDATE run SET attachment = 9", /FOREIGN KEY/],
  ["a run without a name", "UPDATE run SET name = ''", /CHECK/],
  ["a run's unknown method", "UPDATE run SET method = 'both'", /CHECK/],
  ["an empty reason", "UPDATE run SET left_out = ''", /CHECK/],
  ["an order that is not finite", "UPDATE run SET run_order = 9e999", /CHECK/],
  ["a run in use removed", "DELETE FROM run WHERE item = 1", /FOREIGN KEY/],
  ["a level of no run", "INSERT INTO run_level VALUES (77, 'f', 'x')", /FOREIGN KEY/],
  ["an unknown phase", "INSERT INTO phase VALUES (14, 1, 'boil', 'time', NULL)", /CHECK/],
  ["a phase under another's number", "INSERT INTO phase VALUES (14, 1, 'hot-start', 'time', NULL)", /CHECK/],
  ["a phase of no run", "INSERT INTO phase VALUES (800, 100, 'cold-start', 'time', NULL)", /FOREIGN KEY/],
  ["a phase twice", "INSERT INTO phase VALUES (8, 1, 'cold-start', 'time', NULL)", /UNIQUE/],
  ["an unknown timing", "UPDATE phase SET timing = 'guess'", /CHECK/],
  ["row 0 of a file", "UPDATE phase SET source_row = 0", /CHECK/],
  ["a phase with readings removed", "DELETE FROM phase WHERE id = 8", /FOREIGN KEY/],
  ["a reading of no phase", reading("'x'", "90", "1", "9999"), /FOREIGN KEY/],
  ["a reading of no column", reading("''", "90", "1"), /CHECK/],
  ["a reading twice", reading("'fuel_start_g'", "1", "900.25"), /UNIQUE/],
  ["a mass below zero", reading("'char_g'", "90", "-0.1"), /CHECK/],
  ["a value beyond 1e12", reading("'x'", "90", "1.1e12"), /CHECK/],
  ["an infinite value", reading("'x'", "90", "-9e999"), /CHECK/],
  ["no value", reading("'x'", "90", "NULL"), /NOT NULL/],
  ["a value as text", reading("'x'", "90", "'much'"), /REAL/],
  ["act 0", reading("'x'", "0", "1"), /CHECK/],
  ["two values of one act", reading("'x'", "1", "900.26"), /FOREIGN KEY/],
  ["one value of a shared act changed alone", "UPDATE reading SET value = 5 WHERE phase = 16", /FOREIGN KEY/],
  ["a text of no phase", "INSERT INTO phase_text VALUES (9999, 'x', 0, 'y')", /FOREIGN KEY/],
  ["a text with NUL", "INSERT INTO phase_text VALUES (8, 'x', 7, 'a' || char(0))", /CHECK/],
  ["two texts at a position", "INSERT INTO phase_text VALUES (8, 'x', 0, 'y')", /UNIQUE/],
  ["a text as a blob", "INSERT INTO phase_text VALUES (8, 'x', 7, x'00')", /TEXT/],
  ["a series of no run", "UPDATE series SET run = 9", /FOREIGN KEY/],
  ["half a sample", "UPDATE series SET minutes = x'00', \"values\" = x'00'", /CHECK/],
  ["samples without times", "UPDATE series SET \"values\" = x''", /CHECK/],
  ["a remark of no run", "UPDATE remark SET run = 9", /FOREIGN KEY/],
  ["an unknown remark", "UPDATE remark SET kind = 'joke'", /CHECK/],
  ["an unknown counter", `INSERT INTO counter VALUES ('cat', 1, ${seal})`, /CHECK/],
  ["a counter at 0", "UPDATE counter SET next = 0", /CHECK/],
  ["migration 0", `INSERT INTO migration VALUES (0, ${seal}, 't', 'p')`, /CHECK/],
  ["a conflict that stays", "INSERT INTO conflict (subject, number) VALUES ('act', 1)", /FOREIGN KEY/],
  ["a conflict that points at the study", "INSERT INTO conflict VALUES ('act', 1, 1)", /CHECK/],
  ["a changed line of the record", "UPDATE change SET who = 'Eve'", /only added to/],
  ["a line of the record removed", "DELETE FROM change", /only added to/],
  [
    "a line of the record replaced",
    goodChange.replace("INSERT", "INSERT OR REPLACE").replace("max(id) + 1", "1"),
    /only added to/,
  ],
  [
    "a line replaced by edit and step",
    goodChange.replace("INSERT", "INSERT OR REPLACE").replace("max(edit) + 1", "1"),
    /only added to/,
  ],
  ["a line of the record out of turn", goodChange.replace("max(id) + 1", "max(id) + 2"), /only added to/],
  ["an unknown way", change(`way, "after"`, `'guess', '1'`), /CHECK/],
  ["an undo of nothing", change(`way, "after"`, `'undo', '1'`), /CHECK/],
  ["an edit of another", change(`way, of_edit, "after"`, `'edit', 1, '1'`), /CHECK/],
  ["an edit of what is to come", change(`way, of_edit, "after"`, `'undo', 99, '1'`), /CHECK/],
  ["a change of nothing", change("way", "'edit'"), /CHECK/],
  ["a change that is not JSON", change(`way, "after"`, `'edit', 'x'`), /CHECK/],
];

test.each(refused)("the file refuses %s", (_, sql, rule) => {
  expect(() => connection.database.exec(sql)).toThrow(rule);
});

test("the same shapes are taken where nothing is wrong with them, so that it is the fault that is refused", () => {
  const good = [
    "UPDATE study SET name = 'b', confidence = 0.5",
    reading("'x'", "90", "-1"),
    reading("'y'", "1", "900.25"),
    reading("'char_g'", "91", "0"),
    "INSERT INTO phase VALUES (9, 1, 'hot-start', 'time', 1)",
    "INSERT INTO phase_text VALUES (8, 'x', 7, 'y')",
    "UPDATE run SET position = 9 WHERE item = 2",
    goodChange,
  ];
  for (const sql of good) expect(() => connection.database.exec(`BEGIN; ${sql}; ROLLBACK`), sql).not.toThrow();
});

test("within one transaction, places may change hands: positions swapped, a shared act's value changed everywhere", () => {
  const sql = `BEGIN;
    UPDATE run SET position = 1 WHERE item = 1; UPDATE run SET position = 0 WHERE item = 2;
    UPDATE variant SET position = 1 WHERE item = 1; UPDATE variant SET position = 0 WHERE item = 2;
    UPDATE reading SET value = 7 WHERE act = 1;
    COMMIT`;
  expect(() => connection.database.exec(sql)).not.toThrow();
  expect(connection.number("SELECT count(*) FROM conflict")).toBe(0);
});
