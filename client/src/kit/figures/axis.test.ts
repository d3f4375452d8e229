import { describe, expect, it } from "vitest";
import { axisOf, digitsFor, fromZero, inWords } from "./axis";

const row = (estimate: number | null, low: number | null = null, high: number | null = null) => ({
  label: "x",
  estimate,
  low,
  high,
});

describe("the axis of a figure", () => {
  it("keeps the ends of a scale that has them", () => {
    const axis = axisOf([row(50, 30, 70)], [0, 100]);
    expect(axis.at(50)).toBe(50);
    expect(axis.ticks[0]?.value).toBe(0);
  });

  it("draws no interval beyond the ends of its scale", () => {
    const axis = axisOf([row(95, 80, 110)], [0, 100]);
    expect(axis.at(110)).toBe(100);
  });

  it("finds ends of its own that hold every interval", () => {
    const axis = axisOf([row(2, -3, 6), row(4, 1, 7.5)], null);
    expect(axis.at(-3)).toBeGreaterThanOrEqual(0);
    expect(axis.at(7.5)).toBeLessThanOrEqual(100);
    expect(axis.at(7.5)).toBeGreaterThan(axis.at(-3));
  });

  it("starts shares at nought and ends them above every interval", () => {
    expect(fromZero([row(18, 16, 20.4), row(9, 8, 11)])).toEqual([0, 25]);
    expect(fromZero([])).toEqual([0, 1]);
  });

  it("does not fall over one number, or none", () => {
    expect(axisOf([row(5)], null).at(5)).toBe(50);
    expect(axisOf([row(null)], null).ticks.length).toBeGreaterThan(0);
  });

  it("says a number with its interval, and alone where there is none", () => {
    expect(inWords(row(6.24, 4.9, 7.51), 1)).toBe("6.2 (4.9 to 7.5)");
    expect(inWords(row(6.24), 1)).toBe("6.2");
    expect(inWords(row(null), 1)).toBe("–");
    expect(digitsFor([0, 100])).toBe(0);
    expect(digitsFor([-1, 1])).toBe(1);
  });
});
