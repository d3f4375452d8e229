/*
 * The phone's own database: every note is safe here before anything else happens to it.
 *
 * One database for all tabs of a browser. Whatever must not be done twice (giving a stamp) is done inside
 * one transaction, since locks between tabs need a secure page and a phone at the table may not have one.
 */
import Dexie, { type EntityTable } from "dexie";
import type { Correction, Note, OwnWord, Seat, SeatTable } from "../wire/types";

/** unsent: the server has not acknowledged it. refused: the server said no, for the reason in `why`. */
export type State = "unsent" | "sent" | "refused";

export interface KeptNote extends Note {
  seat: string;
  state: State;
  why?: string;
}

/** A seat this browser has sat on, with the last that was seen of its table, so that it opens offline. */
export interface KeptSeat {
  seat: string;
  token: string;
  opened_at: number;
  table: SeatTable | null;
  who: Seat | null;
}

/** A correction of one taster (the name as compared), whatever the table. States as of a note. */
export interface KeptCorrection extends Correction {
  taster: string;
  state: State;
  why?: string;
}

/** The own words of the installation, as last seen. There is one row. */
export interface KeptOwnWords {
  key: "own";
  words: OwnWord[];
}

/** This device's name and the greatest counter it has seen. There is one row. */
export interface Device {
  key: "this";
  name: string;
  seen: number;
}

export class PhoneDb extends Dexie {
  notes!: EntityTable<KeptNote, "id">;
  seats!: EntityTable<KeptSeat, "seat">;
  device!: EntityTable<Device, "key">;
  corrections!: EntityTable<KeptCorrection, "id">;
  words!: EntityTable<KeptOwnWords, "key">;

  constructor(name = "cupwright") {
    // Browsers report a write as done before it is on storage unless asked not to.
    super(name, { chromeTransactionDurability: "strict" });
    this.version(1).stores({ notes: "id, seat", seats: "seat, opened_at", device: "key" });
    this.version(2).stores({ corrections: "id, taster", words: "key" });
  }
}

/** The note without what only this device knows. */
export function onTheWire(kept: KeptNote): Note {
  const { id, place, pass, field, value, stamp, written_at } = kept;
  return { id, place, pass, field, value, stamp, written_at };
}
