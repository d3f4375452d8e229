/*
 * When to send: at once after a note and when the network comes back, else on a timer that waits longer
 * after each failure. One round at a time; what is asked for during a round is done right after it.
 */

/** Runs a task later; the answer takes it back. */
export type Schedule = (task: () => void, ms: number) => () => void;

/** fine: go on at the usual pace. later: wait longer. stop: no more rounds until started again. */
export type RoundEnd = "fine" | "later" | "stop";

export const FIRST_WAIT_MS = 1_000;
export const LONGEST_WAIT_MS = 30_000;

const byTimer: Schedule = (task, ms) => {
  const timer = setTimeout(task, ms);
  return () => clearTimeout(timer);
};

export interface Pace {
  /** What one round does. A failure it throws counts as "later". */
  round: () => Promise<RoundEnd>;
  /** Milliseconds to the next round when all is fine. */
  usual: () => number;
  schedule?: Schedule;
  random?: () => number;
}

export class SyncLoop {
  #pace: Pace;
  #schedule: Schedule;
  #random: () => number;
  #started = false;
  #failures = 0;
  #running: Promise<void> | null = null;
  #again: Promise<void> | null = null;
  #takeBack: () => void = () => undefined;

  constructor(pace: Pace) {
    this.#pace = pace;
    this.#schedule = pace.schedule ?? byTimer;
    this.#random = pace.random ?? Math.random;
  }

  /** Begin, or begin again after a stop, with a round at once. */
  start(): void {
    this.#started = true;
    this.#failures = 0;
    void this.now();
  }

  /** No more rounds by themselves. A round that is under way ends as it ends. */
  stop(): void {
    this.#started = false;
    this.#takeBack();
  }

  /** A round that begins after this call; settled when it is over. */
  now(): Promise<void> {
    if (!this.#running) return this.#run();
    this.#again ??= this.#running.then(() => {
      this.#again = null;
      return this.#run();
    });
    return this.#again;
  }

  #run(): Promise<void> {
    this.#takeBack();
    this.#running = this.#once().finally(() => {
      this.#running = null;
    });
    return this.#running;
  }

  async #once(): Promise<void> {
    const end = await this.#pace.round().catch((): RoundEnd => "later");
    this.#failures = end === "later" ? this.#failures + 1 : 0;
    if (end === "stop") this.#started = false;
    if (!this.#started) return;
    this.#takeBack = this.#schedule(() => void this.now(), this.#wait());
  }

  #wait(): number {
    if (this.#failures === 0) return this.#pace.usual();
    const longest = Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS * 2 ** (this.#failures - 1));
    // A random part, so that all phones of a table do not come back in one moment.
    return longest * (0.5 + this.#random() / 2);
  }
}
