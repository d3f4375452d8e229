/* The clock of a table and the acts on its bowls. */
import type { Schedule } from "../pour/clock";
import type { Coffee } from "./coffees";
import type { Millis } from "./table";

/** For the pourer's eyes alone; the flight counts from 1. */
export interface PourLine {
  code: string;
  coffee: Coffee;
  bowls: number;
  flight: number;
}

export type CueKind = "pour" | "break" | "skim" | "taste";

/** One act on one bowl (index in pouring order from 0), with its place and number; `person` is null for all. */
export interface Cue {
  kind: CueKind;
  bowl: number;
  place: string;
  number: number;
  due: Millis;
  earliest: Millis;
  latest: Millis;
  ends: Millis;
  person: number | null;
  done: boolean;
}

export interface RunSheet {
  now_ms: Millis;
  started_at: Millis | null;
  cues: Cue[];
  schedule: Schedule;
  /** what cannot be kept any more, in sentences */
  late: string[];
}
