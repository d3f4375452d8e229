/* One question to the server at a time, with what a screen has to show meanwhile: busy, or the refusal. */
import { en } from "../words/en";
import { Problem } from "./problem";

export class Asking {
  busy = $state(false);
  problem = $state<Problem | null>(null);

  /** Ask; the answer, or undefined after a refusal, which is then in `problem`. */
  async run<Answer>(question: () => Promise<Answer>): Promise<Answer | undefined> {
    this.busy = true;
    this.problem = null;
    try {
      return await question();
    } catch (error) {
      this.problem = asProblem(error);
      return undefined;
    } finally {
      this.busy = false;
    }
  }
}

/** A refusal as it is; a mistake of our own as one too, so that no screen falls silent. */
export function asProblem(error: unknown): Problem {
  if (error instanceof Problem) return error;
  console.error(error);
  const todo = en.wire.mistakeTodo;
  return new Problem({ status: -1, title: "", detail: en.wire.mistake, todo, where: null });
}
