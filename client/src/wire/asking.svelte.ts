/* One question to the server at a time, with what a screen has to show meanwhile: busy, or the refusal. */
import { en } from "../words/en";
import { Problem } from "./problem";

export class Asking {
  busy = $state(false);
  problem = $state<Problem | null>(null);

  /** Ask; the answer, or undefined after a refusal, which is then in `problem`. */
  async run<Answer>(question: () => Promise<Answer>): Promise<Answer | undefined> {
    this.busy = true;
    try {
      const answer = await question();
      // Only now: a message that vanished with each new try would flicker while the server is away.
      this.problem = null;
      return answer;
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
