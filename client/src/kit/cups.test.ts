import { describe, expect, it } from "vitest";
import { bowlsPerPlace, nextFocus, type CupView } from "./cups";

const cup = (place: string, number: number): CupView => ({ id: `${place}-${number}`, place, number, state: "dry" });

describe("the cups of a table", () => {
  it("counts the bowls at each place in order", () => {
    const cups = [cup("274", 1), cup("274", 2), cup("538", 1)];
    expect(bowlsPerPlace(cups)).toEqual([
      { place: "274", bowls: 2 },
      { place: "538", bowls: 1 },
    ]);
  });

  it("moves the focus around the table and over its end", () => {
    expect(nextFocus("ArrowRight", 4, 5)).toBe(0);
    expect(nextFocus("ArrowLeft", 0, 5)).toBe(4);
    expect(nextFocus("End", 1, 5)).toBe(4);
    expect(nextFocus("Enter", 1, 5)).toBeNull();
  });
});
