import { describe, expect, it } from "vitest";
import { Problem } from "../wire/problem";
import type { Brief, JoinView, Joined, PourLine } from "../wire/types";
import { PourState } from "./state.svelte";

function world(url = "") {
  const log: string[] = [];
  const api = {
    brief: async () => ({ tasks: [], coffees: [], warnings: [] }) as unknown as Brief,
    join: async () => ({ code: "K7MPQ2", url, qr_svg: "", addresses: [] }) as JoinView,
    pourList: async () => {
      log.push("pour list seen");
      return [{ code: "274", bowls: 1 } as PourLine];
    },
    takeSeat: async (_: string, name: string) => {
      if (name === "Ada") {
        throw new Problem({ status: 409, title: "", detail: "Somebody sits there.", todo: "", where: null });
      }
      return { token: `token of ${name}` } as Joined;
    },
    freeSeat: async (_: string, seat: string) => void log.push(`freed ${seat}`),
  };
  const state = new PourState(api, "t1", async (joined) => void log.push(`sat with ${joined.token}`));
  return { log, state };
}

describe("around the pour", () => {
  it("does not ask for the pour list before somebody says they are the pourer", async () => {
    const { log, state } = world();
    await state.load();
    expect(log).toEqual([]);
    await state.showList();
    expect(log).toEqual(["pour list seen"]);
    expect(state.list?.[0]?.code).toBe("274");
    state.hideList();
    expect(state.list).toBeNull();
  });

  it.each([
    ["http://192.0.2.7:8000/#/join/K7MPQ2", true],
    ["http://tasting.local:8000/#/join/K7MPQ2", true],
    ["http://127.0.0.1:8000/#/join/K7MPQ2", false],
    ["http://localhost:8000/#/join/K7MPQ2", false],
    ["http://[::1]:8000/#/join/K7MPQ2", false],
  ])("knows whether a phone that scans %s gets here", async (url, reached) => {
    const { state } = world(url);
    await state.load();
    expect(state.phonesReach).toBe(reached);
  });

  it("takes a seat into this device's notebook", async () => {
    const { log, state } = world();
    state.newName = "Bruno";
    expect(await state.takeSeat("Bruno")).toBe(true);
    expect(log).toEqual(["sat with token of Bruno"]);
    expect(state.newName).toBe("");
  });

  it("keeps the name typed when the seat is taken, and says so", async () => {
    const { log, state } = world();
    state.newName = "Ada";
    expect(await state.takeSeat("Ada")).toBe(false);
    expect(state.newName).toBe("Ada");
    expect(state.seating.problem?.what).toBe("Somebody sits there.");
    expect(log).toEqual([]);
  });
});
