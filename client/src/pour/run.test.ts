import { describe, expect, it } from "vitest";
import { Problem } from "../wire/problem";
import type { Clock, Step, TableView } from "../wire/types";
import { RunState } from "./run.svelte";

const SERVER_AHEAD = 7000;
const S = 1000;

/** A server whose clock is 7 s ahead of this device's; `device` is the device's clock. */
function world(clock: Clock = { started_at: null, pours: [] }, step: Step = "pour") {
  const device = { now: 100_000 };
  const kept = { clock, step };
  const table = (): TableView =>
    ({
      id: "t1",
      name: "Monday",
      step: kept.step,
      clock: kept.clock,
      bowls: [
        { place: "274", number: 1 },
        { place: "538", number: 1 },
      ],
    }) as TableView;
  const sheet = () => ({ now_ms: device.now + SERVER_AHEAD, started_at: kept.clock.started_at, cues: [] });
  const api = {
    table: async () => table(),
    runSheet: async () => sheet(),
    startClock: async () => {
      kept.step = "taste";
      kept.clock = { started_at: device.now + SERVER_AHEAD, pours: [] };
      return table();
    },
    markPour: async (_: string, bowl: number) => {
      kept.clock = { ...kept.clock, pours: [...kept.clock.pours, [bowl, device.now + SERVER_AHEAD]] };
      return sheet();
    },
  };
  return { device, api, run: new RunState(api, "t1", () => device.now) };
}

describe("the run of the clock", () => {
  it("shows the server's time though this device's clock is off", async () => {
    const { device, run } = world({ started_at: 100_000, pours: [] }, "taste");
    await run.load();
    expect(run.elapsed).toBe(SERVER_AHEAD);
    device.now += 60 * S;
    run.tick();
    expect(run.elapsed).toBe(67 * S);
  });

  it("is right at once after the machine slept: nothing was counted", async () => {
    const { device, run } = world();
    await run.load();
    await run.start();
    device.now += 255 * S;
    run.tick();
    expect(run.elapsed).toBe(255 * S);
    expect(run.moment.now).toMatchObject({ kind: "break", bowl: 0 });
  });

  it("shows a mark at once and moves the bowl's own break", async () => {
    const { device, run } = world();
    await run.load();
    await run.start();
    device.now += 5 * S;
    await run.poured(0);
    device.now += 40 * S;
    await run.poured(1);
    const breaks = run.cues.filter((cue) => cue.kind === "break").map((cue) => cue.due - run.table!.clock.started_at!);
    expect(breaks).toEqual([245 * S, 285 * S]);
  });

  it("offers the next unmarked bowl, and none once all are marked", async () => {
    const { run } = world();
    await run.load();
    expect(run.toPour).toBeNull();
    await run.start();
    expect(run.toPour).toBe(0);
    await run.poured(0);
    expect(run.toPour).toBe(1);
    await run.poured(1);
    expect(run.toPour).toBeNull();
  });

  it("takes a mark back when the server refuses it", async () => {
    const { api, run } = world({ started_at: 100_000, pours: [] }, "taste");
    api.markPour = async () => {
      throw new Problem({ status: 409, title: "", detail: "The table is closed.", todo: "", where: null });
    };
    await run.load();
    await run.poured(0);
    expect(run.table?.clock.pours).toEqual([]);
    expect(run.acting.problem?.what).toBe("The table is closed.");
  });
});
