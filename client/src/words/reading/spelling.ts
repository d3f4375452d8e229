/* Which words of the lexicon a written word may stand for: as it is, inflected, or mistyped; as core/words/spelling.py does. */
import type { Endings } from "./lexicon";

export const EXACT = 1.0;
export const INFLECTED = 0.95;
export const DERIVED = 0.9;
export const ONE_SLIP = 0.8;
export const TWO_SLIPS = 0.6;

const SHORTEST_STEM = 3;
const SHORTEST_SLIP = 4;
const FROM_ONE_CHANGED = 7;
const FROM_TWO_CHANGED = 11;
const LONGEST = 30;
const LETTERS = /^[a-z]+$/i;

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
  const found = new Map<string, Candidate>();
  const plain: [string, string][] = [[word, ""], ...without(word, endings.number, endings)];
  const comparing = (ending: string): string => (endings.comparing.includes(ending) ? ending : "");
  for (const [stem, ending] of plain) {
    if (!known.has(stem) || found.has(stem)) continue;
    const certainty = stem === word ? EXACT : INFLECTED;
    found.set(stem, { word: stem, certainty, alone: false, compares: comparing(ending) });
  }
  for (const [longer, ending] of plain) {
    for (const [stem] of without(longer, endings.quality, endings)) {
      for (const thing of things(stem, endings)) {
        if (!known.has(thing) || found.has(thing)) continue;
        found.set(thing, { word: thing, certainty: DERIVED, alone: true, compares: comparing(ending) });
      }
    }
  }
  return [...found.values()];
}

function things(stem: string, endings: Endings): string[] {
  const shorter = [...without(stem, endings.number, endings), ...without(stem, endings.quality, endings)];
  return [stem, ...shorter.map(([word]) => word)];
}

/** What may have stood before an ending was put on, with the ending. */
function without(word: string, replaced: Endings["number"], endings: Endings): [string, string][] {
  const found: [string, string][] = [];
  for (const [ending = "", ...replacements] of replaced) {
    if (!word.endsWith(ending)) continue;
    const stem = word.slice(0, word.length - ending.length);
    if (stem.length < SHORTEST_STEM || !mayEnd(stem, ending, endings)) continue;
    for (const replacement of replacements) found.push([stem + replacement, ending]);
    if (endings.doubling.includes(ending) && stem.at(-1) === stem.at(-2)) found.push([stem.slice(0, -1), ending]);
  }
  return found;
}

/** No plural of "ss" (glass), and "es" only after a hissing sound or o (peaches, tomatoes). */
function mayEnd(stem: string, ending: string, endings: Endings): boolean {
  if (ending === "es" && endings.hissing.length > 0) return endings.hissing.some((sound) => stem.endsWith(sound));
  return !(ending === "s" && stem.endsWith("s"));
}

/** Finds the word that a mistyped one was meant to be. */
export class Mender {
  private readonly byFirstLetter = new Map<string, string[]>();
  private readonly bySmallSlip = new Map<string, string[]>();

  constructor(words: Iterable<string>) {
    for (const word of [...words].sort()) {
      listed(this.byFirstLetter, word.slice(0, 1)).push(word);
      for (const key of smallSlips(word)) listed(this.bySmallSlip, key).push(word);
    }
  }

  /** The word that this one is most likely a slip of, or none. Only words of a to z are mended. */
  meant(word: string): Candidate | undefined {
    if (word.length < SHORTEST_SLIP || word.length > LONGEST || !LETTERS.test(word)) return undefined;
    const slips = new Set(smallSlips(word).flatMap((key) => this.bySmallSlip.get(key) ?? []));
    slips.delete(word);
    if (slips.size > 0) return slip(nearest(word, [...slips].sort(), Infinity)!.word, ONE_SLIP);
    if (word.length < FROM_ONE_CHANGED) return undefined;
    const allowed = word.length < FROM_TWO_CHANGED ? 1 : 2;
    const near = nearest(word, this.byFirstLetter.get(word[0]!) ?? [], allowed);
    if (!near || near.word.length < FROM_ONE_CHANGED - 1) return undefined;
    return slip(near.word, near.distance <= 1 ? ONE_SLIP : TWO_SLIPS);
  }
}

function slip(word: string, certainty: number): Candidate {
  return { word, certainty, alone: false, compares: "" };
}

function listed(map: Map<string, string[]>, key: string): string[] {
  let list = map.get(key);
  if (!list) map.set(key, (list = []));
  return list;
}

/** The first of the nearest words, if it is within the distance allowed. */
function nearest(word: string, others: readonly string[], allowed: number): { word: string; distance: number } | undefined {
  let best: { word: string; distance: number } | undefined;
  for (const other of others) {
    const most = Math.min(allowed, best ? best.distance - 1 : Infinity);
    if (Math.abs(other.length - word.length) > most) continue;
    const distance = alignment(word, other);
    if (distance <= most) best = { word: other, distance };
  }
  return best;
}

/** Letters put in, left out, changed, and neighbours swapped: optimal string alignment. */
export function alignment(one: string, other: string): number {
  let before: number[] = [];
  let last = Array.from({ length: other.length + 1 }, (_, at) => at);
  for (let i = 1; i <= one.length; i += 1) {
    const row = [i];
    for (let j = 1; j <= other.length; j += 1) {
      const same = one[i - 1] === other[j - 1] ? 0 : 1;
      let least = Math.min(last[j]! + 1, row[j - 1]! + 1, last[j - 1]! + same);
      const swapped = i > 1 && j > 1 && one[i - 1] === other[j - 2] && one[i - 2] === other[j - 1];
      if (swapped) least = Math.min(least, before[j - 2]! + 1);
      row.push(least);
    }
    before = last;
    last = row;
  }
  return last[other.length]!;
}

/** Keys that two words share if they differ only in doubled letters or in two swapped neighbours. */
function smallSlips(word: string): string[] {
  if (word.length < SHORTEST_SLIP) return [];
  const keys = [`doubled ${word.replace(/(.)\1+/gsu, "$1")}`];
  for (let at = 1; at < word.length - 1; at += 1) {
    const pair = [...word.slice(at, at + 2)].sort().join("");
    keys.push(`swapped ${word.slice(0, at)}${pair}${word.slice(at + 2)} ${at}`);
  }
  return keys;
}
