/* The shelf: list, one coffee in the hand, and what came of a file. */
import { draftOf, dropDraft, keepDraft } from "../kit/draft";
import type { Api } from "../wire/api";
import { Asking } from "../wire/asking.svelte";
import type { Coffee, CoffeeImport, NewCoffee } from "../wire/types";

const NOTHING: NewCoffee = {
  name: "",
  roaster: "",
  origin: "",
  process: "",
  variety: "",
  roast_date: null,
  published_notes: "",
  grams_left: null,
};

const DRAFT = "coffee";

/** A coffee being added (`id` "") or changed. */
export interface InHand {
  id: string;
  coffee: NewCoffee;
}

type Shelf = Pick<Api, "coffees" | "addCoffee" | "changeCoffee" | "removeCoffee" | "importText" | "importFile">;

export class CoffeesState {
  coffees = $state<Coffee[] | null>(null);
  search = $state("");
  inHand = $state<InHand | null>(draftOf<InHand>(DRAFT));
  pasted = $state("");
  came = $state<CoffeeImport | null>(null);
  loading = new Asking();
  saving = new Asking();
  importing = new Asking();
  #api: Shelf;

  constructor(api: Shelf) {
    this.#api = api;
  }

  async load(): Promise<void> {
    const coffees = await this.loading.run(() => this.#api.coffees());
    if (coffees !== undefined) this.coffees = coffees;
  }

  /** The coffees in which every word of the search is found. */
  get found(): Coffee[] {
    const words = this.search.toLocaleLowerCase().split(/\s+/).filter((word) => word !== "");
    return (this.coffees ?? []).filter((coffee) => {
      const text = [coffee.name, coffee.roaster, coffee.origin, coffee.process, coffee.variety].join(" ").toLocaleLowerCase();
      return words.every((word) => text.includes(word));
    });
  }

  add(): void {
    this.#take({ id: "", coffee: { ...NOTHING } });
  }

  change(coffee: Coffee): void {
    const { id, ...rest } = coffee;
    this.#take({ id, coffee: rest });
  }

  /** What was typed about the same coffee and never saved comes back. */
  #take(fresh: InHand): void {
    const draft = draftOf<InHand>(DRAFT);
    this.saving.problem = null;
    this.inHand = draft?.id === fresh.id ? draft : fresh;
  }

  /** Close without deciding, as by Escape: the draft stays. */
  close(): void {
    this.inHand = null;
  }

  /** Called on every key: what is typed outlives a closed tab. */
  keep(): void {
    if (this.inHand !== null) keepDraft(DRAFT, this.inHand);
  }

  /** Decide against it. */
  putBack(): void {
    this.inHand = null;
    dropDraft(DRAFT);
  }

  /** Which field the server complains about, if it is one of the form's. */
  complaint(field: keyof NewCoffee): string {
    const problem = this.saving.problem;
    return problem?.where?.column === field ? problem.what : "";
  }

  /** Whether it was saved. */
  async save(): Promise<boolean> {
    const held = this.inHand;
    if (held === null) return false;
    const { id, coffee } = held;
    const dated = { ...coffee, roast_date: coffee.roast_date === "" ? null : coffee.roast_date };
    const saved = await this.saving.run(() =>
      id === "" ? this.#api.addCoffee(dated) : this.#api.changeCoffee(id, dated),
    );
    if (saved === undefined) return false;
    this.putBack();
    await this.load();
    return true;
  }

  async remove(coffee: Coffee): Promise<boolean> {
    const done = await this.saving.run(async () => {
      await this.#api.removeCoffee(coffee.id);
      return true;
    });
    if (done !== true) return false;
    this.putBack();
    await this.load();
    return true;
  }

  async paste(): Promise<void> {
    await this.#import(() => this.#api.importText(this.pasted));
    if (this.came !== null && this.came.refused.length === 0) this.pasted = "";
  }

  async upload(file: File): Promise<void> {
    await this.#import(() => this.#api.importFile(file));
  }

  async #import(question: () => Promise<CoffeeImport>): Promise<void> {
    this.came = null;
    this.came = (await this.importing.run(question)) ?? null;
    if (this.came !== null && this.came.added.length > 0) await this.load();
  }
}
