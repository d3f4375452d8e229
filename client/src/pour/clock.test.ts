import { describe, expect, test } from "vitest";
import cases from "../../../tests/contract/clock_cases.json";
import { asMinutes, lateBy, openCues, runSheet, serverAhead, unkept } from "./clock";
import type { Clock, Cue } from "./clock";
import { clockOf, laidCalled } from "./laid.testing";

interface Case {
  name: string;
  schedule: string;
  clock: Clock;
  cues: unknown[];
  unkept: unknown[];
}

function asData(cue: Cue): unknown {
  return [cue.kind, cue.bowl, cue.due, cue.earliest, cue.latest, cue.ends, cue.person, cue.done];
}

describe("the run sheet agrees with the cases shared with the server", () => {
  test.each(cases.run_sheet as unknown as Case[])("$name", (one) => {
    const cues = runSheet(laidCalled(one.schedule), one.clock);

    expect(cues.map(asData)).toEqual(one.cues);
    expect(unkept(cues).map((cue) => [cue.kind, cue.bowl, lateBy(cue)])).toEqual(one.unkept);
  });
});

describe("what may be acted on now", () => {
  const cues = runSheet(laidCalled("three"), clockOf(0));
  const open = (now: number) => openCues(cues, now).map((cue) => [cue.kind, cue.bowl]);

  test("is the bowl being poured, until the next one's turn", () => {
    expect(open(14_999)).toEqual([["pour", 0]]);
    expect(open(15_000)).toEqual([["pour", 1]]);
  });

  test("is every bowl inside its window for the break", () => {
    expect(open(179_999)).toEqual([]);
    expect(open(195_000)).toEqual([
      ["break", 0],
      ["break", 1],
    ]);
  });

  test("is not what was marked as done", () => {
    const marked = runSheet(laidCalled("three"), clockOf(0, [], [["break", 0, 190_000]]));

    expect(openCues(marked, 195_000).filter((cue) => cue.kind === "break").map((cue) => cue.bowl)).toEqual([1]);
  });
});

test("the server's lead is taken at the middle of asking and being answered", () => {
  expect(serverAhead(10_000, 1_000, 1_200)).toBe(8_900);
  expect(serverAhead(500, 1_000, 1_000)).toBe(-500);
});

test("a countdown reads 0:00 only when it is over, and says how late it is", () => {
  expect(asMinutes(240_000)).toBe("4:00");
  expect(asMinutes(59_001)).toBe("1:00");
  expect(asMinutes(1)).toBe("0:01");
  expect(asMinutes(0)).toBe("0:00");
  expect(asMinutes(-999)).toBe("0:00");
  expect(asMinutes(-61_500)).toBe("−1:01");
});
