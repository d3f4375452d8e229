import { describe, expect, it } from "vitest";
import { stepped } from "./stepped";

const TENTHS = { min: 0.1, max: 1, step: 0.1 };

describe("a step of a number field", () => {
  it("moves by one step without the dust of binary fractions", () => {
    expect(stepped(0.2, 1, TENTHS)).toBe(0.3);
    expect(stepped(0.3, -1, TENTHS)).toBe(0.2);
  });

  it("goes to the next multiple when the value lies between two", () => {
    expect(stepped(207, 1, { min: 50, max: 1000, step: 10 })).toBe(210);
    expect(stepped(207, -1, { min: 50, max: 1000, step: 10 })).toBe(200);
  });

  it("stays within the bounds", () => {
    expect(stepped(1, 1, TENTHS)).toBe(1);
    expect(stepped(0.1, -1, TENTHS)).toBe(0.1);
  });

  it("starts an empty field at the least that is allowed", () => {
    expect(stepped(null, 1, { min: 50, max: 1000, step: 10 })).toBe(50);
  });
});
