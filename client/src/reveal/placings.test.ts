import { describe, expect, it } from "vitest";
import { asCode, faultAt, missing, nextPlace } from "./placings";

const CODES = ["274", "358", "416"];
const PLACES = ["1", "2", "3"];

describe("entering what stands where", () => {
  it("takes digits only, three at most", () => {
    expect(asCode(" 2a74 ")).toBe("274");
    expect(asCode("27453")).toBe("274");
  });

  it("says at once that two places have the same code, and which", () => {
    const entered = { "1": "274", "3": "274" };
    expect(faultAt("3", entered, CODES)).toEqual({ kind: "twice", other: "1" });
    expect(faultAt("1", entered, CODES)).toEqual({ kind: "twice", other: "3" });
  });

  it("says at once that no bowl carries a code, but not while it is being typed", () => {
    expect(faultAt("1", { "1": "999" }, CODES)).toEqual({ kind: "noSuch", other: "" });
    expect(faultAt("1", { "1": "99" }, CODES)).toBeNull();
  });

  it("is complete only when every place has its own code", () => {
    expect(missing(PLACES, { "1": "274", "2": "358" }, CODES)).toBe(1);
    expect(missing(PLACES, { "1": "274", "2": "274", "3": "416" }, CODES)).toBe(2);
    expect(missing(PLACES, { "1": "274", "2": "358", "3": "416" }, CODES)).toBe(0);
  });

  it("moves on to the next place without a code, round the table", () => {
    expect(nextPlace(PLACES, { "2": "358" }, "2")).toBe("3");
    expect(nextPlace(PLACES, { "2": "358", "3": "416" }, "3")).toBe("1");
    expect(nextPlace(PLACES, { "1": "274", "2": "358", "3": "416" }, "1")).toBeNull();
  });
});
