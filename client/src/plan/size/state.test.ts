// @vitest-environment happy-dom
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { Problem } from "../../wire/problem";
import type { SizeAnswer, SizeNumbers } from "../../wire/size";
import { SizeState } from "./state.svelte";

type Asked = [string, SizeNumbers];

/** Answers every question with its own path, and writes down what it was asked. */
function server(log: Asked[] = []) {
  return {
    size: async (path: string, numbers: SizeNumbers): Promise<SizeAnswer> => {
      log.push([path, numbers]);
      return { sentences: [`about ${path}`] };
    },
  };
}

describe("how many", () => {
  beforeEach(() => void vi.useFakeTimers());
  afterEach(() => void vi.useRealTimers());

  it("asks nothing before it is opened, and once when it is", async () => {
    const log: Asked[] = [];
    const sizing = new SizeState(server(log));
    sizing.changed({ tasters: 4, bowls: 2 });
    await vi.runAllTimersAsync();
    expect(log).toEqual([]);
    await sizing.open();
    await sizing.open();
    expect(log).toEqual([["difference", { points: 1, power: 0.9, tasters: 4, bowls: 2 }]]);
    expect(sizing.sentences).toEqual(["about difference"]);
  });

  it("leaves one taster out, who is no panel, and sends the spreads that are known", async () => {
    const log: Asked[] = [];
    const sizing = new SizeState(server(log));
    sizing.form.tasterSpread = 0.8;
    sizing.form.bowlSpread = 1.2;
    await sizing.open();
    expect(log).toEqual([["difference", { points: 1, power: 0.9, taster_sd: 0.8, residual_sd: 1.2 }]]);
  });

  it("asks for a test by its name, with shares instead of percent", async () => {
    const log: Asked[] = [];
    const sizing = new SizeState(server(log));
    sizing.form.question = "test";
    sizing.form.method = "duo-trio";
    await sizing.open();
    expect(log).toEqual([["duo-trio", { discriminators: 0.3, power: 0.9 }]]);
  });

  it("asks how sure a result is", async () => {
    const log: Asked[] = [];
    const sizing = new SizeState(server(log));
    sizing.form.question = "result";
    await sizing.open();
    expect(log).toEqual([["triangle/result", { right: 15, of: 30 }]]);
  });

  it("asks once for several quick changes, and again when the plan around it changes", async () => {
    const log: Asked[] = [];
    const sizing = new SizeState(server(log));
    await sizing.open();
    for (const points of [1.25, 1.5, 1.75]) {
      sizing.form.points = points;
      sizing.changed();
    }
    await vi.runAllTimersAsync();
    sizing.changed({ tasters: 6, bowls: 1 });
    await vi.runAllTimersAsync();
    expect(log.map(([, numbers]) => [numbers.points, numbers.tasters])).toEqual([
      [1, undefined],
      [1.75, undefined],
      [1.75, 6],
    ]);
  });

  it.each(["points", "power"] as const)("waits while %s is empty", async (field) => {
    const log: Asked[] = [];
    const sizing = new SizeState(server(log));
    await sizing.open();
    sizing.form[field] = null;
    sizing.changed();
    await vi.runAllTimersAsync();
    expect(log).toHaveLength(1);
    expect(sizing.sentences).toEqual([]);
  });

  it("shows a refusal and no old answer beside it", async () => {
    const refusing = new Problem({ status: 422, title: "", detail: "No.", todo: "", where: null });
    let asked = 0;
    const sizing = new SizeState({
      size: async () => {
        if (asked++ > 0) throw refusing;
        return { sentences: ["yes"] };
      },
    });
    await sizing.open();
    await sizing.ask();
    expect(sizing.asking.problem).toBe(refusing);
    expect(sizing.sentences).toEqual([]);
  });

  it("does not let a slow answer replace a newer one", async () => {
    const waiting: ((answer: SizeAnswer) => void)[] = [];
    const sizing = new SizeState({ size: () => new Promise((done) => waiting.push(done)) });
    const old = sizing.ask();
    const fresh = sizing.ask();
    waiting[1]?.({ sentences: ["new"] });
    await fresh;
    waiting[0]?.({ sentences: ["old"] });
    await old;
    expect(sizing.sentences).toEqual(["new"]);
  });
});
