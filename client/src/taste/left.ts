/* When a field has been left for good: a moment after, so that nothing moves under the finger that left it. */

const MOMENT_MS = 350;

export class Left {
  #pause: number | undefined;
  #tell: (left: boolean) => void;

  constructor(tell: (left: boolean) => void) {
    this.#tell = tell;
  }

  /** The field is being written in. */
  back = (): void => {
    window.clearTimeout(this.#pause);
    this.#tell(false);
  };

  /** The field has lost the focus. */
  gone = (): void => {
    window.clearTimeout(this.#pause);
    this.#pause = window.setTimeout(() => this.#tell(true), MOMENT_MS);
  };

  /** The field is no more. */
  stop = (): void => window.clearTimeout(this.#pause);
}
