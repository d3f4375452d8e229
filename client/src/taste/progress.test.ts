import { describe, expect, it } from "vitest";
import type { SeatProgress, TableView } from "../wire/types";
import { ProgressState } from "./progress.svelte";

const seat = (name: string, ...done: number[]): SeatProgress => ({
  seat: name,
  name,
  passes: done.map((n, i) => ({ pass: `p${i}`, done: n, all: 4 })),
  last_seen: null,
});

async function stateOf(seats: SeatProgress[], taken: string[]): Promise<ProgressState> {
  const table = {
    seats: seats.map(({ seat: id, name }) => ({ id, name, order: [], taken: taken.includes(id) })),
    sheet: { passes: [{ id: "p0", title: "Fragrance" }, { id: "p1", title: "Aroma" }] },
  } as unknown as TableView;
  const state = new ProgressState({ table: async () => table, progress: async () => seats }, "t1");
  await state.load();
  return state;
}

describe("who has finished", () => {
  it("names those who still have cups left", async () => {
    const state = await stateOf([seat("Ada", 4, 4), seat("Bruno", 4, 2)], ["Ada", "Bruno"]);
    expect(state.onTheirWay).toEqual(["Bruno"]);
    expect(state.allDone).toBe(false);
  });

  it("does not wait for a planned seat that nobody took", async () => {
    const state = await stateOf([seat("Ada", 4, 4), seat("Carmen", 0, 0)], ["Ada"]);
    expect(state.allDone).toBe(true);
  });

  it("waits for somebody whose seat was freed half way", async () => {
    const state = await stateOf([seat("Ada", 4, 4), seat("Bruno", 1, 0)], ["Ada"]);
    expect(state.onTheirWay).toEqual(["Bruno"]);
  });

  it("is not done before anybody wrote", async () => {
    expect((await stateOf([seat("Ada", 0, 0)], [])).allDone).toBe(false);
  });

  it("asks nothing of a draft, at which nobody can sit", async () => {
    const draft = { step: "plan", seats: [], sheet: { passes: [] } } as unknown as TableView;
    const never = async () => {
      throw new Error("asked for a draft's progress");
    };
    const state = new ProgressState({ table: async () => draft, progress: never }, "t1");
    await state.load();
    expect(state.seats).toEqual([]);
    expect(state.asking.problem).toBe(null);
  });
});
