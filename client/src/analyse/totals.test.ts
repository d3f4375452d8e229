import { expect, test } from "vitest";
import type { TableTotal } from "../wire/types";
import { analyseWords } from "../words/analyse_en";
import { TotalsState } from "./totals.svelte";

const total = (seat: string, coffee: string, place: string, sum: number | null): TableTotal => ({
  seat, name: seat, coffee, place, total: sum, low: sum ?? 70, high: sum ?? 90, lines: [], complaints: [],
});
const COFFEES = [{ id: "a", name: "Quiet Ridge" }, { id: "b", name: "Low Field" }, { id: "c", name: "Nobody's" }];

async function loaded(...found: TableTotal[]): Promise<TotalsState> {
  const state = new TotalsState({ points: async () => found });
  await state.load("table-1");
  return state;
}

test("a row a coffee, with the mean of the sheets that add up; coffees without points left out", async () => {
  const state = await loaded(total("s1", "a", "274", 84), total("s2", "a", "274", 86), total("s1", "b", "591", null));

  expect(state.rows(COFFEES).map(({ name, mean }) => [name, mean])).toEqual([["Quiet Ridge", 85], ["Low Field", null]]);
});

test("a coffee that stood under two codes has two totals of one taster", async () => {
  const [row] = (await loaded(total("s1", "a", "274", 84), total("s1", "a", "591", 86))).rows(COFFEES);

  expect(row?.cells["s1"]?.map((one) => one.total)).toEqual([84, 86]);
});

test("an open total is said as its range", () => {
  expect([total("s", "a", "1", 84.5), total("s", "a", "1", null)].map(analyseWords.total)).toEqual(["84.50", "70.00 to 90.00"]);
});
