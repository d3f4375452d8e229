import { describe, expect, test } from "vitest";
import type { Field, Value } from "../../wire/types";
import { asTyped, typed } from "./typed";

const FIELD: Field = {
  id: "f", kind: "words", label: "F", hint: "", low: 0, high: 15, step: 0.5, low_label: "", high_label: "", choices: ["dry", "drier", "sweet"],
};
const about = { cups: 5, places: ["472", "204", "357"] };
const of = (changes: Partial<Field>, text: string, cups = 5) => typed({ ...FIELD, ...changes }, text, { ...about, cups });

describe.each<[Field["kind"], string, Value, Partial<Field>?]>([
  ["words", "fig & soot", "fig & soot"],
  ["points", "7,25", "7.25", { low: 6, high: 10, step: 0.25 }],
  ["line", "40", 6],
  ["choice", "3", "sweet"],
  ["choice", "s", "sweet"],
  ["choice", "DRY", "dry"],
  ["ticks", "31", [1, 3]],
  ["ticks", "0", []],
  ["ticks", "3", { "3": 1 }, { try_all: true }],
  ["ticks", "3.", { "1": 0, "2": 0, "3": 1, "4": 0, "5": 0 }, { try_all: true }],
  ["ticks", "3m 1c", { "1": 0, "3": 1 }, { try_all: true }],
  ["ticks", "0", {}, { try_all: true }],
  ["cups", "1, 3", [1, 3]],
  ["faults", "0", {}],
  ["faults", "3F 5t", { "3": 4, "5": 2 }],
  ["faults", "3f.", { "1": 0, "2": 0, "3": 4, "4": 0, "5": 0 }],
  ["faults", "1c 3t", { "1": 0, "3": 2 }],
  ["tags", "sweet, dry", ["dry", "sweet"]],
  ["tags", "0", []],
  ["rank", "204 472 357", { "204": 1, "472": 2, "357": 3 }],
  ["rank", "204=472 357", { "204": 1, "472": 1, "357": 2 }, { ties: true }],
  ["odd", "357", "357"],
])("%s typed as %s", (kind, text, value, changes = {}) => {
  test("is an answer", () => expect(of({ kind, ...changes }, text)).toEqual({ value }));

  test("and read back it is typed to the same answer", () => {
    const field = { ...FIELD, kind, ...changes };
    expect(typed(field, asTyped(field, value, about.cups), about)).toEqual({ value });
  });
});

test.each<[Field["kind"], string, Partial<Field>?]>([
  ["points", "7.3", { low: 6, high: 10, step: 0.25 }],
  ["points", "5.75", { low: 6, high: 10, step: 0.25 }],
  ["line", "101"],
  ["line", "x"],
  ["choice", "dr"],
  ["choice", "4"],
  ["ticks", "6"],
  ["ticks", "11"],
  ["cups", "x"],
  ["faults", "3"],
  ["faults", "6f"],
  ["faults", "3f 3t"],
  ["tags", "salty"],
  ["tags", "dry, drier, sweet", { most: 2 }],
  ["rank", "204 204"],
  ["rank", "204 = 472"],
  ["odd", "999"],
  ["colour", "red"],
])("%s typed as %s is refused in a few words", (kind, text, changes = {}) => {
  const found = of({ kind, ...changes }, text);

  expect("wrong" in found && found.wrong.length).toBeGreaterThan(3);
});

test("an empty cell is no answer, of any kind", () => {
  for (const kind of ["points", "line", "faults", "rank", "tags"] as const) expect(of({ kind }, "  ")).toEqual({ value: null });
});

test("from ten cups on, numbers need blanks between them", () => {
  expect(of({ kind: "ticks" }, "1 10", 10)).toEqual({ value: [1, 10] });
});
