/* What everybody's sheets add up to, once the key is open: a row a coffee, a column a taster. */
import type { Api } from "../wire/api";
import { Asking } from "../wire/asking.svelte";
import type { TableTotal } from "../wire/types";

export interface TotalsOf {
  coffee: string;
  name: string;
  /** by seat; several where the coffee stood under several codes */
  cells: Record<string, TableTotal[]>;
  /** over the sheets that add up; null without any */
  mean: number | null;
}

function bySeat(totals: readonly TableTotal[]): TotalsOf["cells"] {
  const cells: TotalsOf["cells"] = {};
  for (const one of totals) (cells[one.seat] ??= []).push(one);
  return cells;
}

export class TotalsState {
  found = $state<TableTotal[] | null>(null);
  asking = new Asking();
  #api: Pick<Api, "points">;

  constructor(api: Pick<Api, "points">) {
    this.#api = api;
  }

  async load(table: string): Promise<void> {
    this.found = (await this.asking.run(() => this.#api.points(table))) ?? null;
  }

  /** The coffees in the order of the analysis, those that nobody gave points left out. */
  rows(coffees: readonly { id: string; name: string }[]): TotalsOf[] {
    const rows = coffees.map(({ id, name }) => {
      const own = (this.found ?? []).filter((one) => one.coffee === id);
      const settled = own.flatMap((one) => (one.total === null ? [] : [one.total]));
      const mean = settled.length === 0 ? null : settled.reduce((sum, one) => sum + one, 0) / settled.length;
      return { coffee: id, name, cells: bySeat(own), mean };
    });
    return rows.filter((row) => Object.keys(row.cells).length > 0);
  }
}
