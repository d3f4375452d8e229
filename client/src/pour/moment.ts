/* What the table looks like at one moment, from the cues alone: which bowl is at which point, what is due. */
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
  if (now < due.break - EARLY) return "poured";
  if (now < due.break + MINUTE) return "breaking";
  return now < due.taste ? "skimmed" : "ready";
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
export interface Moment {
  now: Cue | null;
  next: Cue[];
}

/** `now` is the last act that came due and may still be done; `next` the `ahead` ones after it. */
export function momentOf(cues: readonly Cue[], now: number, ahead = 3): Moment {
  const due = openCues(cues, now).filter((cue) => cue.due <= now && cue.kind !== "taste");
  return { now: due.at(-1) ?? null, next: cues.filter((cue) => cue.due > now).slice(0, ahead) };
}

/**
 * The bowl whose pour is marked next: the one after the last mark, or, once the clock has gone two bowls past
 * it, the bowl the clock is at. A slow hand is one bowl late and still means its own bowl; whoever is two late
 * is not marking, and a mark for the first bowl now would put all breaks off. Null: none is left, or it is too
 * late, since the first bowl has to be broken.
 */
export function bowlToMark(bowls: number, marked: readonly number[], cues: readonly Cue[], now: number): number | null {
  const firstBreak = cues.find((cue) => cue.kind === "break");
  if (firstBreak === undefined || now > firstBreak.latest) return null;
  const next = Math.max(-1, ...marked) + 1;
  const at = cues.filter((cue) => cue.kind === "pour" && cue.due <= now).at(-1)?.bowl ?? 0;
  const bowl = at - next < 2 ? next : at;
  return bowl < bowls ? bowl : null;
}

/** The cups for the picture; the ring is on the bowl of the present act, else of the next. */
export function cupsAt(bowls: readonly Bowl[], cues: readonly Cue[], now: number): CupView[] {
  const moment = momentOf(cues, now, 1);
  const at = moment.now ?? moment.next[0];
  return bowls.map(({ place, number }, bowl) => ({
    id: String(bowl),
    place,
    number,
    state: cues.length === 0 ? "dry" : bowlAt(cues, bowl, now).state,
    now: at?.bowl === bowl,
  }));
}
