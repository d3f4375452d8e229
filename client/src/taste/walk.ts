/* The way through a sheet: pass by pass, and within a pass from cup to cup in this seat's own order. */
import { question } from "../local/merge";
import type { Pass, Sheet } from "../wire/types";

/** Where the answers stand that a pass asks once, of the whole table. */
export const WHOLE_TABLE = "table";

/** Where a taster is: pass `round` of the sheet, cup `stop` of the seat's order; both from 0. */
export interface Standing {
  round: number;
  stop: number;
}

export interface Way {
  sheet: Sheet;
  order: readonly string[];
}

const START: Standing = { round: 0, stop: 0 };

/** Where a pass is asked: at each place of the order, or once for the whole table. */
export function stopsOf(pass: Pass | undefined, order: readonly string[]): readonly string[] {
  return pass?.over === "table" ? [WHOLE_TABLE] : order;
}

const stopsAt = (way: Way, round: number): readonly string[] => stopsOf(way.sheet.passes[round], way.order);

export function passAt(way: Way, at: Standing): Pass | undefined {
  return way.sheet.passes[at.round];
}

export function placeAt(way: Way, at: Standing): string {
  return stopsAt(way, at.round)[at.stop] ?? "";
}

/** The next cup, or the first cup of the next pass; null after the last. */
export function after(way: Way, at: Standing): Standing | null {
  if (at.stop + 1 < stopsAt(way, at.round).length) return { ...at, stop: at.stop + 1 };
  return at.round + 1 < way.sheet.passes.length ? { round: at.round + 1, stop: 0 } : null;
}

/** The cup before, or the last cup of the pass before; null at the beginning. */
export function before(way: Way, at: Standing): Standing | null {
  if (at.stop > 0) return { ...at, stop: at.stop - 1 };
  return at.round > 0 ? { round: at.round - 1, stop: stopsAt(way, at.round - 1).length - 1 } : null;
}

/** A standing read back from storage, if it still fits the sheet and the order; else the beginning. */
export function fitting(way: Way, kept: unknown): Standing {
  const { round, stop } = (kept ?? {}) as Partial<Standing>;
  const fits = (n: unknown, end: number): n is number => Number.isInteger(n) && (n as number) >= 0 && (n as number) < end;
  return fits(round, way.sheet.passes.length) && fits(stop, stopsAt(way, round).length) ? { round, stop } : START;
}

/** Whether anything at all is answered for a place in a pass. */
export function answered(answers: ReadonlyMap<string, unknown>, pass: Pass, place: string): boolean {
  return pass.fields.some((field) => answers.has(question(place, pass.id, field.id)));
}

/** How many places of a pass have an answer; the whole table counts as one. */
export function doneIn(answers: ReadonlyMap<string, unknown>, pass: Pass, order: readonly string[]): number {
  return stopsOf(pass, order).filter((place) => answered(answers, pass, place)).length;
}
