import { describe, expect, it } from "vitest";
import { celsius, fahrenheit, fluidOunces, ounces } from "./units";

describe("units", () => {
  it("are exact by definition, as on the server", () => {
    expect(ounces(28.349523125)).toBe(1);
    expect(fluidOunces(207.0147069375)).toBeCloseTo(7, 12);
    expect(fahrenheit(93)).toBeCloseTo(199.4, 12);
    expect(celsius(212)).toBe(100);
  });

  it("come back from there", () => {
    for (const degrees of [-40, 0, 37.8, 93, 100]) expect(celsius(fahrenheit(degrees))).toBeCloseTo(degrees, 12);
  });
});
