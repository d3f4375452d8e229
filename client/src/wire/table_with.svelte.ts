/* A table, and what a room shows of it: asked for one after the other, since what may be asked follows from the step. */
import type { Api } from "./api";
import { Asking } from "./asking.svelte";
import type { TableView } from "./types";

export class TableWith<Shown> {
  readonly id: string;
  table = $state<TableView | null>(null);
  /** null until it was found, or where the table is not yet so far */
  shown = $state<Shown | null>(null);
  asking = new Asking();
  #api: Pick<Api, "table">;
  #showing: (table: TableView) => Promise<Shown | null>;

  /** `showing` asks for what is shown of a table; null where there is nothing to ask yet. */
  constructor(api: Pick<Api, "table">, id: string, showing: (table: TableView) => Promise<Shown | null>) {
    this.#api = api;
    this.id = id;
    this.#showing = showing;
  }

  /** Ask again; what was found before stays after a refusal. */
  async load(): Promise<void> {
    const table = await this.asking.run(() => this.#api.table(this.id));
    if (table === undefined) return;
    this.table = table;
    const shown = await this.asking.run(() => this.#showing(table));
    if (shown !== undefined) this.shown = shown;
  }
}

/** The same for a room that has something to show only once the key is open. */
export async function onceOpen<Shown>(table: TableView, ask: () => Promise<Shown>): Promise<Shown | null> {
  return table.step === "reveal" ? ask() : null;
}
