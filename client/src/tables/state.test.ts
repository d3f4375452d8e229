import { describe, expect, it } from "vitest";
import { Problem } from "../wire/problem";
import type { Step, TableLine } from "../wire/types";
import { TablesState, nextAct } from "./state.svelte";

const line = (id: string, step: Step): TableLine => ({
  id,
  name: id,
  step,
  created: "2026-11-24T09:00:00Z",
  blinding: "codes",
  samples: 4,
  bowls: 4,
  tasters: 2,
});

function stateOf(tables: TableLine[]): TablesState {
  return new TablesState({ tables: async () => tables, coffees: async () => [] });
}

describe("the list of tables", () => {
  it("puts what is being tasted before what is poured, and drafts last", async () => {
    const state = stateOf([line("draft", "plan"), line("done", "reveal"), line("poured", "pour"), line("hot", "taste")]);
    await state.load();
    expect(state.atHand.map((table) => table.id)).toEqual(["hot", "poured", "draft"]);
    expect(state.behind.map((table) => table.id)).toEqual(["done"]);
  });

  it("knows the next act of each step", () => {
    expect(nextAct(line("a", "plan"))).toEqual({ act: "plan", to: "plan" });
    expect(nextAct(line("a", "taste"))).toEqual({ act: "taste", to: "pour" });
    expect(nextAct(line("a", "reveal"))).toEqual({ act: "report", to: "report" });
  });

  it("keeps what it showed when the server goes away, and says so", async () => {
    let away = false;
    const gone = new Problem({ status: 0, title: "", detail: "away", todo: "", where: null });
    const state = new TablesState({
      tables: async () => (away ? Promise.reject(gone) : [line("a", "plan")]),
      coffees: async () => [],
    });
    await state.load();
    away = true;
    await state.load();
    expect(state.atHand).toHaveLength(1);
    expect(state.asking.problem?.unreachable).toBe(true);
  });
});
