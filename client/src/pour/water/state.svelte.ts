/* The water: the form, and the last answer to it. */
import { draftOf, keepDraft } from "../../kit/draft";
import type { Api } from "../../wire/api";
import { Asking } from "../../wire/asking.svelte";
import type { WaterAnswer, WaterKnown, WaterParameter } from "../../wire/water";
import { en } from "../../words/en";
import { keptForm, wishOf, type AmountForm, type AmountsForm, type ConcentrateForm, type WaterForm } from "./form";

const DRAFT = "water";

export class WaterState {
  known = $state<WaterKnown | null>(null);
  form = $state<WaterForm>(keptForm(draftOf<WaterForm>(DRAFT)));
  answer = $state<WaterAnswer | null>(null);
  /** which range the answer was asked for, or "own" */
  answered = $state("");
  loading = new Asking();
  asking = new Asking();
  #api: Pick<Api, "waterKnown" | "mixWater">;

  constructor(api: Pick<Api, "waterKnown" | "mixWater">) {
    this.#api = api;
  }

  async load(): Promise<void> {
    if (this.known === null) this.known = (await this.loading.run(() => this.#api.waterKnown())) ?? null;
  }

  parameter(key: string): WaterParameter {
    return this.known?.parameters.find((one) => one.parameter === key) ?? { parameter: key, label: key, units: [""] };
  }

  /** The amount of a parameter in a form, made with the first unit when it is first asked for. */
  amount(amounts: AmountsForm, key: string): AmountForm {
    return amounts[key] ?? { value: null, unit: this.parameter(key).units[0] ?? "" };
  }

  setAmount(amounts: AmountsForm, key: string, changed: Partial<AmountForm>): void {
    amounts[key] = { ...this.amount(amounts, key), ...changed };
    this.changed();
  }

  /** What was answered no longer fits what is typed. */
  changed(): void {
    this.answer = null;
    keepDraft(DRAFT, this.form);
  }

  addSource(): void {
    this.form.sources.push({ name: this.#freeName(), amounts: {} });
    this.changed();
  }

  removeSource(index: number): void {
    this.form.sources.splice(index, 1);
    this.changed();
  }

  addConcentrate(): void {
    const taken = this.form.concentrates.map(({ name }) => name);
    const letters = Array.from({ length: 26 }, (_, n) => en.water.concentrateName(n + 1));
    const name = letters.find((letter) => !taken.includes(letter)) ?? "";
    this.form.concentrates.push({ name, salts: [{ salt: "", grams: null }] });
    this.changed();
  }

  removeConcentrate(index: number): void {
    this.form.concentrates.splice(index, 1);
    this.changed();
  }

  addSalt(recipe: ConcentrateForm): void {
    recipe.salts.push({ salt: "", grams: null });
    this.changed();
  }

  async ask(mix: boolean): Promise<void> {
    this.answered = this.form.wanted;
    this.answer = (await this.asking.run(() => this.#api.mixWater(wishOf(this.form, mix)))) ?? null;
  }

  #freeName(): string {
    const taken = this.form.sources.map(({ name }) => name);
    if (!taken.includes(en.water.firstSource)) return en.water.firstSource;
    for (let number = taken.length + 1; ; number += 1) {
      if (!taken.includes(en.water.anotherSource(number))) return en.water.anotherSource(number);
    }
  }
}
