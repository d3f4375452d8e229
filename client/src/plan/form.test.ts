import { describe, expect, it } from "vitest";
import { bowlsOf, flightSizes, formOf, freshForm, planOf, plannedCups } from "./form";

describe("the plan's form", () => {
  it("goes to the wire and back unchanged", () => {
    const plan = planOf({ ...freshForm(), name: "Monday", coffees: ["a", "b"], tasters: "Ada\nBruno" });
    expect(plan.tasters).toEqual(["Ada", "Bruno"]);
    expect(planOf(formOf(plan))).toEqual(plan);
  });

  it("does not count blank lines as tasters", () => {
    expect(planOf({ ...freshForm(), tasters: "Ada\n\n  \nBruno " }).tasters).toEqual(["Ada", "Bruno"]);
  });

  it("lays the bowls of a coffee side by side, or each on its own after a shuffle", () => {
    const form = { ...freshForm(), coffees: ["a", "b"], bowls_per_sample: 3 };
    expect(plannedCups(form).map((cup) => `${cup.place}.${cup.number}`)).toEqual([
      "1.1", "1.2", "1.3", "2.1", "2.2", "2.3",
    ]);
    const shuffled = plannedCups({ ...form, blinding: "shuffle" as const });
    expect(shuffled.map((cup) => cup.place)).toEqual(["1", "2", "3", "4", "5", "6"]);
  });

  it("draws no table that could not be poured", () => {
    const form = { ...freshForm(), coffees: Array.from({ length: 31 }, (_, i) => String(i)), bowls_per_sample: 2 };
    expect(bowlsOf(form)).toBe(62);
    expect(plannedCups(form)).toEqual([]);
    expect(plannedCups({ ...form, bowls_per_sample: null })).toEqual([]);
  });

  it("parts places into as few flights of nearly equal size as are allowed, like the server", () => {
    expect(flightSizes(12, 8)).toEqual([6, 6]);
    expect(flightSizes(17, 8)).toEqual([5, 6, 6]);
    expect(flightSizes(8, 8)).toEqual([8]);
    expect(flightSizes(5, null)).toEqual([]);
  });

  it("counts a coffee under a second code as a sample of its own", () => {
    const form = { ...freshForm(), coffees: ["a", "b"], duplicates: ["b"], bowls_per_sample: 2 };
    expect(plannedCups(form).map((cup) => cup.id)).toEqual(["1/1", "1/2", "2/1", "2/2", "3/1", "3/2"]);
  });
});
