/* Which words of the lexicon a written word may stand for: as it is, inflected, or mistyped; as core/words/spelling.py does. */
import type { Endings } from "./lexicon";

export const EXACT = 1.0;
export const INFLECTED = 0.95;
export const DERIVED = 0.9;
export const ONE_SLIP = 0.8;
export const TWO_SLIPS = 0.6;

const SHORTEST_STEM = 3;

/** A word of the lexicon that a written word may stand for, and how surely. `alone`: only as a phrase of one word. */
export interface Candidate {
  word: string;
  certainty: number;
  alone: boolean;
  compares: string;
}

interface Has {
  has(word: string): boolean;
}

/** The known words that a word may be a form of, itself first. */
export function inflectedFrom(word: string, known: Has, endings: Endings): Candidate[] {
  const found: Candidate[] = [];
  const plain: [string, string][] = [[word, ""]];
  without(word, endings.number, endings, plain);
  for (const [stem, ending] of plain) {
    if (!known.has(stem) || holds(found, stem)) continue;
    const certainty = stem === word ? EXACT : INFLECTED;
    found.push({ word: stem, certainty, alone: false, compares: comparing(ending, endings) });
  }
  for (const [longer, ending] of plain) {
    for (const [stem] of without(longer, endings.quality, endings, [])) {
      for (const [thing] of things(stem, endings)) {
        if (!known.has(thing) || holds(found, thing)) continue;
        found.push({ word: thing, certainty: DERIVED, alone: true, compares: comparing(ending, endings) });
      }
    }
  }
  return found;
}

function holds(found: readonly Candidate[], word: string): boolean {
  return found.some((candidate) => candidate.word === word);
}

function comparing(ending: string, endings: Endings): string {
  return endings.comparing.includes(ending) ? ending : "";
}

function things(stem: string, endings: Endings): [string, string][] {
  const found: [string, string][] = [[stem, ""]];
  without(stem, endings.number, endings, found);
  return without(stem, endings.quality, endings, found);
}

/** What may have stood before an ending was put on, with the ending; put behind `found`. */
function without(word: string, replaced: Endings["number"], endings: Endings, found: [string, string][]): [string, string][] {
  for (const row of replaced) {
    const ending = row[0]!;
    if (!word.endsWith(ending)) continue;
    const stem = word.slice(0, word.length - ending.length);
    if (stem.length < SHORTEST_STEM || !mayEnd(stem, ending, endings)) continue;
    for (let at = 1; at < row.length; at += 1) found.push([stem + row[at]!, ending]);
    if (endings.doubling.includes(ending) && stem.at(-1) === stem.at(-2)) found.push([stem.slice(0, -1), ending]);
  }
  return found;
}

/** No plural of "ss" (glass), and "es" only after a hissing sound or o (peaches, tomatoes). */
function mayEnd(stem: string, ending: string, endings: Endings): boolean {
  if (ending === "es" && endings.hissing.length > 0) return endings.hissing.some((sound) => stem.endsWith(sound));
  return !(ending === "s" && stem.endsWith("s"));
}
