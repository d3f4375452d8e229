/* The cooling of one table as the server computes it, and the readings that are noted here. */
import type { Api } from "../../wire/api";
import { Asking } from "../../wire/asking.svelte";
import type { Cooling, Reading } from "../../wire/cooling";
import { celsius } from "../units";

type Reads = Pick<Api, "cooling" | "noteReading" | "dropReading">;

export class CoolingState {
  id: string;
  cooling = $state.raw<Cooling | null>(null);
  /** the bowl the thermometer stands in, and what it shows in the unit of this device */
  bowl = $state(0);
  shown = $state<number | null>(null);
  loading = new Asking();
  noting = new Asking();
  #api: Reads;

  constructor(api: Reads, id: string) {
    this.#api = api;
    this.id = id;
  }

  async load(): Promise<void> {
    this.cooling = (await this.loading.run(() => this.#api.cooling(this.id))) ?? this.cooling;
  }

  /** Note what the thermometer shows, `inFahrenheit` or in °C; the curve comes back fitted to it. */
  async note(inFahrenheit: boolean): Promise<void> {
    const shown = this.shown;
    if (shown === null) return;
    const degrees = inFahrenheit ? celsius(shown) : shown;
    const fitted = await this.noting.run(() => this.#api.noteReading(this.id, this.bowl, degrees));
    if (fitted === undefined) return;
    this.cooling = fitted;
    this.shown = null;
  }

  async drop(reading: Reading): Promise<void> {
    this.cooling = (await this.noting.run(() => this.#api.dropReading(this.id, reading.bowl, reading.at))) ?? this.cooling;
  }
}
