// @vitest-environment happy-dom
import { beforeEach, describe, expect, it } from "vitest";
import { Problem } from "../wire/problem";
import type { Coffee, NewCoffee } from "../wire/types";
import { CoffeesState } from "./state.svelte";

const QUIET: Coffee = {
  id: "c1",
  name: "Quiet Ridge",
  roaster: "Lantern",
  origin: "",
  process: "washed",
  variety: "",
  roast_date: null,
  published_notes: "",
  grams_left: null,
};

/** A shelf that keeps coffees in a list and refuses nameless ones, as the server does. */
function shelf(coffees: Coffee[] = [QUIET]) {
  const checked = (coffee: NewCoffee) => {
    if (coffee.name !== "") return coffee;
    const detail = "column name: The coffee has no name. Give it one.";
    throw new Problem({ status: 422, title: "", detail, todo: "Give it one.", where: { column: "name" } });
  };
  return {
    coffees: async () => [...coffees],
    addCoffee: async (coffee: NewCoffee) => {
      const added = { ...checked(coffee), id: `c${coffees.length + 1}` };
      coffees.push(added);
      return added;
    },
    changeCoffee: async (id: string, coffee: NewCoffee) => ({ ...checked(coffee), id }),
    removeCoffee: async (id: string) => {
      coffees.splice(coffees.findIndex((one) => one.id === id), 1);
    },
    importText: async (text: string) =>
      text.includes("bad")
        ? { added: [], refused: [{ line: 3, column: "roast_date", message: "'bad' is not a date." }], unused: [] }
        : { added: [{ ...QUIET, id: "c9", name: "Pasted" }], refused: [], unused: ["price"] },
    importFile: async () => ({ added: [], refused: [], unused: [] }),
  };
}

describe("the shelf", () => {
  beforeEach(() => localStorage.clear());

  it("finds a coffee by words from any of its fields, in any order", async () => {
    const state = new CoffeesState(shelf());
    await state.load();
    state.search = "washed quiet";
    expect(state.found).toHaveLength(1);
    state.search = "natural";
    expect(state.found).toHaveLength(0);
  });

  it("keeps a half-typed coffee through a closed tab, and forgets it once saved", async () => {
    const first = new CoffeesState(shelf());
    first.add();
    first.inHand!.coffee.name = "Marl Hollow";
    first.keep();

    const second = new CoffeesState(shelf());
    expect(second.inHand?.coffee.name).toBe("Marl Hollow");
    expect(await second.save()).toBe(true);
    expect(second.coffees).toHaveLength(2);
    expect(new CoffeesState(shelf()).inHand).toBeNull();
  });

  it("brings back what was typed after an Escape, but not after leaving it on purpose", () => {
    const state = new CoffeesState(shelf());
    state.add();
    state.inHand!.coffee.name = "Half a na";
    state.keep();
    state.close();
    state.add();
    expect(state.inHand?.coffee.name).toBe("Half a na");
    state.putBack();
    state.add();
    expect(state.inHand?.coffee.name).toBe("");
  });

  it("puts a complaint at the field it is about and keeps what was typed", async () => {
    const state = new CoffeesState(shelf());
    state.add();
    state.inHand!.coffee.roaster = "Lantern";
    expect(await state.save()).toBe(false);
    expect(state.complaint("name")).toBe("The coffee has no name.");
    expect(state.complaint("roaster")).toBe("");
    expect(state.inHand?.coffee.roaster).toBe("Lantern");
  });

  it("sends no date rather than an empty one", async () => {
    const sent: NewCoffee[] = [];
    const state = new CoffeesState({ ...shelf(), addCoffee: async (c) => (sent.push(c), { ...c, id: "x" }) });
    state.add();
    state.inHand!.coffee.roast_date = "";
    await state.save();
    expect(sent[0]?.roast_date).toBeNull();
  });

  it("keeps pasted text for mending when lines were refused, and clears it when all went in", async () => {
    const state = new CoffeesState(shelf());
    state.pasted = "name,roast_date\nA,bad";
    await state.paste();
    expect(state.came?.refused[0]?.line).toBe(3);
    expect(state.pasted).not.toBe("");
    state.pasted = "name\nA";
    await state.paste();
    expect(state.pasted).toBe("");
  });
});
