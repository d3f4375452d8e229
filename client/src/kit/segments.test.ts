import { describe, expect, it } from "vitest";
import type { Word } from "../wire/types";
import { segments } from "./segments";

const word = (start: number, end: number, label = "x"): Word => ({
  concept: label,
  label,
  start,
  end,
  certainty: 1,
  negated: false,
  degree: "plain",
  comparison: "",
  against: "",
  hedged: false,
  stage: "",
});

describe("a text cut at the words read in it", () => {
  it("keeps every character", () => {
    const text = "apricot, black tea!";
    const pieces = segments({ text, words: [word(9, 18), word(0, 7)], unread: [] });
    expect(pieces.map((piece) => piece.text)).toEqual(["apricot", ", ", "black tea", "!"]);
    expect(pieces.map((piece) => piece.word !== null)).toEqual([true, false, true, false]);
  });

  it("counts an emoji as one, as the server does", () => {
    const pieces = segments({ text: "🍑 peach", words: [word(2, 7)], unread: [] });
    expect(pieces.map((piece) => piece.text)).toEqual(["🍑 ", "peach"]);
  });

  it("shows the longer of two words that overlap", () => {
    const pieces = segments({ text: "black tea", words: [word(6, 9, "tea"), word(0, 9, "black tea")], unread: [] });
    expect(pieces).toHaveLength(1);
    expect(pieces[0]?.word?.label).toBe("black tea");
  });
});
