import { describe, expect, test } from "vitest";
import shared from "../../../../tests/contract/points_cases.json";
import type { Sheet, Value } from "../../wire/types";
import { ends, fraction, parsed, rounded, said, saidTotal } from "./fraction";
import { passCounted, points } from "./points";

const sheets = shared.sheets as unknown as Record<string, Sheet>;

test.each(shared.cases)("$name: as on the server", ({ sheet, answers, cups, place, total, low, high, lines, complaints }) => {
  const given = answers as unknown as Record<string, Value>;

  expect(points(sheets[sheet]!, (pass, field) => given[`${pass}/${field}`] ?? null, cups, place)).toEqual({ total, low, high, lines, complaints });
});

test("a sheet without a rule makes no points", () => {
  expect(points({ ...sheets["affective"]!, points: null }, () => null)).toBeNull();
});

describe("a pass is counted", () => {
  const sheet = sheets["hundred-point"]!;

  test("when all that counts in it is answered; faults may be none", () => {
    const all: Record<string, Value> = { flavour: "8", aftertaste: "7.5", uniformity: [], clean_cup: [], sweetness: [] };
    const answer = (_: string, field: string) => all[field] ?? null;

    expect(["fragrance", "aroma", "flavour", "cups"].map((pass) => passCounted(sheet, pass, answer))).toEqual([false, false, true, true]);
  });
});

describe("fractions", () => {
  test("are exact where binary fractions are not", () => {
    expect(parsed("0.1")).toEqual({ over: 1n, under: 10n });
    expect(said(fraction(1n, 3n))).toBe("0.33");
    expect(said(fraction(275n, 64n))).toBe("4.296875");
    expect(saidTotal(fraction(17n, 2n))).toBe("8.50");
  });

  test("round a half upwards, below nought too", () => {
    const step = { over: 1n, under: 4n };
    expect(["81.625", "81.5", "-0.125", "-0.375"].map((text) => saidTotal(rounded(parsed(text)!, step)))).toEqual(["81.75", "81.50", "0.00", "-0.25"]);
  });

  test("know whether they end", () => {
    expect([ends(fraction(1n, 40n)), ends(fraction(1n, 3n))]).toEqual([true, false]);
  });

  test.each(["", "abc", "1e3", "0x10", "7.", "1.2.3", "--1"])("take no text but a plain number: %s", (text) => {
    expect(parsed(text)).toBeNull();
  });
});
