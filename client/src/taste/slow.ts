/* Writing while an answer is being given, without a note for every letter: a pause writes, and so does leaving. */

export interface Timer {
  set: (task: () => void, ms: number) => number;
  clear: (id: number) => void;
}

const browserTimers: Timer = { set: (task, ms) => window.setTimeout(task, ms), clear: (id) => window.clearTimeout(id) };

/** Hands on the last value after `ms` without another one, or at once when it is flushed. */
export class Slow<Answer extends string | number> {
  #waiting: Answer | null = null;
  #timer = 0;

  #give: (answer: Answer) => void;
  #ms: number;
  #timers: Timer;

  constructor(give: (answer: Answer) => void, ms = 800, timers: Timer = browserTimers) {
    this.#give = give;
    this.#ms = ms;
    this.#timers = timers;
  }

  take(answer: Answer): void {
    this.#waiting = answer;
    this.#timers.clear(this.#timer);
    this.#timer = this.#timers.set(() => this.flush(), this.#ms);
  }

  flush(): void {
    const answer = this.#waiting;
    this.drop();
    if (answer !== null) this.#give(answer);
  }

  /** Forget what waits. */
  drop(): void {
    this.#timers.clear(this.#timer);
    this.#waiting = null;
  }
}
