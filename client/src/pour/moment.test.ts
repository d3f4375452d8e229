import { describe, expect, it } from "vitest";
import type { Bowl } from "../wire/types";
import { runSheet } from "./clock";
import { bowlAt, bowlToMark, cupsAt, momentOf } from "./moment";

const START = 1_000_000;
const S = 1000;
const BOWLS: Bowl[] = [
  { place: "274", number: 1 },
  { place: "538", number: 1 },
];
const cues = runSheet(2, { started_at: START, pours: [] });

describe("the table at one moment", () => {
  it("is dry before the clock starts", () => {
    expect(cupsAt(BOWLS, [], START).map((cup) => cup.state)).toEqual(["dry", "dry"]);
  });

  it("steeps the first bowl while the second is still dry, and rings the act at hand", () => {
    const cups = cupsAt(BOWLS, cues, START + 5 * S);
    expect(cups.map((cup) => cup.state)).toEqual(["poured", "dry"]);
    expect(cups.map((cup) => cup.now)).toEqual([true, false]);
  });

  it("goes through break, skim and taste by each bowl's own pour", () => {
    const late = runSheet(2, { started_at: START, pours: [[1, START + 60 * S]] });
    expect(bowlAt(late, 0, START + 240 * S).state).toBe("breaking");
    expect(bowlAt(late, 1, START + 240 * S).state).toBe("poured");
    expect(bowlAt(late, 1, START + 300 * S).state).toBe("breaking");
    expect(bowlAt(late, 1, START + 361 * S).state).toBe("skimmed");
    expect(bowlAt(late, 0, START + 480 * S).state).toBe("ready");
    expect(bowlAt(late, 1, START + 480 * S).untilTaste).toBe(60 * S);
  });

  it("names the act that is due and the ones after it", () => {
    const { now, next } = momentOf(cues, START + 245 * S);
    expect(now).toMatchObject({ kind: "break", bowl: 0 });
    expect(next[0]).toMatchObject({ kind: "break", bowl: 1 });
  });

  it("has nothing at hand between the pours and the first break", () => {
    const { now, next } = momentOf(cues, START + 120 * S);
    expect(now).toBeNull();
    expect(next[0]).toMatchObject({ kind: "break", bowl: 0 });
  });

  it("has nothing ahead once all may be tasted", () => {
    expect(momentOf(cues, START + 30 * 60 * S)).toEqual({ now: null, next: [] });
  });
});

describe("the bowl that is marked next", () => {
  const at = (seconds: number, marked: number[] = []) => {
    const pours = marked.map((bowl): [number, number] => [bowl, START + bowl * 20 * S]);
    return bowlToMark(4, marked, runSheet(4, { started_at: START, pours }), START + seconds * S);
  };

  it("is the one after the last mark, also for a slow hand", () => {
    expect(at(0)).toBe(0);
    expect(at(35)).toBe(0);
    expect(at(35, [0])).toBe(1);
  });

  it("is the one the clock is at when nobody marks, so that no mark puts a break off", () => {
    expect(at(40)).toBe(2);
    expect(at(65)).toBe(3);
  });

  it("never goes back to a bowl that was passed over", () => {
    expect(at(45, [2])).toBe(3);
    expect(at(70, [3])).toBeNull();
  });

  it("is none once the first bowl has to be broken, or before the clock starts", () => {
    expect(at(301)).toBeNull();
    expect(bowlToMark(4, [], [], START)).toBeNull();
  });
});
