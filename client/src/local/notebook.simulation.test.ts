// @vitest-environment happy-dom
/* The whole notebook, database and all, on a network that fails by seed. Fewer runs than the outbox alone has. */
import { describe, expect, test } from "vitest";
import type { Note } from "../wire/types";
import { chance, type Chance } from "./chance.testing";
import { PhoneDb } from "./db";
import { answers } from "./merge";
import { Notebook } from "./notebook";
import type { Fetch } from "./seat_server";
import { aTable, FakeServer, problem, SEAT, TOKEN } from "./server.testing";

const RUNS = Number(import.meta.env["VITE_NOTEBOOK_RUNS"] ?? 25);
const STEPS = 30;
const PLACES = ["274", "591"];

/** Every request meets a fate: lost, doubled, its answer lost, delivered late, a fault, a stranger's page. */
class BadNetwork {
  well = false;
  #late: (() => Promise<unknown>)[] = [];
  #server: FakeServer;
  #dice: Chance;

  constructor(server: FakeServer, dice: Chance) {
    this.#server = server;
    this.#dice = dice;
  }

  readonly fetch: Fetch = async (input, init) => {
    const deliver = () => this.#server.fetch(input, init);
    const fate = this.well ? 1 : this.#dice.next();
    if (fate < 0.06) return problem(500, "Broken.");
    if (fate < 0.1) return new Response("<html>Welcome</html>");
    if (fate < 0.2) this.#late.push(deliver);
    else if (fate >= 0.32) {
      if (fate < 0.5) await deliver();
      if (fate >= 0.42) return deliver();
    }
    throw new TypeError("Failed to fetch");
  };

  async deliverLate(): Promise<void> {
    for (const deliver of this.#late.splice(0)) await deliver();
  }
}

interface Finished {
  server: FakeServer;
  kept: Note[];
  written: Set<string>;
}

/** Two phones of one seat, the first with two tabs open. `wreck` is a fault planted into a phone at its restart. */
async function run(seed: number, wreck: (db: PhoneDb) => Promise<void> = async () => undefined): Promise<Finished> {
  const dice = chance(seed);
  const server = new FakeServer();
  const network = new BadNetwork(server, dice);
  const names = ["one", "one", "two"].map((name) => `sim-${seed}-${wreck.name}-${name}`);
  const sit = async (name: string): Promise<Notebook> => {
    const world = { fetch: network.fetch, now: () => Math.floor(dice.next() * 4e12), random: () => 1 };
    const quiet = { schedule: () => () => undefined, whenBack: () => () => undefined, persist: async () => null };
    const book = new Notebook({ ...world, ...quiet }, new PhoneDb(name));
    await book.open(SEAT.id, TOKEN, { table: aTable({ places: PLACES }), seat: SEAT });
    return book;
  };
  const books = await Promise.all(names.map(sit));
  const written = new Set<string>();

  for (let step = 0; step < STEPS; step++) {
    const at = dice.below(books.length);
    const what = dice.next();
    if (what < 0.55) {
      const value = `${seed}-${step}`;
      written.add(value);
      await books[at]!.write(dice.one([...PLACES, "nowhere"]), "flavour", dice.one(["words", "line"]), value);
    } else if (what < 0.85) await books[at]!.sync();
    else if (what < 0.93) await network.deliverLate();
    else {
      books[at]!.close();
      await wreck(new PhoneDb(names[at]));
      books[at] = await sit(names[at]!);
    }
  }

  network.well = true;
  await network.deliverLate();
  for (let round = 0; round < 3; round++) for (const book of books) await book.sync();
  const dbs = [...new Set(names)].map((name) => new PhoneDb(name));
  const kept = (await Promise.all(dbs.map((db) => db.notes.toArray()))).flat();
  for (const book of books) book.close();
  return { server, kept, written };
}

function complaints({ server, kept, written }: Finished): string[] {
  const found: string[] = [];
  const values = new Set(kept.map((note) => note.value));
  for (const value of written) if (!values.has(value)) found.push(`a phone lost '${value}'`);
  const there = server.notes.map((note) => note.id);
  if (new Set(there).size < there.length) found.push("doubled on the server");
  for (const note of kept.filter((one) => PLACES.includes(one.place))) {
    if (!there.includes(note.id)) found.push(`the server lost '${String(note.value)}'`);
  }
  return found;
}

describe(`in ${RUNS} runs on a bad network`, () => {
  test("no note is lost or doubled, and phones and server end equal", { timeout: 300_000 }, async () => {
    for (let seed = 0; seed < RUNS; seed++) {
      const finished = await run(seed);

      expect(complaints(finished), `seed ${seed}`).toEqual([]);
      const held = [...answers(finished.server.notes)].map(([asked, note]) => [asked, note.id]).sort();
      const db = finished.kept as (Note & { state: string })[];
      expect(db.filter((note) => note.state === "unsent"), `seed ${seed}`).toEqual([]);
      expect(new Set(db.filter((note) => note.state === "refused").map((note) => note.place))).toEqual(
        new Set(db.some((note) => note.place === "nowhere") ? ["nowhere"] : []),
      );
      const ofPhones = db.filter((note) => PLACES.includes(note.place));
      expect([...answers(ofPhones)].map(([asked, note]) => [asked, note.id]).sort(), `seed ${seed}`).toEqual(held);
    }
  });
});

test("a phone that forgets its last note when it restarts is found out", { timeout: 60_000 }, async () => {
  const forgetting = async (db: PhoneDb): Promise<void> => {
    const [last] = (await db.notes.toArray()).sort((a, b) => b.stamp.counter - a.stamp.counter);
    if (last) await db.notes.delete(last.id);
  };

  let found = 0;
  for (let seed = 0; seed < 10; seed++) if (complaints(await run(seed, forgetting)).length > 0) found++;

  expect(found).toBeGreaterThan(3);
});
