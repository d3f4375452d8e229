/* Writing while typing, without a note for every letter: a pause writes, and so does leaving. */

export interface Timer {
  set: (task: () => void, ms: number) => number;
  clear: (id: number) => void;
}

const browserTimers: Timer = { set: (task, ms) => window.setTimeout(task, ms), clear: (id) => window.clearTimeout(id) };

/** Hands on the last text after `ms` without another one, or at once when it is flushed. */
export class Slow {
  #waiting: string | null = null;
  #timer = 0;

  #give: (text: string) => void;
  #ms: number;
  #timers: Timer;

  constructor(give: (text: string) => void, ms = 800, timers: Timer = browserTimers) {
    this.#give = give;
    this.#ms = ms;
    this.#timers = timers;
  }

  take(text: string): void {
    this.#waiting = text;
    this.#timers.clear(this.#timer);
    this.#timer = this.#timers.set(() => this.flush(), this.#ms);
  }

  flush(): void {
    this.#timers.clear(this.#timer);
    if (this.#waiting === null) return;
    const text = this.#waiting;
    this.#waiting = null;
    this.#give(text);
  }
}
