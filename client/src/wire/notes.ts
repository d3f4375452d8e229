/* Notes: answers as they travel, and what they add up to. */
import type { Millis } from "./table";

/** A colour in OKLab: l in 0..1, a and b in -0.5..0.5. */
export interface Colour {
  l: number;
  a: number;
  b: number;
}

/**
 * By kind. words, text, choice, points, odd: text. line: number. colour: Colour. ticks, cups: cup numbers. tags: texts.
 * faults: cup -> 0, 2 or 4. rank: place -> its number in the order. null: taken back.
 */
export type Value = string | number | number[] | string[] | Colour | Record<string, number> | null;

/** Which of two notes for one question is the newer: the greater counter, then the greater device. */
export interface Stamp {
  counter: number;
  device: string;
}

/** One answer of a seat. `written_at` is the table's time as the device knew it: never for order. */
export interface Note {
  id: string;
  place: string;
  pass: string;
  field: string;
  value: Value;
  stamp: Stamp;
  written_at: Millis;
}

/** The answer to notes sent: the ids that are safe, and the highest number in the server's own count. */
export interface Kept {
  kept: string[];
  sequence: number;
}

/** What one taster's answers on one sample add up to; `total` is null while something is open. */
export interface TableTotal {
  seat: string;
  name: string;
  place: string;
  coffee: string;
  total: number | null;
  low: number;
  high: number;
  lines: string[];
  complaints: string[];
}
