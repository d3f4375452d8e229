import { describe, expect, it, vi } from "vitest";
import { Asking } from "./asking.svelte";
import { Problem } from "./problem";

const away = new Problem({ status: 0, title: "", detail: "away", todo: "", where: null });

describe("asking", () => {
  it("shows a refusal until a question succeeds", async () => {
    const asking = new Asking();
    expect(await asking.run(() => Promise.reject(away))).toBeUndefined();
    expect(asking.problem).toBe(away);
    const again = asking.run(async () => 7);
    expect(asking.busy).toBe(true);
    expect(asking.problem).toBe(away);
    expect(await again).toBe(7);
    expect(asking.problem).toBeNull();
    expect(asking.busy).toBe(false);
  });

  it("does not fall silent over a mistake of the page itself", async () => {
    const silence = vi.spyOn(console, "error").mockImplementation(() => undefined);
    const asking = new Asking();
    await asking.run(() => Promise.reject(new TypeError("undefined is not a function")));
    expect(asking.problem?.status).toBe(-1);
    expect(silence).toHaveBeenCalledOnce();
    silence.mockRestore();
  });
});
