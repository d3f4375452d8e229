import { describe, expect, it } from "vitest";
import { agoText, dateText } from "./days";

describe("how long ago", () => {
  it("is rough on purpose", () => {
    expect(agoText(0, 5000)).toBe("just now");
    expect(agoText(0, 45_000)).toBe("under a minute ago");
    expect(agoText(0, 7 * 60_000 + 59_000)).toBe("7 min ago");
  });

  it("never lies in the future when the clocks disagree", () => {
    expect(agoText(9000, 5000)).toBe("just now");
  });
});

describe("a day", () => {
  it("is the one that was written, also west of Greenwich", () => {
    expect(dateText("2026-11-01")).toBe("1 Nov 2026");
  });
});
