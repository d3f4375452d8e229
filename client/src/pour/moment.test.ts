import { describe, expect, it } from "vitest";
import type { Bowl } from "../wire/types";
import { runSheet } from "./clock";
import { clockOf, laidCalled } from "./laid.testing";
import { actToMark, bowlAt, called, cuesOf, cupsAt, momentOf, peopleOf } from "./moment";

const START = 1_000_000;
const S = 1000;
const BOWLS: Bowl[] = ["274", "538", "619"].map((place) => ({ place, number: 1 }));
const cues = runSheet(laidCalled("three"), clockOf(START));
const byTwo = runSheet(laidCalled("eight by two"), clockOf(START));

describe("the table at one moment", () => {
  it("is dry before the clock starts", () => {
    expect(cupsAt(BOWLS, [], START).map((cup) => cup.state)).toEqual(["dry", "dry", "dry"]);
  });

  it("steeps the first bowl while the second is still dry, and rings the act at hand", () => {
    const cups = cupsAt(BOWLS, cues, START + 5 * S);
    expect(cups.map((cup) => cup.state)).toEqual(["poured", "dry", "dry"]);
    expect(cups.map((cup) => cup.now)).toEqual([true, false, false]);
  });

  it("rings the bowl of each person", () => {
    const eight = Array.from({ length: 8 }, (_, number) => ({ place: String(number), number: 1 }));
    expect(cupsAt(eight, byTwo, START + 20 * S).filter((cup) => cup.now).map((cup) => cup.place)).toEqual(["2", "3"]);
  });

  it("goes through break, skim and taste by each bowl's own pour", () => {
    const late = runSheet(laidCalled("three"), clockOf(START, [[1, START + 60 * S]]));
    expect(bowlAt(late, 0, START + 240 * S).state).toBe("breaking");
    expect(bowlAt(late, 1, START + 240 * S).state).toBe("poured");
    expect(bowlAt(late, 1, START + 300 * S).state).toBe("breaking");
    expect(bowlAt(late, 1, START + 361 * S).state).toBe("skimmed");
    expect(bowlAt(late, 0, START + 480 * S).state).toBe("ready");
    expect(bowlAt(late, 1, START + 480 * S).untilTaste).toBe(60 * S);
  });

  it("goes from pour to taste where nothing is broken", () => {
    const brews = runSheet(laidCalled("brews by two"), clockOf(START));
    expect(bowlAt(brews, 0, START + 119 * S).state).toBe("poured");
    expect(bowlAt(brews, 0, START + 120 * S).state).toBe("ready");
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

describe("my hands", () => {
  it("are the acts of one person, and the tastes of all", () => {
    const mine = cuesOf(byTwo, 1);
    expect(new Set(mine.map((cue) => cue.person))).toEqual(new Set([1, null]));
    expect(mine.filter((cue) => cue.kind === "pour").map((cue) => cue.bowl)).toEqual([1, 3, 5, 7]);
    expect(peopleOf(byTwo)).toEqual([0, 1]);
  });
});

describe("the act that is marked next", () => {
  const at = (seconds: number, marked: number[] = []) => {
    const pours = marked.map((bowl): [number, number] => [bowl, START + bowl * 15 * S]);
    const act = actToMark(runSheet(laidCalled("six by one"), clockOf(START, pours)), 0, START + seconds * S);
    return act && [act.kind, act.bowl];
  };

  it("is the one after the last mark, also for a slow hand", () => {
    expect(at(0)).toEqual(["pour", 0]);
    expect(at(25)).toEqual(["pour", 0]);
    expect(at(25, [0])).toEqual(["pour", 1]);
  });

  it("is the one the clock is at when nobody marks, so that no mark puts a break off", () => {
    expect(at(32)).toEqual(["pour", 2]);
    expect(at(272)).toEqual(["break", 2]);
  });

  it("goes on from pours to breaks, a little before they are due", () => {
    expect(at(150, [0, 1, 2, 3, 4, 5])).toBeNull();
    expect(at(226, [0, 1, 2, 3, 4, 5])).toEqual(["break", 0]);
  });

  it("is each person's own", () => {
    const act = actToMark(byTwo, 1, START);
    expect([act?.kind, act?.bowl]).toEqual(["pour", 1]);
  });

  it("is none long after the last act, or before the clock starts", () => {
    expect(at(3600)).toBeNull();
    expect(actToMark([], 0, START)).toBeNull();
  });
});

describe("what is called out", () => {
  it("is what came due since the last look", () => {
    expect(called(cues, START + 14_900, START + 15_100).map((cue) => [cue.kind, cue.bowl])).toEqual([["pour", 1]]);
    expect(called(cues, START + 15_100, START + 15_350)).toEqual([]);
  });

  it("is nothing of what a sleeping page has missed", () => {
    expect(called(cues, START, START + 250 * S)).toEqual([]);
    expect(called(cues, START, START + 241 * S).map((cue) => cue.bowl)).toEqual([0]);
  });
});
