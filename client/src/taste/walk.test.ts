import { describe, expect, test } from "vitest";
import { question } from "../local/merge";
import type { Pass, Sheet } from "../wire/types";
import { after, answered, before, doneIn, fitting, isBreak, passAt, placeAt, type Standing, stopsOf, type Way, WHOLE_TABLE } from "./walk";

const field = (id: string) => ({ id, kind: "words", label: id }) as Pass["fields"][number];
const pass = (id: string, ...fields: string[]): Pass => ({
  id,
  title: id,
  ask: "",
  moment: "hot",
  caution: "",
  fields: fields.map(field),
});
const sheet: Sheet = {
  name: "s",
  version: 1,
  title: "S",
  liking: null,
  passes: [pass("one", "words"), pass("two", "words", "more")],
};
const way: Way = { sheet, order: ["591", "274", "836"] };

describe("the way through a sheet", () => {
  test("goes over all cups in the seat's order before the next pass begins, and ends", () => {
    const seen: string[] = [];
    for (let at: Standing | null = { round: 0, stop: 0 }; at !== null; at = after(way, at))
      seen.push(`${passAt(way, at)!.id} ${placeAt(way, at)}`);

    expect(seen).toEqual(["one 591", "one 274", "one 836", "two 591", "two 274", "two 836"]);
  });

  test("backwards it is the same way", () => {
    let at: Standing | null = { round: 1, stop: 2 };
    const seen: Standing[] = [];
    for (; at !== null; at = before(way, at)) seen.push(at);

    expect(seen.length).toBe(6);
    for (const [index, standing] of seen.entries()) if (index > 0) expect(after(way, standing)).toEqual(seen[index - 1]);
  });

  test("a kept standing that no longer fits starts again, one that fits is taken", () => {
    expect(fitting(way, { round: 1, stop: 2 })).toEqual({ round: 1, stop: 2 });
    for (const kept of [null, "x", {}, { round: 2, stop: 0 }, { round: 0, stop: 3 }, { round: -1, stop: 0 }, { round: 0.5, stop: 0 }])
      expect(fitting(way, kept)).toEqual({ round: 0, stop: 0 });
  });
});

describe("flights", () => {
  const passes = [...sheet.passes, { ...pass("all", "rank"), over: "table" as const }];
  const parted: Way = { sheet: { ...sheet, passes }, order: ["591", "274", "836"], flights: [["274", "591"], ["836", "902"]] };
  const walked = (): Standing[] => {
    const seen: Standing[] = [];
    for (let at: Standing | null = { round: 0, stop: 0 }; at !== null; at = after(parted, at)) seen.push(at);
    return seen;
  };

  test("are tasted one after the other, each through all passes, and the whole table is asked at the end", () => {
    expect(walked().map((at) => `${passAt(parted, at)!.id} ${placeAt(parted, at)}`)).toEqual([
      "one 591",
      "one 274",
      "two 591",
      "two 274",
      "one 836",
      "two 836",
      `all ${WHOLE_TABLE}`,
    ]);
  });

  test("have a break between them and nowhere else", () => {
    const seen = walked();
    const breaks = seen.slice(1).map((at, index) => isBreak(parted, seen[index]!, at));

    expect(breaks).toEqual([false, false, false, true, false, false]);
  });

  test("backwards it is the same way", () => {
    const seen = walked();
    for (const [index, at] of seen.entries()) expect(before(parted, at)).toEqual(seen[index - 1] ?? null);
  });

  test("a seat without a cup in a flight passes it over", () => {
    const one: Way = { sheet, order: ["836"], flights: parted.flights! };

    expect(after(one, { round: 0, stop: 0 })).toEqual({ round: 1, stop: 0 });
    expect(after(one, { round: 1, stop: 0 })).toBeNull();
  });
});

describe("a pass that is asked once", () => {
  const once: Way = { ...way, sheet: { ...sheet, passes: [pass("one", "words"), { ...pass("all", "rank"), over: "table" }] } };

  test("has one stop, at the whole table", () => {
    expect(placeAt(once, { round: 1, stop: 0 })).toBe(WHOLE_TABLE);
    expect(after(once, { round: 0, stop: 2 })).toEqual({ round: 1, stop: 0 });
    expect(after(once, { round: 1, stop: 0 })).toBeNull();
    expect(before(once, { round: 1, stop: 0 })).toEqual({ round: 0, stop: 2 });
    expect(fitting(once, { round: 1, stop: 1 })).toEqual({ round: 0, stop: 0 });
  });

  test("is done with one answer", () => {
    const answers = new Map([[question(WHOLE_TABLE, "all", "rank"), {}]]);
    expect(once.sheet.passes.map((each) => [doneIn(answers, each, way.order), stopsOf(each, way.order).length])).toEqual([[0, 3], [1, 1]]);
  });
});

describe("what is answered", () => {
  const answers = new Map([
    [question("274", "two", "more"), {}],
    [question("591", "one", "words"), {}],
  ]);

  test("one answered field makes the cup answered in that pass only", () => {
    expect(answered(answers, sheet.passes[1]!, "274")).toBe(true);
    expect(answered(answers, sheet.passes[0]!, "274")).toBe(false);
  });

  test("is counted per pass", () => {
    expect(sheet.passes.map((each) => doneIn(answers, each, way.order))).toEqual([1, 1]);
  });
});
