import { describe, expect, it } from "vitest";
import { runSheet } from "./clock";
import { flightAt, lanesOf } from "./lanes";
import { clockOf, laidCalled } from "./laid.testing";

const START = 1_000_000;

describe("the picture of a run sheet", () => {
  const laid = laidCalled("eight by two");
  const lanes = lanesOf(runSheet(laid, clockOf(START)), laid.flights[0]!)!;

  it("has a lane for each person and a mark for each of their acts", () => {
    expect(lanes.people.map(({ person, marks }) => [person, marks.length])).toEqual([
      [0, 12],
      [1, 12],
    ]);
  });

  it("lays time from the first pour to the first taste", () => {
    expect(lanes.ticks.length).toBe(9);
    expect(lanes.taste).toBe(1);
    expect(lanes.at(START + 240_000)).toBe(0.5);
    expect(lanes.people[0]!.marks[0]).toMatchObject({ kind: "pour", from: 0, to: 15 / 480 });
  });

  it("never lays two marks of one lane over each other", () => {
    for (const { marks } of lanes.people)
      marks.slice(1).forEach((mark, index) => expect(mark.from).toBeGreaterThanOrEqual(marks[index]!.to - 1e-9));
  });

  it("shows what is done and what is late", () => {
    const six = laidCalled("six by one");
    const { people } = lanesOf(runSheet(six, clockOf(0, [], [["break", 0, 355_000]])), six.flights[0]!)!;
    const marks = people[0]!.marks.filter((mark) => mark.kind === "break");
    expect(marks.map((mark) => [mark.done, mark.late]).slice(0, 2)).toEqual([
      [true, true],
      [false, true],
    ]);
  });

  it("is of the flight at hand, and of none where there are no bowls", () => {
    const two = laidCalled("two flights of two");
    const cues = runSheet(two, clockOf(0));
    expect(flightAt(two.flights, cues, 100_000)).toBe(two.flights[0]);
    expect(flightAt(two.flights, cues, 700_000)).toBe(two.flights[1]);
    expect(flightAt(two.flights, cues, 9_000_000)).toBe(two.flights[1]);
    expect(flightAt([], [], 0)).toBeNull();
    expect(lanesOf([], two.flights[0]!)).toBeNull();
  });
});
