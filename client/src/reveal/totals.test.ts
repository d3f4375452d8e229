import { expect, test } from "vitest";
import type { CoffeeComparison, Comparison, TableTotal, TasterWords } from "../wire/types";
import { tastersOf, totalsOf } from "./totals";

const ADA = { seat: "s1", name: "Ada", written: [], published: null, others: null, late: [] } as TasterWords;
const compared = { coffee: { id: "a" }, places: ["591", "274"], tasters: [ADA] } as unknown as CoffeeComparison;
const total = (seat: string, place: string, coffee = "a"): TableTotal => ({
  seat, name: seat, place, coffee, total: 85, low: 85, high: 85, lines: [], complaints: [],
});
const opened = (...totals: TableTotal[]) => ({ coffees: [compared], totals }) as unknown as Comparison;

test("a taster's totals stand in the order of the places", () => {
  const comparison = opened(total("s1", "274"), total("s1", "591"), total("s2", "274"), total("s1", "836", "b"));

  expect(totalsOf(comparison, compared, "s1").map((one) => one.place)).toEqual(["591", "274"]);
  expect(totalsOf({ ...comparison, totals: undefined } as unknown as Comparison, compared, "s1")).toEqual([]);
});

test("who only gave points is listed after those who wrote, once, and only for that coffee", () => {
  const comparison = opened(total("s2", "591"), total("s2", "274"), total("s1", "591"), total("s3", "836", "b"));

  expect(tastersOf(comparison, compared).map((one) => one.seat)).toEqual(["s1", "s2"]);
  expect(tastersOf(null, compared)).toEqual([ADA]);
});
