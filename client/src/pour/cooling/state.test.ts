import { describe, expect, it } from "vitest";
import { Problem } from "../../wire/problem";
import { aCooling } from "./cooling.testing";
import { CoolingState } from "./state.svelte";

function world() {
  const asked: unknown[] = [];
  const server = { cooling: aCooling(), refuse: false };
  const answer = async (what: unknown) => {
    asked.push(what);
    if (server.refuse) throw new Problem({ status: 422, title: "", detail: "Too hot.", todo: "", where: null });
    return server.cooling;
  };
  const state = new CoolingState(
    {
      cooling: (id) => answer(["cooling", id]),
      noteReading: (id, bowl, celsius) => answer([id, bowl, celsius]),
      dropReading: (id, bowl, at) => answer(["drop", id, bowl, at]),
    },
    "t1",
  );
  return { asked, server, state };
}

describe("the cooling on the desk", () => {
  it("notes what the thermometer shows and takes the fitted curve", async () => {
    const { asked, server, state } = world();
    state.bowl = 2;
    state.shown = 67.5;
    server.cooling = aCooling({ start_c: 82 });
    await state.note(false);
    expect(asked).toEqual([["t1", 2, 67.5]]);
    expect(state.cooling?.start_c).toBe(82);
    expect(state.shown).toBeNull();
  });

  it("sends Celsius when the thermometer shows Fahrenheit", async () => {
    const { asked, state } = world();
    state.shown = 158;
    await state.note(true);
    expect((asked[0] as number[])[2]).toBeCloseTo(70, 9);
  });

  it("asks nothing without a number", async () => {
    const { asked, state } = world();
    await state.note(false);
    expect(asked).toEqual([]);
  });

  it("keeps the curve and the number when the server refuses", async () => {
    const { server, state } = world();
    await state.load();
    server.refuse = true;
    state.shown = 300;
    await state.note(false);
    expect(state.cooling).not.toBeNull();
    expect(state.shown).toBe(300);
    expect(state.noting.problem?.detail).toBe("Too hot.");
  });

  it("takes a reading back", async () => {
    const { asked, state } = world();
    await state.drop(aCooling().readings[0]!);
    expect(asked).toEqual([["drop", "t1", 1, 1_000]]);
  });
});
