/* The desk while others taste: how far each seat is, without a word of what it wrote. */
import type { Api } from "../wire/api";
import { Asking } from "../wire/asking.svelte";
import type { SeatProgress, TableView } from "../wire/types";

type Watching = Pick<Api, "table" | "progress">;

export function isDone(seat: SeatProgress): boolean {
  return seat.passes.every((pass) => pass.done === pass.all);
}

export class ProgressState {
  id: string;
  table = $state<TableView | null>(null);
  seats = $state<SeatProgress[] | null>(null);
  asking = new Asking();
  #api: Watching;

  constructor(api: Watching, id: string) {
    this.#api = api;
    this.id = id;
  }

  async load(): Promise<void> {
    const table = await this.asking.run(() => this.#api.table(this.id));
    if (table === undefined) return;
    this.table = table;
    // Nobody can sit down at a draft, and nothing is told of it.
    const seats = table.step === "plan" ? [] : await this.asking.run(() => this.#api.progress(this.id));
    if (seats !== undefined) this.seats = seats;
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
