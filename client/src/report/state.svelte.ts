/* The report of an opened table, as the server writes it for screen, paper and data. */
import type { Api } from "../wire/api";
import { Asking } from "../wire/asking.svelte";
import type { Report } from "../wire/report";
import type { TableView } from "../wire/types";

type Reporting = Pick<Api, "table" | "report">;

export class ReportState {
  id: string;
  table = $state<TableView | null>(null);
  report = $state<Report | null>(null);
  asking = new Asking();
  #api: Reporting;

  constructor(api: Reporting, id: string) {
    this.#api = api;
    this.id = id;
  }

  async load(): Promise<void> {
    const table = await this.asking.run(() => this.#api.table(this.id));
    if (table === undefined) return;
    this.table = table;
    if (table.step === "reveal") this.report = (await this.asking.run(() => this.#api.report(this.id))) ?? null;
  }
}
