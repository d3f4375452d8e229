/* The report of an opened table, as the server writes it for screen, paper and data. */
import type { Api } from "../wire/api";
import type { Report } from "../wire/report";
import { onceOpen, TableWith } from "../wire/table_with.svelte";

type Reporting = Pick<Api, "table" | "report">;

export class ReportState extends TableWith<Report> {
  constructor(api: Reporting, id: string) {
    super(api, id, (table) => onceOpen(table, () => api.report(id)));
  }

  get report(): Report | null {
    return this.shown;
  }
}
