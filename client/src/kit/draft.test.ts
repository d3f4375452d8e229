// @vitest-environment happy-dom
import { beforeEach, describe, expect, it } from "vitest";
import { draftOf, dropDraft, keepDraft } from "./draft";

describe("a draft", () => {
  beforeEach(() => localStorage.clear());

  it("is there again after the page was closed, until it is dropped", () => {
    keepDraft("plan", { name: "Monday" });
    expect(draftOf("plan")).toEqual({ name: "Monday" });
    dropDraft("plan");
    expect(draftOf("plan")).toBeNull();
  });

  it("that cannot be read is as good as none", () => {
    localStorage.setItem("cupwright.draft.plan", "{broken");
    expect(draftOf("plan")).toBeNull();
  });
});
