import { describe, expect, it } from "vitest";
import type { WaterJudgement } from "../../wire/water";
import { lineOf, rowsOfRange, rowsOfTarget, type BandRow } from "./bands";

const CALCIUM: BandRow = {
  parameter: "calcium",
  low: 17,
  high: 85,
  target: 68,
  published: true,
  from: 95,
  to: 95,
  words: "",
};

describe("a value on its line", () => {
  it("lies outside the band as far as it does in number", () => {
    const line = lineOf(CALCIUM);
    const [left, right] = line.band;
    const [value] = line.value ?? [0];
    expect((value - right) / (right - left)).toBeCloseTo(10 / 68);
  });

  it("always fits on the line, however far out", () => {
    for (const value of [0, 1, 84, 85, 1000, 50_000]) {
      const at = lineOf({ ...CALCIUM, from: value, to: value }).value?.[0] ?? -1;
      expect(at).toBeGreaterThanOrEqual(0);
      expect(at).toBeLessThanOrEqual(100);
    }
  });

  it("is not drawn when it is not known", () => {
    expect(lineOf({ ...CALCIUM, from: null, to: null }).value).toBeNull();
  });

  it("is drawn as its two ends when only a total is known", () => {
    const [from, to] = lineOf({ ...CALCIUM, from: 0, to: 60 }).value ?? [0, 0];
    expect(from).toBe(0);
    expect(to).toBeGreaterThan(lineOf({ ...CALCIUM, from: 0, to: 60 }).band[0]);
  });

  it("of a pH does not begin at nought", () => {
    const line = lineOf({ ...CALCIUM, parameter: "ph", low: 6.5, high: 7.5, target: 7, from: 7, to: 7 });
    expect(line.ticks[0]?.value).toBe(5);
    expect(line.band[1] - line.band[0]).toBeGreaterThan(20);
  });

  it("has room even for a band that is nothing but nought", () => {
    const line = lineOf({ ...CALCIUM, low: 0, high: 0, target: 0, from: 0, to: 0 });
    expect(line.value).toEqual([0, 0]);
    expect(line.band).toEqual([0, 0]);
  });
});

describe("rows of the picture", () => {
  it("take a judgement as the server words it", () => {
    const judged: WaterJudgement = {
      ...CALCIUM,
      low_value: 95,
      high_value: 95,
      verdict: "above",
      words: "10 above.",
    };
    expect(rowsOfRange([judged])[0]).toMatchObject({ from: 95, to: 95, words: "10 above." });
  });

  it("take a target of one's own with what is measured out", () => {
    const reached = { parameter: "hardness", low: 67.3, high: 68.7, aim: 68, value: 68, miss: 0, measured: 67.9 };
    expect(rowsOfTarget([reached], (one) => `${one.measured}`)[0]).toMatchObject({ target: 68, from: 67.9, words: "67.9" });
  });
});
