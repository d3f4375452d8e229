/* The list of tables: what is at hand, what is behind, and the one next act of each. */
import { nextScreen, type FlowStep } from "../kit/flow";
import type { Api } from "../wire/api";
import { Asking } from "../wire/asking.svelte";
import type { TableLine } from "../wire/types";

// Nearest to the cup first: a table that is being tasted cannot wait.
const URGENCY = { taste: 0, pour: 1, plan: 2, reveal: 3 } as const;

export interface NextAct {
  act: "plan" | "pour" | "taste" | "report";
  to: FlowStep;
}

export function nextAct(table: TableLine): NextAct {
  const to = nextScreen(table.step);
  if (table.step === "taste") return { act: "taste", to: "pour" };
  return { act: table.step === "reveal" ? "report" : table.step, to };
}

export class TablesState {
  tables = $state<TableLine[] | null>(null);
  coffees = $state(0);
  asking = new Asking();
  #api: Pick<Api, "tables" | "coffees">;

  constructor(api: Pick<Api, "tables" | "coffees">) {
    this.#api = api;
  }

  async load(): Promise<void> {
    const found = await this.asking.run(() => Promise.all([this.#api.tables(), this.#api.coffees()]));
    if (found === undefined) return;
    this.tables = found[0];
    this.coffees = found[1].length;
  }

  /** Tables that wait for something, the most urgent first; the server's order (newest first) within. */
  get atHand(): TableLine[] {
    const waiting = (this.tables ?? []).filter((table) => table.step !== "reveal");
    return [...waiting].sort((a, b) => URGENCY[a.step] - URGENCY[b.step]);
  }

  get behind(): TableLine[] {
    return (this.tables ?? []).filter((table) => table.step === "reveal");
  }
}
