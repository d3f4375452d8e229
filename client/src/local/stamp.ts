/* Stamps: which of two notes is the newer, without trusting any clock. As src/cupwright/core/taste/stamp.py. */
import type { Stamp } from "../wire/types";

/** Less than 0 if `a` comes before `b`: by counter, then by device. */
export function compareStamps(a: Stamp, b: Stamp): number {
  return a.counter - b.counter || compareText(a.device, b.device);
}

/** By code point, never by language: ids and devices are ASCII. */
export function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

/** The stamp of a new note on a device that has seen counters up to `seen`. */
export function nextStamp(seen: number, device: string): Stamp {
  return { counter: seen + 1, device };
}
