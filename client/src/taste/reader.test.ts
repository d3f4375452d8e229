import { expect, test } from "vitest";
import type { Correction, OwnWord } from "../wire/types";
import { loadLexicon } from "../words/reading/lexicon";
import { Reader } from "./reader";

const SODA: OwnWord = { concept: "quince_soda", label: "quince soda", parents: ["quince"], forms: ["zonk fizz"] };
const lexicon = await loadLexicon();

function said(surface: string, concept: string | null, counter = 1): Correction {
  return { id: `c-${counter}`, surface, concept, stamp: { counter, device: "d" }, written_at: 0 };
}

const read = (reader: Reader, text: string, asked = "") => reader.chips(text, asked).map((chip) => [chip.surface, chip.concept]);

test("a note is read into chips", () => {
  expect(read(new Reader(lexicon, [], []), "ripe plum, zonky")).toContainEqual(["zonky", null]);
  expect(read(new Reader(lexicon, [], []), "plum")).toEqual([["plum", "plum"]]);
});

test("the house's own words are read and found", () => {
  const own = [SODA];
  const reader = new Reader(lexicon, own, []);
  expect(read(reader, "zonk fizz")).toEqual([["zonk fizz", "quince_soda"]]);
  expect(reader.find("zonk").map((concept) => concept.id)).toEqual(["quince_soda"]);
});

test("what the taster has said goes before the lexicon, and can be taken back", () => {
  const first = said("Zonky", "earth", 1);
  expect(read(new Reader(lexicon, [], [first]), "zonky plum")).toEqual([["zonky", "earth"], ["plum", "plum"]]);
  expect(read(new Reader(lexicon, [], [first, said("zonky", null, 2)]), "zonky plum")).toEqual([["zonky", null], ["plum", "plum"]]);
});

test("words that were said to mean nothing stay in sight as such", () => {
  const reader = new Reader(lexicon, [], [said("plum", "none")]);
  expect(reader.chips("Plum, tea", "")).toMatchObject([
    { surface: "Plum", concept: null, sureness: "unread", corrected: true },
    { concept: "tea", corrected: false },
  ]);
});

test("what was asked decides between two meanings", () => {
  expect(read(new Reader(lexicon, [], []), "light", "touch")).toEqual([["light", "light_body"]]);
});

test("nothing is offered before something is typed, and little after", () => {
  const reader = new Reader(lexicon, [], []);
  expect(reader.find("")).toEqual([]);
  expect(reader.find("a").length).toBeLessThanOrEqual(6);
  expect(reader.find("dark choc")[0]?.id).toBe("dark_chocolate");
});
