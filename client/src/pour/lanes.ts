/* The picture of a run sheet: a lane of time for each person, acts as marks. Lengths are shares of the width. */
import type { Cue, CueKind, Flight } from "./clock";

export interface Mark {
  key: string;
  kind: CueKind;
  bowl: number;
  from: number;
  to: number;
  done: boolean;
  late: boolean;
}

export interface Lanes {
  /** moment at the left edge */
  start: number;
  /** whole minutes since the left edge */
  ticks: { minute: number; at: number }[];
  people: { person: number; marks: Mark[] }[];
  /** where tasting begins */
  taste: number | null;
  at: (moment: number) => number;
}

const MINUTE = 60_000;

/** The cues of one flight, laid out from its first pour to the last act before the first taste is over. */
export function lanesOf(cues: readonly Cue[], flight: Flight): Lanes | null {
  const own = cues.filter((cue) => flight.first <= cue.bowl && cue.bowl < flight.after);
  const acts = own.filter((cue) => cue.person !== null);
  if (acts.length === 0) return null;
  const start = Math.min(...acts.map((cue) => cue.due));
  const tastes = own.filter((cue) => cue.kind === "taste").map((cue) => cue.due);
  const taste = tastes.length > 0 ? Math.min(...tastes) : null;
  const last = Math.max(...acts.map((cue) => cue.ends), ...(taste === null ? [] : [taste]));
  const minutes = Math.max(1, Math.ceil((last - start) / MINUTE));
  const at = (moment: number): number => (moment - start) / (minutes * MINUTE);
  const persons = [...new Set(acts.map((cue) => cue.person!))].sort((a, b) => a - b);
  return {
    start,
    ticks: Array.from({ length: minutes + 1 }, (_, minute) => ({ minute, at: minute / minutes })),
    people: persons.map((person) => ({
      person,
      marks: acts.filter((cue) => cue.person === person).map((cue) => markOf(cue, at)),
    })),
    taste: taste === null ? null : at(taste),
    at,
  };
}

/** The flight that is at hand: the first one with something left to do, else the last. */
export function flightAt<Known extends Flight>(flights: readonly Known[], cues: readonly Cue[], now: number): Known | null {
  const left = (flight: Flight) =>
    cues.some((cue) => flight.first <= cue.bowl && cue.bowl < flight.after && cue.person !== null && cue.ends > now && !cue.done);
  return flights.find(left) ?? flights.at(-1) ?? null;
}

function markOf(cue: Cue, at: (moment: number) => number): Mark {
  const late = cue.kind !== "pour" && cue.due > cue.latest;
  return { key: `${cue.kind}/${cue.bowl}`, kind: cue.kind, bowl: cue.bowl, from: at(cue.due), to: at(cue.ends), done: cue.done, late };
}
