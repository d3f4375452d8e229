/**
 * The table's clock, computed from time stamps alone: a reload or a sleeping tab cannot make it drift.
 *
 * The same rules as src/cupwright/core/pour/run_sheet.py; tests/contract/clock_cases.json is run against
 * both. Names are those of the wire. All times are milliseconds of the server's clock since 1970.
 */

export type CueKind = "pour" | "break" | "skim" | "taste";

/** Marks in `pours` are [bowl in pouring order from 0, time of its real pour]. */
export interface Clock {
  started_at: number | null;
  pours: readonly (readonly [number, number])[];
}

/** Seconds; `pour_every_s` from bowl to bowl, all others from a bowl's own pour. `acts` are those there are, all if not said. */
export interface Timing {
  pour_every_s: number;
  break_at_s: number;
  break_earliest_s: number;
  break_latest_s: number;
  skim_at_s: number;
  taste_from_s: number;
  taste_to_s: number;
  acts?: readonly CueKind[];
}

export interface Cue {
  kind: CueKind;
  bowl: number;
  due: number;
  earliest: number;
  latest: number;
}

export const STANDARD_TIMING: Timing = {
  pour_every_s: 20,
  break_at_s: 240,
  break_earliest_s: 180,
  break_latest_s: 300,
  skim_at_s: 360,
  taste_from_s: 480,
  taste_to_s: 600,
};

// Which of two acts comes first when both are due at one moment.
const RANK: Record<CueKind, number> = { pour: 0, break: 1, skim: 2, taste: 3 };

/**
 * Everything that is due, in order of time; empty while the clock is not started.
 *
 * A bowl without a mark follows the bowl before it at the planned pace, so a delay moves all that follow.
 */
export function runSheet(bowls: number, clock: Clock, timing: Timing = STANDARD_TIMING): Cue[] {
  if (clock.started_at === null) return [];
  const pours = pourTimes(bowls, clock.started_at, new Map(clock.pours), timing);
  return pours.flatMap((poured, bowl) => cuesOf(bowl, poured, timing)).sort(byTime);
}

function pourTimes(bowls: number, startedAt: number, marks: Map<number, number>, timing: Timing): number[] {
  const times: number[] = [];
  let planned = startedAt;
  for (let bowl = 0; bowl < bowls; bowl += 1) {
    const poured = marks.get(bowl) ?? planned;
    times.push(poured);
    planned = poured + timing.pour_every_s * 1000;
  }
  return times;
}

function cuesOf(bowl: number, poured: number, timing: Timing): Cue[] {
  const cue = (kind: CueKind, due: number, earliest: number, latest: number): Cue => ({
    kind,
    bowl,
    due: poured + due * 1000,
    earliest: poured + earliest * 1000,
    latest: poured + latest * 1000,
  });
  const cues = [
    cue("pour", 0, 0, 0),
    cue("break", timing.break_at_s, timing.break_earliest_s, timing.break_latest_s),
    cue("skim", timing.skim_at_s, timing.break_at_s, timing.taste_from_s),
    cue("taste", timing.taste_from_s, timing.taste_from_s, timing.taste_to_s),
  ];
  return cues.filter(({ kind }) => timing.acts?.includes(kind) ?? true);
}

function byTime(a: Cue, b: Cue): number {
  return a.due - b.due || RANK[a.kind] - RANK[b.kind] || a.bowl - b.bowl;
}

/** The cues that may be acted on now: inside their own window, or, for a pour, within its 20 seconds. */
export function openCues(cues: readonly Cue[], now: number, timing: Timing = STANDARD_TIMING): Cue[] {
  const closes = (cue: Cue): number => (cue.kind === "pour" ? cue.due + timing.pour_every_s * 1000 - 1 : cue.latest);
  return cues.filter((cue) => cue.earliest <= now && now <= closes(cue));
}

/**
 * How far the server's clock is ahead of this device's (ms), from one answer of the server.
 *
 * Error: at most half of the time the answer took. Add it to `Date.now()` to get the time of the table.
 */
export function serverAhead(serverNow: number, asked: number, answered: number): number {
  return serverNow - (asked + answered) / 2;
}

/**
 * A countdown as minutes and seconds, "4:00". It rounds up, so 0:00 means now; below it the lateness, "−0:05".
 */
export function asMinutes(milliseconds: number): string {
  const left = Math.ceil(milliseconds / 1000);
  const seconds = Math.abs(left);
  return `${left < 0 ? "−" : ""}${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
}
