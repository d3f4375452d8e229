/* A taster's side of a table, and how far each taster is. */
import type { Note } from "./notes";
import type { Cue } from "./pour";
import type { Sheet } from "./sheet";
import type { Blinding, Bowl, Clock, Millis, Seat, Step } from "./table";
import type { Correction, OwnWord } from "./words";

export interface PassProgress {
  pass: string;
  done: number;
  all: number;
}

export interface SeatProgress {
  seat: string;
  name: string;
  passes: PassProgress[];
  last_seen: Millis | null;
}

/** What a taster may know of a table before the reveal: no coffee, no grams, no order drawn from them. */
export interface SeatTable {
  id: string;
  name: string;
  step: Step;
  blinding: Blinding;
  places: string[];
  /** The places, parted into what is tasted without a break. */
  flights?: string[][];
  bowls: Bowl[];
  sheet: Sheet;
  commitment: string;
  clock: Clock;
  cues: Cue[];
}

/** What a phone reads its taster's words with, beside the lexicon. */
export interface SeatWords {
  own: OwnWord[];
  corrections: Correction[];
}

/** `words` come with a whole view only, after=0. */
export interface SeatView {
  now_ms: Millis;
  table: SeatTable;
  seat: Seat;
  notes: Note[];
  sequence: number;
  words: SeatWords | null;
}

export interface Joined {
  token: string;
  seat: Seat;
  table: SeatTable;
}
