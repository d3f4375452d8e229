/*
 * The way through a sheet: flight by flight; in a flight pass by pass, and within a pass from cup to cup in this
 * seat's own order. What is asked once, of the whole table, comes in the last flight.
 */
import { question } from "../local/merge";
import type { Pass, Sheet } from "../wire/types";

/** Where the answers stand that a pass asks once, of the whole table. */
export const WHOLE_TABLE = "table";

/** Where a taster is: pass `round` of the sheet, cup `stop` of the seat's order; both from 0. */
export interface Standing {
  round: number;
  stop: number;
}

/** `flights` part the places into what is tasted without a break; without them all are one flight. */
export interface Way {
  sheet: Sheet;
  order: readonly string[];
  flights?: readonly (readonly string[])[];
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

/** The next cup, the first cup of the next pass or of the next flight; null after the last. */
export function after(way: Way, at: Standing): Standing | null {
  const path = pathOf(way);
  return path[indexOn(path, at) + 1] ?? null;
}

/** The cup before, also the last one of the pass or flight before; null at the beginning. */
export function before(way: Way, at: Standing): Standing | null {
  const path = pathOf(way);
  return path[indexOn(path, at) - 1] ?? null;
}

/** Whether a break comes between two stops: they are cups of different flights. */
export function isBreak(way: Way, from: Standing, to: Standing): boolean {
  const [one, other] = [placeAt(way, from), placeAt(way, to)].map((place) => flightOf(way, place));
  return one !== -1 && other !== -1 && one !== other;
}

const flightOf = (way: Way, place: string): number => (way.flights ?? []).findIndex((flight) => flight.includes(place));

const indexOn = (path: readonly Standing[], at: Standing): number =>
  path.findIndex(({ round, stop }) => round === at.round && stop === at.stop);

/** Every stop of the way, in order. */
function pathOf(way: Way): Standing[] {
  const flights = [...new Set(way.order.map((place) => flightOf(way, place)))];
  return flights.flatMap((flight) =>
    way.sheet.passes.flatMap((pass, round) =>
      stopsOf(pass, way.order)
        .map((place, stop) => ({ place, round, stop }))
        .filter(({ place }) => (pass.over === "table" ? flight === flights.at(-1) : flightOf(way, place) === flight))
        .map(({ round, stop }) => ({ round, stop })),
    ),
  );
}

/** A standing read back from storage, if it still fits the sheet and the order; else the beginning. */
export function fitting(way: Way, kept: unknown): Standing {
  const { round, stop } = (kept ?? {}) as Partial<Standing>;
  const fits = (n: unknown, end: number): n is number => Number.isInteger(n) && (n as number) >= 0 && (n as number) < end;
  return fits(round, way.sheet.passes.length) && fits(stop, stopsAt(way, round).length) ? { round, stop } : (pathOf(way)[0] ?? START);
}

/** Whether anything at all is answered for a place in a pass. */
export function answered(answers: ReadonlyMap<string, unknown>, pass: Pass, place: string): boolean {
  return pass.fields.some((field) => answers.has(question(place, pass.id, field.id)));
}

/** How many places of a pass have an answer; the whole table counts as one. */
export function doneIn(answers: ReadonlyMap<string, unknown>, pass: Pass, order: readonly string[]): number {
  return stopsOf(pass, order).filter((place) => answered(answers, pass, place)).length;
}
