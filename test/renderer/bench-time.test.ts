import { describe, expect, it } from "vitest";
import { clockText, dateAsRecorded, timeAsRecorded } from "../../renderer/state/bench-time.ts";

describe("a time of day", () => {
  it.each([
    ["1042", "10:42"],
    ["942", "09:42"],
    ["104215", "10:42:15"],
    ["94215", "09:42:15"],
    ["10.42", "10:42"],
    ["10,42,15", "10:42:15"],
    ["9:42", "09:42"],
    ["10:42:15", "10:42:15"],
    [" 10:42 ", "10:42"],
  ])("typed in haste is written as the record has it: %s", (typed, written) => {
    expect(timeAsRecorded(typed)).toBe(written);
  });

  it.each(["12", "1o42", "2026-03-14T10:42", "10:4", "1042151", "soon"])(
    "of which it is not sure stays: %s",
    (typed) => {
      expect(timeAsRecorded(typed)).toBe(typed);
    },
  );
});

describe("a day", () => {
  it.each([
    ["20260314", "2026-03-14"],
    ["2026.3.14", "2026-03-14"],
    ["2026-03-14", "2026-03-14"],
    // Which of them is the month is not for the program to say.
    ["3/4/2026", "3/4/2026"],
  ])("is written year, month, day: %s", (typed, written) => {
    expect(dateAsRecorded(typed)).toBe(written);
  });
});

describe("the clock", () => {
  it.each([
    [0, "0:00"],
    [192, "3:12"],
    [3599, "59:59"],
    [3723, "1:02:03"],
  ])("shows %d seconds as %s", (seconds, text) => {
    expect(clockText(seconds)).toBe(text);
  });
});
