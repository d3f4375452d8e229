/* Taking a seat: a code and a name become a seat, which is kept on this device before anything else happens. */
import { Notebook, type Remembered } from "../local/notebook";
import { Asking } from "../wire/asking.svelte";
import type { Joined } from "../wire/types";
import { taster } from "../words/taster_en";

const LETTERS = /[^0-9A-Z]/g;

export interface Join {
  sitDown: (code: string, name: string) => Promise<Joined>;
}

export class Joining {
  code = $state("");
  name = $state("");
  tried = $state(false);
  /** seats this device has sat on before */
  seats = $state<Remembered[]>([]);
  asking = new Asking();
  #api: Join;
  #notebook: () => Notebook;

  constructor(api: Join, code: string, notebook: () => Notebook = () => new Notebook()) {
    this.#api = api;
    this.#notebook = notebook;
    this.code = code;
  }

  async look(): Promise<void> {
    this.seats = await this.#notebook().remembered();
  }

  get codeError(): string {
    return this.tried && tidyCode(this.code) === "" ? taster.join.noCode : "";
  }

  get nameError(): string {
    return this.tried && this.name.trim() === "" ? taster.join.noName : "";
  }

  /** Sit down; whether a seat is now held here. */
  async sit(): Promise<boolean> {
    this.tried = true;
    if (this.codeError !== "" || this.nameError !== "") return false;
    const joined = await this.asking.run(() => this.#api.sitDown(tidyCode(this.code), this.name.trim()));
    if (joined === undefined) return false;
    const notebook = this.#notebook();
    await notebook.open(joined.seat.id, joined.token, { table: joined.table, seat: joined.seat });
    notebook.close();
    return true;
  }

  /** Go back to a seat of this device: it becomes the last one opened. */
  async back(seat: Remembered): Promise<void> {
    const notebook = this.#notebook();
    await notebook.open(seat.seat, seat.token);
    notebook.close();
  }
}

/** A code as the server has it, whatever was typed between or in small letters. */
export function tidyCode(code: string): string {
  return code.toUpperCase().replace(LETTERS, "");
}
