import { describe, expect, it } from "vitest";
import { Problem } from "../wire/problem";
import type { DeskState, Health } from "../wire/types";
import { Door } from "./door.svelte";

const health = (desk: DeskState): Health => ({ version: "1", build: "b", now_ms: 0, lan: true, desk });
const wrong = new Problem({
  status: 403,
  title: "",
  detail: "That is not the desk's passphrase.",
  todo: "",
  where: null,
});

function doorOf(state: DeskState): Door {
  return new Door({
    health: async () => health(state),
    enterDesk: async (passphrase) => {
      if (passphrase !== "kettle and spoon") throw wrong;
      return health("entered");
    },
    leaveDesk: async () => undefined,
  });
}

describe("the desk's door", () => {
  it("is shut on a network until the passphrase is given", async () => {
    const door = doorOf("locked");
    await door.check();
    expect(door.shut).toBe(true);
    expect(await door.enter("kettle and spoon", "")).toBe(true);
    expect(door.shut).toBe(false);
  });

  it("stays shut for a wrong passphrase and says why", async () => {
    const door = doorOf("locked");
    await door.check();
    expect(await door.enter("let me in", "")).toBe(false);
    expect(door.shut).toBe(true);
    expect(door.asking.problem?.what).toBe("That is not the desk's passphrase.");
  });

  it("is not shut in the face of a host whose server is away", async () => {
    const door = new Door({
      health: async () => Promise.reject(new Error("away")),
      enterDesk: async () => health("entered"),
      leaveDesk: async () => undefined,
    });
    await door.check();
    expect(door.shut).toBe(false);
    expect(door.checked).toBe(true);
  });

  it("is shut again after leaving", async () => {
    let state: DeskState = "entered";
    const door = new Door({
      health: async () => health(state),
      enterDesk: async () => health("entered"),
      leaveDesk: async () => void (state = "locked"),
    });
    await door.check();
    expect(door.shut).toBe(false);
    await door.leave();
    expect(door.shut).toBe(true);
  });
});
