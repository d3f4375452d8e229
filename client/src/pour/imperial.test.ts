import { describe, expect, it } from "vitest";
import { Imperial } from "./imperial.svelte";

function shelf() {
  const kept = new Map<string, string>();
  return { getItem: (key: string) => kept.get(key) ?? null, setItem: (key: string, value: string) => void kept.set(key, value) };
}

describe("imperial units on this device", () => {
  it("are off until somebody wants them, and then stay on", () => {
    const kept = shelf();
    const first = new Imperial(kept);
    expect(first.on).toBe(false);
    first.on = true;
    expect(new Imperial(kept).on).toBe(true);
    first.on = false;
    expect(new Imperial(kept).on).toBe(false);
  });

  it("last as long as the page where nothing can be stored", () => {
    const one = new Imperial(null);
    one.on = true;
    expect(one.on).toBe(true);
  });
});
