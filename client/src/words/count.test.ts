import { describe, expect, it } from "vitest";
import { count, decimals, signed, water } from "./count";

describe("numbers in words", () => {
  it("count one and many, thousands apart", () => {
    expect(count(1, "bowl")).toBe("1\u00a0bowl");
    expect(count(1264, "taster")).toBe("1,264\u00a0tasters");
    expect(count(0, "coffee")).toBe("0\u00a0coffees");
  });

  it("tell water in mL below a litre, where tenths would hide the rest", () => {
    expect(water(345)).toBe("350\u00a0mL");
    expect(water(300)).toBe("300\u00a0mL");
    expect(water(1380)).toBe("1.4\u00a0L");
  });

  it("carry a true minus, and none at nought", () => {
    expect(signed(2.6)).toBe("+3");
    expect(signed(-2.6)).toBe("−3");
    expect(signed(-0.2)).toBe("0");
    expect(decimals(-0.18, 2)).toBe("−0.18");
  });
});
