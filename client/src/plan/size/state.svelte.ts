/* "How many?": which question is asked with which numbers, and the sentences that came back. */
import type { Api } from "../../wire/api";
import { Asking } from "../../wire/asking.svelte";
import type { SizeNumbers } from "../../wire/size";

const ASK_AFTER_MS = 250;

export const METHODS = ["triangle", "duo-trio", "2-afc", "3-afc", "paired", "two-out-of-five"] as const;
export type Method = (typeof METHODS)[number];

export const QUESTIONS = ["difference", "test", "result"] as const;
export type Question = (typeof QUESTIONS)[number];

/** Shares are in percent here, as they are typed. */
export interface SizeForm {
  question: Question;
  method: Method;
  points: number | null;
  tasterSpread: number | null;
  bowlSpread: number | null;
  canTell: number | null;
  power: number | null;
  right: number | null;
  of: number | null;
}

/** The table that is being planned: what its own people and bowls can do is told beside the size. */
export interface Panel {
  tasters: number;
  bowls: number;
}

export class SizeState {
  form = $state<SizeForm>({
    question: "difference",
    method: "triangle",
    points: 1,
    tasterSpread: null,
    bowlSpread: null,
    canTell: 30,
    power: 90,
    right: 15,
    of: 30,
  });
  sentences = $state<string[]>([]);
  asking = new Asking();
  #api: Pick<Api, "size">;
  #panel: Panel = { tasters: 1, bowls: 1 };
  #opened = false;
  #asked = 0;
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(api: Pick<Api, "size">) {
    this.#api = api;
  }

  /** Nothing is asked before somebody looks. */
  async open(): Promise<void> {
    if (this.#opened) return;
    this.#opened = true;
    await this.ask();
  }

  /** Called on every change of the form, and of the plan around it. */
  changed(panel: Panel = this.#panel): void {
    this.#panel = panel;
    if (!this.#opened) return;
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.ask(), ASK_AFTER_MS);
  }

  /** Ask; a slow answer to an older question does not replace a newer one. */
  async ask(): Promise<void> {
    const asked = ++this.#asked;
    const [path, numbers] = this.#question();
    // A field that is being typed anew is no question yet.
    if (numbers === null) {
      this.sentences = [];
      this.asking.problem = null;
      return;
    }
    const answer = await this.asking.run(() => this.#api.size(path, numbers));
    if (asked === this.#asked) this.sentences = answer?.sentences ?? [];
  }

  #question(): [string, SizeNumbers | null] {
    const { question, method, points, tasterSpread, bowlSpread, canTell, power, right, of } = this.form;
    if (question === "result") return [`${method}/result`, whole({ right, of })];
    const chance = whole({ power: share(power) });
    if (question === "test") return [method, chance && whole({ discriminators: share(canTell), ...chance })];
    const { tasters, bowls } = this.#panel;
    const named = {
      ...(tasterSpread === null ? {} : { taster_sd: tasterSpread }),
      ...(bowlSpread === null ? {} : { residual_sd: bowlSpread }),
      // One taster has no spread to compare with, and is no panel yet.
      ...(tasters < 2 ? {} : { tasters, bowls }),
    };
    return ["difference", chance && whole({ points, ...chance, ...named })];
  }
}

function share(percent: number | null): number | null {
  return percent === null ? null : percent / 100;
}

/** The numbers, or null if one of them is missing. */
function whole(numbers: Record<string, number | null>): SizeNumbers | null {
  return Object.values(numbers).every((one) => one !== null) ? (numbers as SizeNumbers) : null;
}
