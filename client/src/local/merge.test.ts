import { describe, expect, test } from "vitest";
import shared from "../../../tests/contract/merge_cases.json";
import type { Note, Value } from "../wire/types";
import { chance, type Chance } from "./chance.testing";
import { answers, merge, question, sameBody, standing } from "./merge";
import { compareStamps, nextStamp } from "./stamp";

interface Case {
  name: string;
  a: Note[];
  b: Note[];
  merged: string[];
  standing: Record<string, string>;
  answers: string[];
  bodies?: Record<string, Value>;
}

const cases = shared.cases as unknown as Case[];

describe("the cases shared with the server", () => {
  for (const one of cases) {
    for (const [order, a, b] of [["a with b", one.a, one.b], ["b with a", one.b, one.a]] as const) {
      test(`${one.name} (${order})`, () => {
        const merged = merge(a, b);

        expect(merged.map((note) => note.id)).toEqual(one.merged);
        expect(Object.fromEntries([...standing(merged)].map(([asked, note]) => [asked, note.id]))).toEqual(one.standing);
        expect([...answers(merged).keys()].sort()).toEqual([...one.answers].sort());
        for (const [id, value] of Object.entries(one.bodies ?? {})) {
          expect(merged.find((note) => note.id === id)?.value).toEqual(value);
        }
        for (const note of merged) expect([...a, ...b]).toContainEqual(note);
      });
    }
  }
});

/** Few ids, questions and counters, so that twins and rivals are common; clocks are anything. */
function someNotes(dice: Chance): Note[] {
  return Array.from({ length: dice.below(10) }, () => ({
    id: `n${dice.below(8)}`,
    place: dice.one(["274", "591"]),
    pass: dice.one(["aroma", "flavour"]),
    field: "words",
    value: dice.one<Value>([null, "plum", "", 0, 3.5, [1, 2], { l: 0.5, a: 0, b: 0.1 }, { b: 0.1, a: 0, l: 0.5 }]),
    stamp: { counter: 1 + dice.below(4), device: dice.one(["a", "b", "B"]) },
    written_at: dice.below(3),
  }));
}

describe("on 500 random triples of sets, merging", () => {
  const triples = Array.from({ length: 500 }, (_, seed) => {
    const dice = chance(seed);
    return [someNotes(dice), someNotes(dice), someNotes(dice)] as const;
  });

  test("is commutative, associative and idempotent", () => {
    for (const [a, b, c] of triples) {
      expect(merge(a, b)).toEqual(merge(b, a));
      expect(merge(merge(a, b), c)).toEqual(merge(a, merge(b, c)));
      expect(merge(merge(a, b), b)).toEqual(merge(a, b));
    }
  });

  test("loses and invents no note", () => {
    for (const [a, b] of triples) {
      expect(new Set(merge(a, b).map((note) => note.id))).toEqual(new Set([...a, ...b].map((note) => note.id)));
    }
  });

  test("gives the same standing notes whatever the clocks say", () => {
    const dice = chance(0);
    for (const [a] of triples) {
      const kept = merge(a, []);
      const skewed = kept.map((note) => ({ ...note, written_at: dice.below(2 ** 53) }));
      const held = (notes: Note[]) => [...standing(notes)].map(([asked, note]) => [asked, note.id]).sort();
      expect(held(merge(skewed, []))).toEqual(held(kept));
    }
  });
});

test("the order of a colour's parts makes no other note", () => {
  const note = { id: "n", place: "1", pass: "colour", field: "colour", stamp: { counter: 1, device: "a" }, written_at: 0 };

  expect(sameBody({ ...note, value: { l: 1, a: 0, b: 0 } }, { ...note, value: { b: 0, a: 0, l: 1 } })).toBe(true);
  expect(sameBody({ ...note, value: { l: 1, a: 0, b: 0 } }, { ...note, value: { l: 1, a: 0, b: 0.1 } })).toBe(false);
});

test("a question is place, pass and field", () => {
  expect(question("274", "flavour", "words")).toBe("274/flavour/words");
});

test("a stamp is above all its device has seen, and counters come before devices", () => {
  expect(nextStamp(41, "phone")).toEqual({ counter: 42, device: "phone" });
  expect(compareStamps({ counter: 10, device: "a" }, { counter: 9, device: "b" })).toBeGreaterThan(0);
  expect(compareStamps({ counter: 9, device: "B" }, { counter: 9, device: "a" })).toBeLessThan(0);
  expect(compareStamps({ counter: 9, device: "a" }, { counter: 9, device: "a" })).toBe(0);
});
