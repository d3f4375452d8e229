import { describe, expect, it } from "vitest";
import { Problem, placeText } from "./problem";

const refused = new Problem({
  status: 422,
  title: "The file cannot be read",
  detail: "shelf.csv, line 3, column name: The coffee has no name. Give it one.",
  todo: "Give it one.",
  where: { file: "shelf.csv", line: 3, column: "name" },
});

describe("a problem", () => {
  it("tells what, where and what to do apart", () => {
    expect(refused.what).toBe("The coffee has no name.");
    expect(placeText(refused)).toBe("shelf.csv, line 3, column name");
    expect(refused.todo).toBe("Give it one.");
  });

  it("keeps a sentence that says only what is wrong", () => {
    const plain = new Problem({ status: 404, title: "", detail: "There is no such table.", todo: "", where: null });
    expect(plain.what).toBe("There is no such table.");
    expect(placeText(plain)).toBe("");
  });
});
