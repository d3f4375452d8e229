// @vitest-environment happy-dom
import { beforeEach, describe, expect, it } from "vitest";
import { themeChoice } from "./theme.svelte";

describe("the theme", () => {
  beforeEach(() => {
    localStorage.clear();
    themeChoice.choose("device");
  });

  it("marks the page and is remembered", () => {
    themeChoice.choose("dark");
    expect(document.documentElement.dataset["theme"]).toBe("dark");
    expect(localStorage.getItem("cupwright.theme")).toBe("dark");
  });

  it("leaves the page to the device when told so", () => {
    themeChoice.choose("light");
    themeChoice.choose("device");
    expect(document.documentElement.dataset["theme"]).toBeUndefined();
  });
});
