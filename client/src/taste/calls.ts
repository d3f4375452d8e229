/* What is called out to a taster: each act once a place, since nobody waits for a place's second bowl. */
import type { Cue } from "../wire/types";
import { asSpoken } from "../words/clock_en";
import { taster } from "../words/taster_en";

/** The first cue of each act at each place, in order of time. */
export function tasterCues(cues: readonly Cue[]): Cue[] {
  const called = new Set<string>();
  return cues.filter(({ kind, place }) => !called.has(`${kind}/${place}`) && called.add(`${kind}/${place}`));
}

/** A cue as it is called out. */
export const saidToTaster = (cue: Cue): string => taster.clock.said(cue.kind, asSpoken(cue.place));
