/* Typing in paper sheets: a seat is taken on this machine, and what is typed goes into its notebook like any note. */
import { Notebook } from "../../local/notebook";
import type { Api } from "../../wire/api";
import { Asking } from "../../wire/asking.svelte";
import type { DeskSeat, Field, Pass, TableView } from "../../wire/types";
import { stopsOf } from "../walk";
import { type About, asTyped, typed } from "./typed";

type Typing = Pick<Api, "table" | "takeSeat">;
type Kept = { seat: string; token: string };

export class PaperState {
  id: string;
  table = $state<TableView | null>(null);
  seat = $state<DeskSeat | null>(null);
  round = $state(0);
  asking = new Asking();
  /** seats whose token this machine keeps */
  #mine = $state.raw<ReadonlyMap<string, Kept>>(new Map());
  #tick = $state(0);
  #api: Typing;
  #notebook: Notebook;
  /** who sat on this machine before a sheet was typed in; sits here again afterwards */
  #before: Kept | null = null;

  constructor(api: Typing, id: string, notebook: Notebook = new Notebook()) {
    this.#api = api;
    this.#notebook = notebook;
    notebook.fromPaper = true;
    this.id = id;
    notebook.subscribe(() => (this.#tick += 1));
  }

  async load(): Promise<void> {
    const kept = await this.#notebook.remembered();
    this.#before ??= kept[0] ?? null;
    this.#mine = new Map(kept.map((one) => [one.seat, one]));
    this.table = (await this.asking.run(() => this.#api.table(this.id))) ?? this.table;
  }

  get running(): boolean {
    return this.table?.step === "pour" || this.table?.step === "taste";
  }

  /** The seats that no phone holds. */
  get seats(): DeskSeat[] {
    return (this.table?.seats ?? []).filter((seat) => !seat.taken || this.#mine.has(seat.id));
  }

  get pass(): Pass | undefined {
    return this.table?.sheet.passes[this.round];
  }

  /** To the next pass or the one before, if there is one. */
  turn(by: 1 | -1): void {
    if (this.table?.sheet.passes[this.round + by] !== undefined) this.round += by;
  }

  /** Where the pass is asked, in the order of the seat: as the paper has it. */
  get stops(): readonly string[] {
    return stopsOf(this.pass, this.seat?.order ?? []);
  }

  get unsent(): number {
    void this.#tick;
    return this.#notebook.unsent;
  }

  /** Open a seat's sheet: one this machine has held before, or one that is free. */
  async open(seat: DeskSeat): Promise<void> {
    const kept = this.#mine.get(seat.id);
    if (kept !== undefined) {
      await this.#notebook.open(kept.seat, kept.token);
    } else {
      const joined = await this.asking.run(() => this.#api.takeSeat(this.id, seat.name));
      if (joined === undefined) return;
      await this.#notebook.open(joined.seat.id, joined.token, { table: joined.table, seat: joined.seat });
      this.#mine = new Map([...this.#mine, [joined.seat.id, { seat: joined.seat.id, token: joined.token }]]);
    }
    this.seat = seat;
    this.round = 0;
  }

  /** The cell as it stands. */
  cell(place: string, field: Field, pass = this.pass?.id ?? ""): string {
    void this.#tick;
    return asTyped(field, this.#notebook.answer(place, pass, field.id), this.#about(place).cups);
  }

  /** Whether a text can be kept in a cell. */
  fits(place: string, field: Field, text: string): boolean {
    return "value" in typed(field, text, this.#about(place));
  }

  /** Keep what a cell says; what is wrong with it, or "". */
  async write(place: string, field: Field, text: string, pass = this.pass?.id ?? ""): Promise<string> {
    const found = typed(field, text, this.#about(place));
    if ("wrong" in found) return found.wrong;
    // What a line says is more exact than millimetres: an untouched cell changes nothing.
    if (text.trim() !== this.cell(place, field, pass)) await this.#notebook.write(place, pass, field.id, found.value);
    return "";
  }

  /** Put the sheet away; whoever sat on this machine sits here again. */
  async leave(): Promise<void> {
    this.seat = null;
    if (this.#before !== null) await this.#notebook.open(this.#before.seat, this.#before.token);
    this.#notebook.close();
  }

  #about(place: string): About {
    const bowls = this.table?.bowls ?? [];
    return { cups: bowls.filter((bowl) => bowl.place === place).length, places: this.seat?.order ?? [] };
  }
}
