/* The desk while others taste: how far each seat is, without a word of what it wrote. */
import type { Api } from "../wire/api";
import { TableWith } from "../wire/table_with.svelte";
import type { SeatProgress } from "../wire/types";

type Watching = Pick<Api, "table" | "progress">;

export function isDone(seat: SeatProgress): boolean {
  return seat.passes.every((pass) => pass.done === pass.all);
}

export class ProgressState extends TableWith<SeatProgress[]> {
  constructor(api: Watching, id: string) {
    // Nobody can sit down at a draft, and nothing is told of it.
    super(api, id, async (table) => (table.step === "plan" ? [] : api.progress(id)));
  }

  get seats(): SeatProgress[] | null {
    return this.shown;
  }

  /** Pass ids with their titles, in the order of the sheet. */
  get passes(): { id: string; title: string }[] {
    return (this.table?.sheet.passes ?? []).map(({ id, title }) => ({ id, title }));
  }

  /** Names of those who sit here and have cups left. An empty planned seat keeps nobody waiting. */
  get onTheirWay(): string[] {
    const taken = new Set(this.table?.seats.filter((seat) => seat.taken).map((seat) => seat.id));
    return (this.seats ?? [])
      .filter((seat) => !isDone(seat) && (taken.has(seat.seat) || seat.passes.some((pass) => pass.done > 0)))
      .map((seat) => seat.name);
  }

  get allDone(): boolean {
    return this.onTheirWay.length === 0 && (this.seats ?? []).some(isDone);
  }
}
