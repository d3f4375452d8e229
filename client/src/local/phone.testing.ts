/* Notebooks for tests: rounds happen only when something asks for one. For tests only. */
import { expect } from "vitest";
import { PhoneDb } from "./db";
import { Notebook } from "./notebook";
import { aTable, FakeServer, SEAT, TOKEN } from "./server.testing";
import type { Surroundings } from "./surroundings";

let databases = 0;

/** A server and the notebooks opened against it, all on one database unless another is named. */
export class Bench {
  readonly server = new FakeServer();
  readonly #database = `bench-${++databases}`;
  #opened: Notebook[] = [];

  /** A notebook that nobody has opened yet. */
  phone(changes: Partial<Surroundings> = {}): Notebook {
    const notebook = new Notebook(
      {
        fetch: this.server.fetch,
        now: () => 1_700_000_000_000,
        random: () => 1,
        schedule: () => () => undefined,
        visible: () => true,
        whenBack: () => () => undefined,
        persist: async () => null,
        ...changes,
      },
      new PhoneDb(this.#database),
    );
    this.#opened.push(notebook);
    return notebook;
  }

  /** A notebook opened on the first seat, its first round over. */
  async seated(changes: Partial<Surroundings> = {}): Promise<Notebook> {
    const notebook = this.phone(changes);
    await notebook.open(SEAT.id, TOKEN, { table: aTable(), seat: SEAT });
    await notebook.sync();
    return notebook;
  }

  /** The values on the server, in the order in which they came. */
  values(): unknown[] {
    return this.server.notes.map((note) => note.value);
  }

  close(): void {
    for (const notebook of this.#opened) notebook.close();
  }
}

/** Wait for what other tabs and timers bring about; fails if it does not come. */
export async function until(holds: () => boolean): Promise<void> {
  for (let i = 0; i < 200 && !holds(); i++) await new Promise((resolve) => setTimeout(resolve, 5));
  expect(holds()).toBe(true);
}
