/* The cooling of a table's bowls over the wire. Minutes count from each bowl's own pour; temperatures are °C. */
import type { Millis } from "./types";

/** When a temperature is reached, with its interval; null: not within six hours. */
export interface Reached {
  minutes: number | null;
  low: number | null;
  high: number | null;
}

/** One round of the protocol, from one temperature down to another (the same where it is one moment). */
export interface Round {
  title: string;
  from_c: number;
  to_c: number | null;
  starts: Reached;
  ends: Reached | null;
}

export interface Reading {
  bowl: number;
  place: string;
  number: number;
  minutes: number;
  celsius: number;
  at: Millis;
}

export interface Cooling {
  vessel: string;
  basis: string;
  start_c: number;
  room_c: number;
  level: number;
  minutes: number[];
  celsius: number[];
  low: number[];
  high: number[];
  windows: Round[];
  readings: Reading[];
  caution: string;
  doubt: string;
}
