import { describe, expect, it } from "vitest";
import { Freshness } from "./freshness.svelte";

const page = (file: string) => `<script type="module" src="/assets/${file}"></script>`;

describe("the freshness of the page", () => {
  it("is fresh while the server serves the file it runs from", async () => {
    const freshness = new Freshness("index-a1.js", async () => page("index-a1.js"));
    await freshness.served("build-1");
    expect(freshness.stale).toBe(false);
  });

  it("is stale once the server serves another", async () => {
    const freshness = new Freshness("index-a1.js", async () => page("index-b2.js"));
    await freshness.served("build-2");
    expect(freshness.stale).toBe(true);
  });

  it("reads the page once for each build, and again after it could not be read", async () => {
    let reads = 0;
    const freshness = new Freshness("index-a1.js", async () => {
      reads += 1;
      if (reads === 1) throw new TypeError("away");
      return page("index-a1.js");
    });
    await freshness.served("build-1");
    await freshness.served("build-1");
    await freshness.served("build-1");
    expect(reads).toBe(2);
  });
});
