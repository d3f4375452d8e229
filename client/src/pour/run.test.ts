import { describe, expect, it } from "vitest";
import { Problem } from "../wire/problem";
import type { Clock, RunSheet, Step, TableView } from "../wire/types";
import { laidCalled } from "./laid.testing";
import { RunState } from "./run.svelte";

const SERVER_AHEAD = 7000;
const S = 1000;
const STOPPED: Clock = { started_at: null, pours: [], done: [] };
const RUNNING: Clock = { started_at: 100_000, pours: [], done: [] };

/** A server with three bowls whose clock is 7 s ahead of this device's; `device` is the device's clock. */
function world(clock: Clock = STOPPED, step: Step = "pour", schedule = "three", ahead = SERVER_AHEAD) {
  const device = { now: 100_000 };
  const kept = { clock, step };
  const places = ["274", "538", "619", "402", "385", "751", "126", "843"].slice(0, schedule === "three" ? 3 : 8);
  const table = (): TableView =>
    ({ id: "t1", name: "Monday", ...kept, bowls: places.map((place) => ({ place, number: 1 })) }) as TableView;
  const sheet = (): RunSheet =>
    ({ now_ms: device.now + ahead, started_at: kept.clock.started_at, cues: [], schedule: laidCalled(schedule), late: [] });
  const api = {
    table: async () => table(),
    runSheet: async () => sheet(),
    startClock: async () => {
      kept.step = "taste";
      kept.clock = { started_at: device.now + ahead, pours: [], done: [] };
      return table();
    },
    takeBackStart: async () => {
      kept.step = "pour";
      kept.clock = STOPPED;
      return table();
    },
    takeBackMark: async (_: string, kind: string, bowl: number) => {
      const { pours, done } = kept.clock;
      kept.clock = {
        ...kept.clock,
        pours: pours.filter(([one]) => kind !== "pour" || one !== bowl),
        done: done.filter(([what, one]) => what !== kind || one !== bowl),
      };
      return sheet();
    },
    markAct: async (_: string, kind: string, bowl: number) => {
      const { pours, done } = kept.clock;
      if (kind === "pour") kept.clock = { ...kept.clock, pours: [...pours, [bowl, device.now + ahead]] };
      else kept.clock = { ...kept.clock, done: [...done, [kind, bowl, device.now + ahead]] };
      return sheet();
    },
  };
  return { device, api, run: new RunState(api, "t1", () => device.now) };
}

describe("the run of the clock", () => {
  it("shows the server's time though this device's clock is off", async () => {
    const { device, run } = world(RUNNING, "taste");
    await run.load();
    expect(run.elapsed).toBe(SERVER_AHEAD);
    device.now += 60 * S;
    run.tick();
    expect(run.elapsed).toBe(67 * S);
  });

  it("is at the same second on two devices whose clocks are minutes apart", async () => {
    // given one device three minutes slow and one that joins late, five minutes fast
    const slow = world(RUNNING, "taste", "eight by two", 180_000);
    const fast = world(RUNNING, "taste", "eight by two", -300_000);
    slow.device.now = 100_000 + 245_000 - 180_000;
    fast.device.now = 100_000 + 245_000 + 300_000;

    await slow.run.load();
    await fast.run.load();

    expect(slow.run.elapsed).toBe(245_000);
    expect(fast.run.elapsed).toBe(245_000);
    expect(fast.run.moment).toEqual(slow.run.moment);
    expect(fast.run.hands).toEqual(slow.run.hands);
  });

  it("is right at once after the machine slept: nothing was counted", async () => {
    const { device, run } = world();
    await run.load();
    await run.start();
    device.now += 252 * S;
    run.tick();
    expect(run.elapsed).toBe(252 * S);
    expect(run.moment.now).toMatchObject({ kind: "break", bowl: 0 });
  });

  it("shows a mark at once and moves the bowl's own break", async () => {
    const { device, run } = world();
    await run.load();
    await run.start();
    device.now += 5 * S;
    await run.mark("pour", 0);
    device.now += 40 * S;
    await run.mark("pour", 1);
    const breaks = run.cues.filter((cue) => cue.kind === "break").map((cue) => cue.due - run.table!.clock.started_at!);
    expect(breaks).toEqual([245 * S, 285 * S, 300 * S]);
  });

  it("shows a break that was done, and says what comes too late for the others", async () => {
    const { device, run } = world();
    await run.load();
    await run.start();
    device.now += 330 * S;
    await run.mark("break", 0);
    expect(run.late.map((cue) => [cue.kind, cue.bowl, cue.done])).toEqual([
      ["break", 0, true],
      ["break", 1, false],
      ["break", 2, false],
    ]);
    await run.mark("aside", 1);
    expect(run.late.map((cue) => cue.bowl)).toEqual([0]);
  });

  it("tells a person the own next act, also while the first taste comes sooner", async () => {
    const { run, device } = world(RUNNING, "taste", "two flights of two");
    await run.load();
    device.now = 100_000 - SERVER_AHEAD + 479 * S;
    run.tick();
    expect(run.hands[0]!.moment.next[0]).toMatchObject({ kind: "pour", bowl: 2, person: 0 });
  });

  it("offers the next act of each person, and of one alone once that one is chosen", async () => {
    const { run } = world(STOPPED, "pour", "eight by two");
    await run.load();
    expect(run.hands.map(({ toMark }) => toMark)).toEqual([null, null]);
    await run.start();
    expect(run.hands.map(({ toMark }) => toMark?.bowl)).toEqual([0, 1]);
    await run.mark("pour", 1);
    expect(run.hands.map(({ toMark }) => toMark?.bowl)).toEqual([0, 3]);
    run.person = 1;
    expect(run.mine.every((cue) => cue.person !== 0)).toBe(true);
  });

  it("takes a mark back when the server refuses it", async () => {
    const { api, run } = world(RUNNING, "taste");
    api.markAct = async () => {
      throw new Problem({ status: 409, title: "", detail: "The table is closed.", todo: "", where: null });
    };
    await run.load();
    await run.mark("pour", 0);
    expect(run.table?.clock.pours).toEqual([]);
    expect(run.acting.problem?.what).toBe("The table is closed.");
  });

  it("takes a start back while nothing else is marked", async () => {
    const { run } = world();
    await run.load();
    expect(run.canTakeBack).toBe(false);
    await run.start();
    expect(run.canTakeBack).toBe(true);
    await run.takeBackStart();
    expect([run.table?.step, run.cues]).toEqual(["pour", []]);
    await run.start();
    await run.mark("skim", 0);
    expect(run.canTakeBack).toBe(false);
  });

  it("takes a mark back that was set by mistake", async () => {
    const { run } = world(RUNNING, "taste");
    await run.load();
    await run.mark("pour", 1);
    await run.mark("aside", 1);
    expect(run.marksOf(1)).toEqual(["pour", "aside"]);
    expect(run.cues.some((cue) => cue.bowl === 1)).toBe(false);
    await run.unmark("aside", 1);
    expect(run.marksOf(1)).toEqual(["pour"]);
    expect(run.cues.some((cue) => cue.bowl === 1)).toBe(true);
  });

  it("shows the plan of hands before the clock is started", async () => {
    const { run } = world(STOPPED, "pour", "eight by two");
    await run.load();
    expect(run.people).toEqual([0, 1]);
    expect(run.planned.filter((cue) => cue.kind === "pour").length).toBe(8);
  });
});
