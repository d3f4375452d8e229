import { describe, expect, it } from "vitest";
import { FLOW, isOpen, nextScreen, standing } from "./flow";

describe("the flow", () => {
  it("shows nothing past the plan while the plan is a draft", () => {
    expect(FLOW.filter((step) => isOpen(step, "plan"))).toEqual(["plan"]);
  });

  it("lets the key be opened while the table is poured or tasted, and shows results only after", () => {
    expect(isOpen("reveal", "pour")).toBe(true);
    expect(isOpen("analyse", "taste")).toBe(false);
    expect(isOpen("analyse", "reveal")).toBe(true);
  });

  it("tells what is behind, at hand and ahead", () => {
    expect(FLOW.map((step) => standing(step, "taste"))).toEqual(["done", "done", "now", "open", "ahead", "ahead"]);
  });

  it("leads to the report once the key is open", () => {
    expect(nextScreen("pour")).toBe("pour");
    expect(nextScreen("reveal")).toBe("report");
  });
});
