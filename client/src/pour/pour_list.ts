import type { PourLine } from "../wire/types";

/** The lines of each flight, in pouring order. */
export function byFlight(lines: readonly PourLine[]): PourLine[][] {
  const flights = [...new Set(lines.map((line) => line.flight))];
  return flights.map((flight) => lines.filter((line) => line.flight === flight));
}
