/* A server as far as a seat sees it: all or nothing a batch, each id once, refusals in the one form. For tests only. */
import type { Correction, Note, OwnWord, SeatTable, SeatView } from "../wire/types";
import { sameBody } from "./merge";
import type { Fetch } from "./seat_server";

export const TOKEN = "token-1";
export const SEAT = { id: "seat-1", name: "Anna", order: ["591", "274"] };

export function aTable(changes: Partial<SeatTable> = {}): SeatTable {
  return {
    id: "table-1",
    name: "Morning",
    step: "taste",
    blinding: "codes",
    places: ["274", "591"],
    bowls: [],
    sheet: { name: "open", version: 1, title: "Open sheet", liking: null, passes: [] },
    commitment: "0".repeat(64),
    clock: { started_at: null, pours: [], done: [] },
    cues: [],
    ...changes,
  };
}

interface Sent {
  notes?: Note[];
  corrections?: Correction[];
}

export class FakeServer {
  table = aTable();
  notes: Note[] = [];
  own: OwnWord[] = [];
  corrections: Correction[] = [];
  requests: string[] = [];
  now = 1_700_000_000_000;
  tokens = new Set([TOKEN]);
  /** Instead of an answer, as long as it gives one. */
  trouble: ((path: string, notes: Note[]) => Response | null) | null = null;
  down = false;
  /** After the server has done its part, its answer is lost. */
  deaf = false;

  readonly fetch: Fetch = async (input, init) => {
    this.requests.push(`${init?.method ?? "GET"} ${input}`);
    if (this.down) throw new TypeError("Failed to fetch");
    const body = typeof init?.body === "string" ? (JSON.parse(init.body) as Sent) : {};
    const response = this.trouble?.(input, body.notes ?? []) ?? this.#answer(input, init, body);
    if (this.deaf) throw new TypeError("Failed to fetch");
    return response;
  };

  #answer(path: string, init: RequestInit | undefined, body: Sent): Response {
    const token = new Headers(init?.headers).get("Authorization")?.replace("Bearer ", "") ?? "";
    if (!this.tokens.has(token)) return problem(401, "This device holds no seat.");
    if (path === "/api/seat/notes") return this.#take(body.notes ?? []);
    if (path === "/api/seat/corrections") return this.#takeCorrections(body.corrections ?? []);
    const after = Number(new URL(path, "http://table").searchParams.get("after"));
    return json(200, this.view(after));
  }

  view(after = 0): SeatView {
    const sequence = Math.max(after, this.notes.length);
    const words = after === 0 ? { own: this.own, corrections: this.corrections } : null;
    return { now_ms: this.now, table: this.table, seat: SEAT, notes: this.notes.slice(after), sequence, words };
  }

  #takeCorrections(corrections: Correction[]): Response {
    for (const one of corrections) if (!this.corrections.some((kept) => kept.id === one.id)) this.corrections.push(one);
    return json(200, { kept: corrections.map((one) => one.id) });
  }

  #take(notes: Note[]): Response {
    for (const note of notes) {
      const twin = this.notes.find((kept) => kept.id === note.id);
      if (twin && !sameBody(twin, note)) return problem(409, `The id ${note.id} is taken.`);
      if (!this.table.places.includes(note.place)) return problem(404, `There is no place '${note.place}'.`);
      if (!twin && this.table.step === "reveal") return problem(409, "You cannot write notes now.");
    }
    for (const note of notes) if (!this.notes.some((kept) => kept.id === note.id)) this.notes.push(note);
    return json(200, { kept: notes.map((note) => note.id), sequence: this.notes.length });
  }
}

export function json(status: number, body: unknown): Response {
  return new Response(JSON.stringify(body), { status, headers: { "Content-Type": "application/json" } });
}

export function problem(status: number, detail: string): Response {
  return new Response(JSON.stringify({ type: "about:blank", title: "No", status, detail, todo: "", where: null }), {
    status,
    headers: { "Content-Type": "application/problem+json" },
  });
}
