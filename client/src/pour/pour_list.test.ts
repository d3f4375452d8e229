import { describe, expect, it } from "vitest";
import type { PourLine } from "../wire/types";
import { byFlight } from "./pour_list";

const line = (code: string, flight: number) => ({ code, bowls: 1, flight }) as PourLine;

describe("the pour list", () => {
  it("is parted by flight, each in the order of its lines", () => {
    const parted = byFlight([line("274", 1), line("103", 1), line("839", 2)]);
    expect(parted.map((lines) => lines.map(({ code }) => code))).toEqual([["274", "103"], ["839"]]);
  });
});
