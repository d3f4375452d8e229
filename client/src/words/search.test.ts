import { describe, expect, it } from "vitest";
import { lookUp } from "./search";

const CONCEPTS = [
  { id: "black_tea", label: "black tea", forms: ["assam", "breakfast tea"] },
  { id: "tea", label: "tea", forms: ["tealike"] },
  { id: "teak", label: "teak", forms: [] },
  { id: "green_tea", label: "green tea", forms: ["sencha"] },
  { id: "custard", label: "crème brûlée", forms: ["flan"] },
  { id: "plum", label: "plum", forms: ["steak"] },
];
const ids = (typed: string, most?: number) => lookUp(CONCEPTS, typed, most).map((concept) => concept.id);

describe("looking a concept up", () => {
  it("offers nothing before something is typed", () => {
    expect(ids("")).toEqual([]);
    expect(ids("  ?! ")).toEqual([]);
  });

  it("puts what is called so first, then what begins so, then what has such a word", () => {
    expect(ids("tea")).toEqual(["tea", "teak", "black_tea", "green_tea"]);
  });

  it("finds a concept by another way to write it", () => {
    expect(ids("sencha")).toEqual(["green_tea"]);
    expect(ids("breakfast")).toEqual(["black_tea"]);
  });

  it("minds neither case nor accents nor marks between words", () => {
    expect(ids("CREME-bru")).toEqual(["custard"]);
  });

  it("does not find letters in the middle of a word", () => {
    expect(ids("eak")).toEqual([]);
  });

  it("offers no more than asked for", () => {
    expect(ids("te", 2)).toEqual(["tea", "teak"]);
  });
});
