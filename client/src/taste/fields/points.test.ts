import { expect, test } from "vitest";
import { onStep } from "./points";

test("points on the quarter are taken, between them not", () => {
  for (const text of ["6", "6.00", "7.25", "9.75", "10", "8,5"]) expect(onStep(text, 6, 10, 0.25)).toBe(true);
  for (const text of ["7.3", "7.251", "7.2500001"]) expect(onStep(text, 6, 10, 0.25)).toBe(false);
});

test("outside the ends nothing is taken, and neither is anything but a plain number", () => {
  for (const text of ["5.75", "10.25", "-7", "", "seven", "7e0", "0x7", "7.", " 7"]) expect(onStep(text, 6, 10, 0.25)).toBe(false);
});

test("steps are counted from the low end, and decimals are exact", () => {
  expect(onStep("0.3", 0, 1, 0.1)).toBe(true);
  expect(onStep("2", 1, 9, 2)).toBe(false);
  expect(onStep("3", 1, 9, 2)).toBe(true);
});
