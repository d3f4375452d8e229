import { expect, test } from "vitest";
import { loadLexicon } from "./reading/lexicon";
import { readNote } from "./reading/reading";
import { saidOf } from "./said_en";

const lexicon = await loadLexicon();
const told = (note: string): string[] => readNote(note, lexicon).words.map((word) => saidOf(word, word.label));

test.each([
  ["plum", ["plum"]],
  ["a hint of plum", ["a hint of plum"]],
  ["maybe plum", ["maybe plum"]],
  ["no plum", ["not plum"]],
  ["plum as it cools", ["plum as it cools"]],
  ["maybe a touch of plum on the finish", ["maybe a little plum on the finish"]],
])("a note says of a word what was written: %s", (note, words) => {
  expect(told(note)).toEqual(words);
});

test("a comparison stands for the degree and names the other cup", () => {
  const plain = { negated: false, degree: "marked", comparison: "more", against: "B", hedged: false, stage: "" } as const;

  expect(saidOf(plain, "sweet")).toBe("more sweet than B");
  expect(saidOf({ ...plain, degree: "plain", comparison: "other" }, "sweet")).toBe("another cup: sweet");
});

test("a word that tells the finish is not told so twice", () => {
  const plain = { negated: false, degree: "plain", comparison: "", against: "", hedged: false, stage: "finish" } as const;

  expect(saidOf(plain, "long finish")).toBe("long finish");
  expect(saidOf(plain, "cocoa")).toBe("cocoa on the finish");
});
