/*
 * Phones and a server on a bad network, in memory and by seed: requests are dropped, doubled, delayed and
 * refused, answers lost, phones restarted in mid-send, clocks wrong. The outbox and the merge are the real
 * ones, or faulty ones that the checks at the end must find out. For tests only.
 */
import type { Kept, Note } from "../wire/types";
import { chance, type Chance } from "./chance.testing";
import { merge, question, standing } from "./merge";
import { type Ledger, sendOut } from "./outbox";
import type { Reply } from "./seat_server";
import { nextStamp } from "./stamp";

export interface Rules {
  send: typeof sendOut;
  hold: typeof standing;
}

export const REAL: Rules = { send: sendOut, hold: standing };
export const NOWHERE = "nowhere";

const STEPS = 60;
const SHARED = ["1", "2"];
const NAMES = ["a", "b", "c"];
const FAR = 100 * 365 * 86_400_000;

class Restart extends Error {}

/** Takes batches whole or not at all, each id once; the rows it keeps are what counts in the end. */
class Server {
  rows: Note[] = [];

  take(batch: Note[]): Reply<Kept> {
    if (batch.some((note) => note.place === NOWHERE)) return { kind: "refused", sentence: "There is no such place." };
    for (const note of batch) if (!this.rows.some((row) => row.id === note.id)) this.rows.push(note);
    return { kind: "ok", value: { kept: batch.map((note) => note.id), sequence: this.rows.length } };
  }
}

/** What one phone has on storage. It survives restarts; what is under way does not. */
class Phone implements Ledger {
  notes = new Map<string, Note>();
  state = new Map<string, "unsent" | "sent" | "refused">();
  seen = 0;
  readonly name: string;
  #hold: Rules["hold"];

  constructor(name: string, hold: Rules["hold"]) {
    this.name = name;
    this.#hold = hold;
  }

  write(place: string, value: string, now: number): Note {
    const stamp = nextStamp(this.seen, this.name);
    this.seen = stamp.counter;
    const note = { id: `${this.name}-${stamp.counter}`, place, pass: "p", field: "f", value, stamp, written_at: now };
    this.notes.set(note.id, note);
    this.state.set(note.id, "unsent");
    return note;
  }

  answer(place: string): Note | undefined {
    return this.#hold(this.notes.values()).get(question(place, "p", "f"));
  }

  get unsent(): Note[] {
    return [...this.notes.values()].filter((note) => this.state.get(note.id) === "unsent");
  }

  async sent(ids: string[]): Promise<void> {
    for (const id of ids) this.state.set(id, "sent");
  }

  async refused(id: string): Promise<void> {
    if (this.state.get(id) === "unsent") this.state.set(id, "refused");
  }

  pull(rows: Note[]): void {
    for (const note of merge(rows, [])) {
      if (!this.notes.has(note.id)) this.notes.set(note.id, note);
      this.state.set(note.id, "sent");
      this.seen = Math.max(this.seen, note.stamp.counter);
    }
  }
}

/** A finished run, for the checks. `latest` is what each place must show; empty where two phones crossed. */
export interface Run {
  log: string[];
  server: Note[];
  phones: { name: string; unsent: number; refused: string[]; shows: Record<string, string> }[];
  written: Note[];
  latest: Record<string, string>;
}

export async function run(seed: number, rules: Rules = REAL): Promise<Run> {
  const world = new World(chance(seed), rules);
  for (let step = 0; step < STEPS; step++) await world.step();
  await world.heal();
  return world.finished();
}

class World {
  #dice: Chance;
  #rules: Rules;
  #server = new Server();
  #phones: Phone[];
  #late: Note[][] = [];
  #written: Note[] = [];
  #latest = new Map<string, Note>();
  #log: string[] = [];

  constructor(dice: Chance, rules: Rules) {
    this.#dice = dice;
    this.#rules = rules;
    this.#phones = NAMES.map((name) => new Phone(name, rules.hold));
  }

  async step(): Promise<void> {
    const phone = this.#dice.one(this.#phones);
    const what = this.#dice.next();
    if (what < 0.5) this.#write(phone);
    else if (what < 0.75) await this.#sync(phone);
    else if (what < 0.93) phone.pull(this.#server.rows);
    else this.#deliverLate();
  }

  #write(phone: Phone): void {
    const place = this.#dice.one([...SHARED, `of-${phone.name}`, NOWHERE]);
    const rivals = this.#written.filter((note) => note.place === place);
    const note = phone.write(place, `${phone.name}${this.#written.length}`, Math.floor(this.#dice.next() * FAR));
    // Who has not seen all earlier answers writes beside them, not after them: then either may hold.
    if (rivals.every((rival) => phone.notes.has(rival.id))) this.#latest.set(place, note);
    else this.#latest.delete(place);
    this.#written.push(note);
    this.#log.push(`write ${note.id} ${place}`);
  }

  async #sync(phone: Phone): Promise<void> {
    try {
      const outcome = await this.#rules.send(phone.unsent, (batch) => this.#network(batch), phone);
      this.#log.push(`sync ${phone.name} ${outcome.end}`);
    } catch (error) {
      if (!(error instanceof Restart)) throw error;
      this.#log.push(`restart ${phone.name}`);
    }
  }

  /** One request on its way, with whatever fate the dice give it. */
  async #network(batch: Note[]): Promise<Reply<Kept>> {
    const lost: Reply<Kept> = { kind: "later", sentence: "No answer.", fault: false };
    const fate = this.#dice.next();
    if (fate < 0.15) return lost;
    if (fate < 0.25) {
      this.#late.push(batch);
      return lost;
    }
    if (fate < 0.3) return { kind: "later", sentence: "Broken.", fault: true };
    const reply = this.#server.take(batch);
    if (fate < 0.4) return lost;
    if (fate < 0.45) throw new Restart();
    if (fate < 0.55) this.#server.take(batch);
    if (fate < 0.6 && reply.kind === "ok") {
      return { kind: "ok", value: { ...reply.value, kept: reply.value.kept.slice(1) } };
    }
    return reply;
  }

  #deliverLate(): void {
    const [batch] = this.#late.splice(this.#dice.below(Math.max(1, this.#late.length)), 1);
    if (batch) this.#server.take(batch);
  }

  /** The network is well again: everybody sends and receives until nothing changes. */
  async heal(): Promise<void> {
    while (this.#late.length > 0) this.#deliverLate();
    for (const phone of this.#phones) {
      await this.#rules.send(phone.unsent, async (batch) => this.#server.take(batch), phone);
    }
    for (const phone of this.#phones) phone.pull(this.#server.rows);
  }

  finished(): Run {
    const places = [...SHARED, ...NAMES.map((name) => `of-${name}`)];
    const shown = (phone: Phone) => Object.fromEntries(places.map((place) => [place, phone.answer(place)?.id ?? ""]));
    return {
      log: this.#log,
      server: this.#server.rows,
      phones: this.#phones.map((phone) => ({
        name: phone.name,
        unsent: phone.unsent.length,
        refused: [...phone.state].filter(([, state]) => state === "refused").map(([id]) => id),
        shows: shown(phone),
      })),
      written: this.#written,
      latest: Object.fromEntries(places.map((place) => [place, this.#latest.get(place)?.id ?? ""])),
    };
  }
}

/** What is wrong with a finished run, in sentences; nothing, if every promise was kept. */
export function complaints({ server, phones, written, latest }: Run): string[] {
  const found: string[] = [];
  const ids = (notes: Note[]) => notes.map((note) => note.id).sort();
  const good = written.filter((note) => note.place !== NOWHERE);
  const there = ids(server);
  for (const id of ids(good)) if (!there.includes(id)) found.push(`lost: ${id}`);
  for (const id of there) if (!ids(good).includes(id)) found.push(`invented: ${id}`);
  if (new Set(there).size < there.length) found.push("doubled on the server");
  for (const note of good) {
    const row = server.find((one) => one.id === note.id);
    if (row && JSON.stringify(row) !== JSON.stringify(note)) found.push(`changed: ${note.id}`);
  }
  const bad = written.filter((note) => note.place === NOWHERE);
  const refused = phones.flatMap((phone) => phone.refused).sort();
  if (JSON.stringify(refused) !== JSON.stringify(ids(bad))) found.push("refused notes are not those without a place");
  for (const phone of phones) {
    if (phone.unsent > 0) found.push(`${phone.name} still has ${phone.unsent} unsent`);
    if (JSON.stringify(phone.shows) !== JSON.stringify(phones[0]!.shows)) found.push(`${phone.name} disagrees`);
    for (const [place, id] of Object.entries(latest)) {
      if (id !== "" && phone.shows[place] !== id) found.push(`${phone.name} shows ${phone.shows[place]} at ${place}, not ${id}`);
    }
  }
  return found;
}
