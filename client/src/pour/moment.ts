/* What the table looks like at one moment, from the cues alone: which bowl is at which point, what is due for whom. */
import type { CupState, CupView } from "../kit/cups";
import type { Bowl } from "../wire/types";
import { openCues, type Cue } from "./clock";

const MINUTE = 60_000;
const EARLY = 15_000; // the spoon is in the hand a little before the break is due

type Due = Record<Cue["kind"], number>;

function dueOf(cues: readonly Cue[], bowl: number): Due {
  const due: Due = { pour: Infinity, break: Infinity, skim: Infinity, taste: Infinity };
  for (const cue of cues) if (cue.bowl === bowl) due[cue.kind] = cue.due;
  return due;
}

function stateAt(due: Due, now: number): CupState {
  if (now < due.pour) return "dry";
  if (now >= due.taste) return "ready";
  if (now < due.break - EARLY) return "poured";
  return now < due.break + MINUTE ? "breaking" : "skimmed";
}

/** Times of one bowl against now, in ms: since its pour, and until its break and first taste (negative: past). */
export interface BowlTimes {
  state: CupState;
  untilPour: number;
  sincePour: number;
  untilBreak: number;
  untilTaste: number;
}

export function bowlAt(cues: readonly Cue[], bowl: number, now: number): BowlTimes {
  const due = dueOf(cues, bowl);
  return {
    state: stateAt(due, now),
    untilPour: due.pour - now,
    sincePour: now - due.pour,
    untilBreak: due.break - now,
    untilTaste: due.taste - now,
  };
}

/** The act that is due now and the ones after it. */
export interface Moment<Known extends Cue = Cue> {
  now: Known | null;
  next: Known[];
}

/** `now` is the last act of a hand that came due and may still be done; `next` the `ahead` ones after it. */
export function momentOf<Known extends Cue>(cues: readonly Known[], now: number, ahead = 3): Moment<Known> {
  const acts = cues.filter((cue) => cue.kind !== "taste");
  return { now: presentAt(acts, now), next: cues.filter((cue) => cue.due > now && !cue.done).slice(0, ahead) };
}

/** The last act that came due and may still be done, a first taste among them; null where there is none. */
export function presentAt<Known extends Cue>(cues: readonly Known[], now: number): Known | null {
  return openCues(cues, now).filter((cue) => cue.due <= now).at(-1) ?? null;
}

/** The acts of one person and what is everybody's; all acts where no person is chosen. */
export function cuesOf<Known extends Cue>(cues: readonly Known[], person: number | null): Known[] {
  return cues.filter((cue) => person === null || cue.person === null || cue.person === person);
}

/** The acts of one person alone, without what is everybody's. */
export function ownCues<Known extends Cue>(cues: readonly Known[], person: number): Known[] {
  return cues.filter((cue) => cue.person === person);
}

/**
 * The act that a person marks as done next: the one after the last mark, or, once the clock has gone two acts past
 * it, the act the clock is at. A slow hand is one act late and still means its own bowl; whoever is two late is not
 * marking, and a mark for an earlier bowl now would put everything off. Null: nothing is left, or not yet to be done.
 */
export function actToMark(cues: readonly Cue[], person: number | null, now: number): Cue | null {
  const acts = cuesOf(cues, person).filter((cue) => cue.kind !== "taste");
  const next = acts.map((cue) => cue.done).lastIndexOf(true) + 1;
  const at = acts.map((cue) => cue.due <= now).lastIndexOf(true);
  const act = acts[at - next < 2 ? next : at];
  return act !== undefined && now >= act.due - EARLY && now <= act.ends + 5 * MINUTE ? act : null;
}

/** The cups for the picture; a ring is on the bowl of each person's present act, or on that of the next act of all. */
export function cupsAt(bowls: readonly Bowl[], cues: readonly Cue[], now: number): CupView[] {
  const present = peopleOf(cues).flatMap((person) => momentOf(cuesOf(cues, person), now, 0).now ?? []);
  const rings = present.length > 0 ? present : momentOf(cues, now, 1).next;
  const ringed = new Set(rings.map((cue) => cue.bowl));
  return bowls.map(({ place, number }, bowl) => ({
    id: String(bowl),
    place,
    number,
    state: cues.length === 0 ? "dry" : bowlAt(cues, bowl, now).state,
    now: ringed.has(bowl),
  }));
}

/** Everybody who has something to do, from 0. */
export function peopleOf(cues: readonly Cue[]): number[] {
  const persons = cues.flatMap((cue) => (cue.person === null ? [] : [cue.person]));
  return [...new Set(persons)].sort((a, b) => a - b);
}

/**
 * The acts that came due since `before`, to be called out at `now`. A page that slept calls out nothing of what it
 * missed: only what came due within the last three seconds.
 */
export function called<Known extends Cue>(cues: readonly Known[], before: number, now: number): Known[] {
  const since = Math.max(before, now - 3_000);
  return cues.filter((cue) => !cue.done && since < cue.due && cue.due <= now);
}
