import { describe, expect, test } from "vitest";
import shared from "../../../tests/contract/correction_cases.json";
import type { Correction } from "../wire/types";
import { standingCorrections } from "./corrections";

interface Case {
  name: string;
  corrections: Correction[];
  standing: Record<string, string>;
}

describe("the cases shared with the server", () => {
  for (const one of shared.cases as unknown as Case[]) {
    for (const [order, corrections] of [["as written", one.corrections], ["turned around", [...one.corrections].reverse()]] as const) {
      test(`${one.name} (${order})`, () => {
        expect(Object.fromEntries(standingCorrections(corrections))).toEqual(one.standing);
      });
    }
  }
});
