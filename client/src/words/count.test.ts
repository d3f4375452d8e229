import { describe, expect, it } from "vitest";
import { count, signed } from "./count";

describe("numbers in words", () => {
  it("count one and many, thousands apart", () => {
    expect(count(1, "bowl")).toBe("1\u00a0bowl");
    expect(count(1264, "taster")).toBe("1,264\u00a0tasters");
    expect(count(0, "coffee")).toBe("0\u00a0coffees");
  });

  it("carry a true minus, and none at nought", () => {
    expect(signed(2.6)).toBe("+3");
    expect(signed(-2.6)).toBe("−3");
    expect(signed(-0.2)).toBe("0");
  });
});
