// @vitest-environment happy-dom
import { beforeEach, describe, expect, it } from "vitest";
import { Problem } from "../../wire/problem";
import type { WaterAnswer, WaterKnown, WaterWish } from "../../wire/water";
import { freshForm, keptForm, wishOf } from "./form";
import { WaterState } from "./state.svelte";

const KNOWN: WaterKnown = {
  parameters: [
    { parameter: "hardness", label: "Total hardness", units: ["mg/L CaCO3", "°dH"] },
    { parameter: "ph", label: "pH", units: [""] },
  ],
  salts: [{ name: "Epsom salt", formula: "MgSO4·7H2O", soluble_g: 700 }],
  ranges: [{ key: "2009", title: "the trade table of 2009", source: "" }],
};

function world(refuse = false) {
  const wishes: WaterWish[] = [];
  const state = new WaterState({
    waterKnown: async () => KNOWN,
    mixWater: async (wish: WaterWish) => {
      wishes.push(wish);
      if (refuse) throw new Problem({ status: 422, title: "", detail: "A mix cannot be 0 L.", todo: "", where: null });
      return { sources: [], mix: null } as WaterAnswer;
    },
  });
  return { state, wishes };
}

beforeEach(() => localStorage.clear());

describe("the water", () => {
  it("offers an amount in the first unit until another is chosen", async () => {
    const { state } = world();
    await state.load();
    const amounts = state.form.sources[0]?.amounts ?? {};
    expect(state.amount(amounts, "hardness")).toEqual({ value: null, unit: "mg/L CaCO3" });
    state.setAmount(amounts, "hardness", { unit: "°dH" });
    state.setAmount(amounts, "hardness", { value: 12 });
    expect(state.amount(amounts, "hardness")).toEqual({ value: 12, unit: "°dH" });
  });

  it("wishes for a range or for a target, never both", () => {
    const form = freshForm();
    form.target = { hardness: { value: 68, unit: "mg/L CaCO3" } };
    expect(wishOf(form, true)).toMatchObject({ range: "2009", target: null });
    form.wanted = "own";
    expect(wishOf(form, true)).toMatchObject({ range: null, target: { hardness: { value: 68, unit: "mg/L CaCO3" } } });
    expect(wishOf(form, false)).toMatchObject({ range: null, target: null });
  });

  it("leaves out what is empty, and sends nought for a number that was cleared, so that the server says so", () => {
    const form = freshForm();
    form.sources[0]!.amounts = { hardness: { value: 12, unit: "°dH" }, ph: { value: null, unit: "" } };
    form.sources.push({ name: "well", amounts: {} });
    form.litres = null;
    const wish = wishOf(form, true);
    expect(wish.sources).toEqual([{ name: "tap water", analysis: { hardness: { value: 12, unit: "°dH" } } }]);
    expect(wish.litres).toBe(0);
  });

  it("gives each new water and concentrate a name of its own", () => {
    const { state } = world();
    state.addSource();
    state.addSource();
    state.addConcentrate();
    state.addConcentrate();
    state.removeConcentrate(0);
    state.addConcentrate();
    expect(state.form.sources.map(({ name }) => name)).toEqual(["tap water", "water 2", "water 3"]);
    expect(state.form.concentrates.map(({ name }) => name)).toEqual(["B", "A"]);
  });

  it("forgets an answer as soon as what was asked changes", async () => {
    const { state } = world();
    await state.ask(true);
    expect(state.answer).not.toBeNull();
    expect(state.answered).toBe("2009");
    state.changed();
    expect(state.answer).toBeNull();
  });

  it("shows the refusal as the server words it", async () => {
    const { state } = world(true);
    await state.ask(true);
    expect(state.asking.problem?.what).toBe("A mix cannot be 0 L.");
    expect(state.answer).toBeNull();
  });

  it("keeps what was typed on this device", () => {
    const { state } = world();
    state.form.litres = 9;
    state.changed();
    expect(world().state.form.litres).toBe(9);
  });

  it("begins anew when what was kept has another shape", () => {
    expect(keptForm({ sources: "old" } as never)).toEqual(freshForm());
    expect(keptForm(null)).toEqual(freshForm());
  });
});
