import { describe, expect, test } from "vitest";
import cases from "../../../tests/contract/clock_cases.json";
import { asMinutes, openCues, runSheet, serverAhead, STANDARD_TIMING } from "./clock";
import type { Clock, Cue, Timing } from "./clock";

interface Case {
  name: string;
  bowls: number;
  clock: { started_at: number | null; pours: number[][] };
  timing?: Timing;
}

function sheetOf(one: Case): Cue[] {
  const pours = one.clock.pours.map(([bowl, at]) => [bowl, at] as [number, number]);
  const clock: Clock = { started_at: one.clock.started_at, pours };
  return runSheet(one.bowls, clock, one.timing ?? STANDARD_TIMING);
}

function asData(cue: Cue): unknown {
  return [cue.kind, cue.bowl, cue.due, cue.earliest, cue.latest];
}

describe("the run sheet agrees with the cases shared with the server", () => {
  test.each(cases.run_sheet)("$name", (one) => {
    expect(sheetOf(one as Case).map(asData)).toEqual(one.cues);
  });
});

describe("what may be acted on now", () => {
  const cues = runSheet(2, { started_at: 0, pours: [] });

  test("is the bowl being poured, until the next one's turn", () => {
    expect(openCues(cues, 19_999).map((cue) => [cue.kind, cue.bowl])).toEqual([["pour", 0]]);
    expect(openCues(cues, 20_000).map((cue) => [cue.kind, cue.bowl])).toEqual([["pour", 1]]);
  });

  test("is every bowl inside its window for the break", () => {
    expect(openCues(cues, 179_999)).toEqual([]);
    expect(openCues(cues, 200_000).map((cue) => [cue.kind, cue.bowl])).toEqual([
      ["break", 0],
      ["break", 1],
    ]);
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
