// @vitest-environment happy-dom
import { beforeEach, describe, expect, it } from "vitest";
import { commitmentOf } from "../local/seal";
import { Problem } from "../wire/problem";
import type { Blinding, Comparison, OpenedKey, Step, TableView } from "../wire/types";
import { DeskRevealState } from "./desk.svelte";

const KEY: OpenedKey = {
  pairs: [
    ["274", "coffee-a"],
    ["358", "coffee-b"],
  ],
  nonce: "00".repeat(32),
};

function world(blinding: Blinding, key = KEY) {
  const kept = { step: "taste" as Step, placings: null as Record<string, string> | null };
  const table = (): TableView =>
    ({
      id: "t1",
      name: "Monday",
      step: kept.step,
      blinding,
      codes: ["274", "358"],
      places: blinding === "shuffle" ? ["1", "2"] : ["274", "358"],
      commitment: commitmentOf(KEY),
    }) as TableView;
  const api = {
    table: async () => table(),
    progress: async () => [],
    openKey: async (_: string, placings: Record<string, string> | null) => {
      kept.placings = placings;
      kept.step = "reveal";
      return table();
    },
    comparison: async () => ({ table_id: "t1", commitment: commitmentOf(KEY), key, coffees: [] }) as Comparison,
    events: async () => [{ kind: "sealed", at: "2026-11-24T10:02:00Z", detail: {} }],
  };
  return { kept, api, state: new DeskRevealState(api, "t1") };
}

describe("the reveal at the desk", () => {
  beforeEach(() => localStorage.clear());

  it("opens a table of codes without further asking", async () => {
    const { kept, state } = world("codes");
    await state.load();
    expect(state.ready).toBe(true);
    expect(await state.open()).toBe(true);
    expect(kept.placings).toBeNull();
    expect(state.sealMatches).toBe(true);
    expect(state.sealedAt).toBe("2026-11-24T10:02:00Z");
  });

  it("waits after a shuffle until every place has its own code, and sends them", async () => {
    const { kept, state } = world("shuffle");
    await state.load();
    state.enter("1", "358");
    state.enter("2", "358");
    expect(state.ready).toBe(false);
    state.enter("2", "2 7 4");
    expect(state.ready).toBe(true);
    await state.open();
    expect(kept.placings).toEqual({ "1": "358", "2": "274" });
  });

  it("shows each code in the round of its place, also when two are alike", async () => {
    const { state } = world("shuffle");
    await state.load();
    state.enter("1", "358");
    state.enter("2", "358");
    expect(state.cups.map((cup) => [cup.place, cup.text])).toEqual([["1", "358"], ["2", "358"]]);
  });

  it("keeps entered codes through a closed tab until the key is open", async () => {
    const first = world("shuffle");
    await first.state.load();
    first.state.enter("1", "358");
    const second = new DeskRevealState(first.api, "t1");
    await second.load();
    expect(second.entered).toEqual({ "1": "358" });
    second.enter("2", "274");
    await second.open();
    expect(new DeskRevealState(first.api, "t1").entered).toEqual({});
  });

  it("finds out by itself when the key was changed after the seal", async () => {
    const changed: OpenedKey = { ...KEY, pairs: [["274", "coffee-b"], ["358", "coffee-a"]] };
    const { state } = world("codes", changed);
    await state.load();
    await state.open();
    expect(state.sealMatches).toBe(false);
  });

  it("keeps the codes when the server refuses to open", async () => {
    const { api, state } = world("shuffle");
    api.openKey = async () => {
      throw new Problem({ status: 422, title: "", detail: "Place 2 has no code.", todo: "", where: null });
    };
    await state.load();
    state.enter("1", "358");
    expect(await state.open()).toBe(false);
    expect(state.entered["1"]).toBe("358");
    expect(state.opening.problem?.what).toBe("Place 2 has no code.");
  });

  it("tells of each taster what can be said by what is compared with", async () => {
    const { state } = world("codes");
    const fit = { sentence: "Ada's notes …", coffees: 2, worse: 1, ways: 2, p_value: 0.5, exact: true };
    state.comparison = { coffees: [], fits: [{ seat: "s1", published: fit, others: null }] } as unknown as Comparison;

    expect(state.fits).toEqual([{ seat: "s1", fit }]);
    state.against = "others";
    expect(state.fits).toEqual([]);
    state.comparison = { coffees: [] } as unknown as Comparison;
    expect(state.fits).toEqual([]);
  });
});
