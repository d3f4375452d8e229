import { describe, expect, it } from "vitest";
import { asElapsed } from "./elapsed";

describe("time gone by", () => {
  it("shows a second only when it is over", () => {
    expect(asElapsed(999)).toBe("0:00");
    expect(asElapsed(252_999)).toBe("4:12");
    expect(asElapsed(3_600_000)).toBe("60:00");
  });

  it("does not run backwards when clocks disagree", () => {
    expect(asElapsed(-400)).toBe("0:00");
  });
});
