/* At the desk: a file that a phone saved because it did not reach its table. */
import type { Api } from "../wire/api";
import { Asking } from "../wire/asking.svelte";
import type { TakenIn } from "../wire/taken_in";

export class PhoneFileState {
  id: string;
  taken = $state<TakenIn | null>(null);
  asking = new Asking();
  #api: Pick<Api, "takeNotesFile">;

  constructor(api: Pick<Api, "takeNotesFile">, id: string) {
    this.#api = api;
    this.id = id;
  }

  /** Whether the file brought something new. */
  async take(file: File): Promise<boolean> {
    this.taken = null;
    this.taken = (await this.asking.run(() => this.#api.takeNotesFile(this.id, file))) ?? null;
    return (this.taken?.new ?? 0) > 0;
  }
}
