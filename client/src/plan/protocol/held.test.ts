import { describe, expect, it } from "vitest";
import type { Caution, Deviation } from "../../wire/protocols";
import { sorted, withoutKeys } from "./held";

const deviation = (sentence: string, known: boolean): Deviation => ({
  what: "",
  sentence,
  size: known ? 1 : null,
  tolerance: null,
  unit: "",
  source: "",
  known,
});

const caution = (sentence: string, exceeded: boolean): Caution => ({
  about: "",
  sentence,
  size: 1,
  low: 1,
  high: 1,
  limit: 0,
  unit: "",
  source: "",
  exceeded,
});

describe("a source on a screen", () => {
  it("is told without its key", () => {
    expect(withoutKeys("SCAA, Cupping Standards [SCAA-standards], read; sieve ASTM E11 [ASTM-E11], from memory")).toBe(
      "SCAA, Cupping Standards, read; sieve ASTM E11, from memory",
    );
    expect(withoutKeys("ours")).toBe("ours");
  });
});

describe("what a plan is held against", () => {
  it("tells apart what is off, what nobody knows, and what goes beyond a limit", () => {
    const held = sorted(
      [deviation("ratio", true), deviation("rest", false)],
      [caution("time", false), caution("hot", true)],
    );

    expect(held).toEqual({ off: ["ratio"], unknown: ["rest"], exceeded: ["hot"], rest: ["time"] });
  });
});
