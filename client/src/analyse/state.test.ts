import { describe, expect, it } from "vitest";
import type { AnalysedCoffee, Analysis, WordCount } from "../wire/analysis";
import type { TableView } from "../wire/types";
import { AnalyseState, shareRows, shownContrasts, shownWords } from "./state.svelte";

const word = (label: string, count: number, of: number): WordCount => ({
  concept: label,
  label,
  count,
  of,
  share: { estimate: count / of, low: 0.1, high: 0.9, level: 0.95 },
});

const coffee = (wrote: number, words: WordCount[]): AnalysedCoffee => ({
  id: "c",
  name: "Quiet Ridge",
  places: ["274"],
  wrote,
  had: wrote,
  words,
  families: [],
  contrasts: [],
});

describe("the analysis as shown", () => {
  it("shows for a small panel what two share, and names what one had", () => {
    const shown = shownWords(coffee(3, [word("tea", 3, 3), word("peach", 1, 3)]));
    expect(shown.shared.map((one) => one.label)).toEqual(["tea"]);
    expect(shown.once).toEqual(["peach"]);
  });

  it("shows for a large panel the most used, in percent", () => {
    const words = Array.from({ length: 20 }, (_, i) => word(`w${i}`, 40 - i, 100));
    const shown = shownWords(coffee(100, words));
    expect(shown.shared).toHaveLength(12);
    expect(shareRows(shown.shared)[0]).toMatchObject({ label: "w0", estimate: 40, low: 10, high: 90, note: "40 of 100" });
  });

  it("shows the largest differences either way, the largest first", () => {
    const contrasts = [9, 7, 5, 4, 3, 2, 1, -1, -3, -8].map((points) => ({
      label: String(points),
      difference: { estimate: points / 100 },
    })) as unknown as AnalysedCoffee["contrasts"];
    const shown = shownContrasts({ ...coffee(100, []), contrasts });
    expect(shown.more.map((word) => word.label)).toEqual(["9", "7", "5", "4", "3", "2"]);
    expect(shown.less.map((word) => word.label)).toEqual(["-8", "-3", "-1"]);
    expect(shown.left).toBe(1);
  });

  it("does not ask for an analysis before the key is open", async () => {
    let asked = 0;
    const state = new AnalyseState(
      { table: async () => ({ step: "taste" }) as TableView, analysis: async () => ((asked += 1), {} as Analysis) },
      "t1",
    );
    await state.load();
    expect(asked).toBe(0);
    expect(state.analysis).toBeNull();
  });
});
