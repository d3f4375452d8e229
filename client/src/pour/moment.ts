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
