import { expect, test } from "vitest";
import { LONGEST_WAIT_MS, type RoundEnd, SyncLoop } from "./sync";

/** Time that passes only when told to. */
class Timers {
  waits: number[] = [];
  #due: (() => void) | null = null;

  schedule = (task: () => void, ms: number) => {
    this.waits.push(ms);
    this.#due = task;
    return () => {
      if (this.#due === task) this.#due = null;
    };
  };

  get pending(): boolean {
    return this.#due !== null;
  }

  fire(): void {
    const task = this.#due;
    this.#due = null;
    task?.();
  }
}

const settle = () => new Promise((resolve) => setTimeout(resolve, 0));

function loopOf(ends: RoundEnd[], random = () => 1) {
  const timers = new Timers();
  const rounds = { begun: 0 };
  const round = async () => {
    rounds.begun++;
    return ends.length > 1 ? ends.shift()! : ends[0]!;
  };
  return { timers, rounds, loop: new SyncLoop({ round, usual: () => 3000, schedule: timers.schedule, random }) };
}

test("all being well, rounds follow at the usual pace", async () => {
  const { timers, rounds, loop } = loopOf(["fine"]);

  loop.start();
  for (let i = 0; i < 3; i++) {
    await settle();
    timers.fire();
  }
  await settle();

  expect(rounds.begun).toBe(4);
  expect(timers.waits).toEqual([3000, 3000, 3000, 3000]);
});

test("each failure doubles the wait, up to half a minute, and a success ends that", async () => {
  const { timers, loop } = loopOf(["later", "later", "later", "later", "later", "later", "later", "fine"]);

  loop.start();
  for (let i = 0; i < 8; i++) {
    await settle();
    timers.fire();
  }

  expect(timers.waits.slice(0, 8)).toEqual([1000, 2000, 4000, 8000, 16_000, 30_000, 30_000, 3000]);
  expect(LONGEST_WAIT_MS).toBe(30_000);
});

test("a random part of at most half keeps phones from coming back together", async () => {
  const { timers, loop } = loopOf(["later"], () => 0);

  loop.start();
  await settle();

  expect(timers.waits).toEqual([500]);
});

test("a round that throws counts as a failure and the loop goes on", async () => {
  const timers = new Timers();
  const round = () => Promise.reject(new Error("the database is gone"));
  const loop = new SyncLoop({ round, usual: () => 3000, schedule: timers.schedule, random: () => 1 });

  loop.start();
  await settle();

  expect(timers.waits).toEqual([1000]);
});

test("a stop by the round ends the loop until it is started again", async () => {
  const { timers, rounds, loop } = loopOf(["stop", "fine"]);

  loop.start();
  await settle();
  expect(timers.pending).toBe(false);

  loop.start();
  await settle();
  expect(rounds.begun).toBe(2);
  expect(timers.pending).toBe(true);
});

test("stopping takes the next round back", async () => {
  const { timers, rounds, loop } = loopOf(["fine"]);
  loop.start();
  await settle();

  loop.stop();
  timers.fire();
  await settle();

  expect(rounds.begun).toBe(1);
});

test("asking during a round gives one more round after it, however often one asks", async () => {
  let release: () => void = () => undefined;
  let begun = 0;
  let together = 0;
  let most = 0;
  const round = async (): Promise<RoundEnd> => {
    begun++;
    most = Math.max(most, ++together);
    await new Promise<void>((resolve) => (release = resolve));
    together--;
    return "fine";
  };
  const loop = new SyncLoop({ round, usual: () => 3000, schedule: new Timers().schedule });

  const first = loop.now();
  const more = [loop.now(), loop.now(), loop.now()];
  release();
  await first;
  await settle();
  expect(begun).toBe(2);
  release();
  await Promise.all(more);

  expect(begun).toBe(2);
  expect(most).toBe(1);
});

test("the network's return starts at once and forgets earlier failures", async () => {
  const { timers, rounds, loop } = loopOf(["later"]);
  loop.start();
  for (let i = 0; i < 4; i++) {
    await settle();
    timers.fire();
  }
  await settle();

  loop.start();
  await settle();

  expect(rounds.begun).toBe(6);
  expect(timers.waits.at(-1)).toBe(1000);
});
