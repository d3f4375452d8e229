import { describe, expect, it } from "vitest";
import { analyseWords } from "./analyse_en";

describe("the words of the analysis", () => {
  it("give a difference with its interval, lower end first, whichever coffee was named first", () => {
    const pair = { first: 0, second: 1, n: 9, mean: { estimate: -30, low: -57.9, high: -2.1, level: 0.95 } };
    expect(analyseWords.difference(pair, "B", "A")).toBe(
      "B is above A by 30.0 (95\u00a0% interval 2.1 to 57.9), more than chance would make.",
    );
  });
});
