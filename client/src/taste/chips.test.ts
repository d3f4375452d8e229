import { describe, expect, it } from "vitest";
import type { Reading, Word } from "../words/reading/reading";
import { chipsOf } from "./chips";

const NOTHING = new Map<string, string>();

function word(text: string, piece: string, changes: Partial<Word> = {}): Word {
  const start = text.indexOf(piece);
  const plain = { certainty: 1, negated: false, degree: "plain", comparison: "", against: "", hedged: false, stage: "" } as const;
  return { concept: piece, label: piece, start, end: start + piece.length, ...plain, ...changes };
}

function reading(text: string, words: Word[], ...unread: string[]): Reading {
  return { text, words, unread: unread.map((piece) => word(text, piece)) };
}

describe("the chips under a note", () => {
  it("stand in the order of the text, read or not", () => {
    const text = "🍑 plum, zonk, tea";
    const chips = chipsOf(reading(text, [word(text, "plum"), word(text, "tea")], "zonk"), NOTHING);
    expect(chips.map((chip) => [chip.surface, chip.concept])).toEqual([["plum", "plum"], ["zonk", null], ["tea", "tea"]]);
  });

  it("say how sure the reading is", () => {
    const text = "plum plumm light zonk";
    const words = [word(text, "plum"), word(text, "plumm", { concept: "b", certainty: 0.8 }), word(text, "light", { certainty: 0.6 })];
    const chips = chipsOf(reading(text, words, "zonk"), NOTHING);
    expect(chips.map((chip) => chip.sureness)).toEqual(["sure", "likely", "guess", "unread"]);
  });

  it("show one meaning once, but what is denied apart from what is there", () => {
    const text = "plum, plum, no plum";
    const words = [word(text, "plum"), word(text, "plum"), word(text, "plum", { negated: true })];
    expect(chipsOf(reading(text, words), NOTHING).map((chip) => chip.said.negated)).toEqual([false, true]);
  });

  it("mark what the taster has corrected, however it was typed", () => {
    const text = "Grippy";
    const chips = chipsOf(reading(text, [word(text, "Grippy", { concept: "drying", label: "drying" })]), new Map([["grippy", "drying"]]));
    expect(chips).toMatchObject([{ surface: "Grippy", label: "drying", corrected: true }]);
  });

  it("keep words that were said to mean nothing in sight, so that it can be taken back", () => {
    const text = "🍑 The Date was, plum";
    const chips = chipsOf(reading(text, [word(text, "plum")]), new Map([["date", "none"], ["the date", "none"]]));
    expect(chips.map((chip) => [chip.surface, chip.sureness, chip.corrected])).toEqual([
      ["The Date", "unread", true],
      ["Date", "unread", true],
      ["plum", "sure", false],
    ]);
  });

  it("tell what the note says of a word, and of each time in the cup", () => {
    const text = "plum";
    const words = [word(text, "plum", { degree: "slight", stage: "first" }), word(text, "plum", { stage: "cooling" })];
    const said = chipsOf(reading(text, words), NOTHING).map((chip) => chip.said);
    expect(said).toMatchObject([{ degree: "slight", stage: "first" }, { degree: "plain", stage: "cooling" }]);
  });

  it("are none for a note in which nothing says anything", () => {
    expect(chipsOf(reading("the", []), NOTHING)).toEqual([]);
  });
});
