/* Finds the word that a mistyped one was meant to be; as Mender in core/words/spelling.py does.

   Words are kept by first letter, since no slip changes it, and each letter's are made ready when it is first asked
   for. Of those only the ones are compared letter by letter whose set of letters is like enough. */
import { alignmentWithin } from "./alignment";
import { ONE_SLIP, TWO_SLIPS, type Candidate } from "./spelling";

const SHORTEST_SLIP = 4;
const FROM_ONE_CHANGED = 7;
const FROM_TWO_CHANGED = 11;
const LONGEST = 30;
const LETTERS = /^[a-z]+$/i;
const CACHED_WORDS = 10_000;

interface Near {
  word: string;
  distance: number;
}

/** The words of one first letter in order, the set of letters of each, and those that differ in doubled letters only. */
interface Drawer {
  words: readonly string[];
  letters: Int32Array;
  known: ReadonlySet<string>;
  undoubled: ReadonlyMap<string, readonly string[]>;
}

export class Mender {
  private readonly byFirstLetter = new Map<string, string[]>();
  private readonly drawers = new Map<string, Drawer>();
  private readonly met = new Map<string, Candidate | undefined>();

  constructor(words: Iterable<string>) {
    for (const word of words) listed(this.byFirstLetter, word.slice(0, 1)).push(word);
  }

  /** The word that this one is most likely a slip of, or none. Only words of a to z are mended. */
  meant(word: string): Candidate | undefined {
    if (word.length < SHORTEST_SLIP || word.length > LONGEST) return undefined;
    if (this.met.has(word)) return this.met.get(word);
    if (this.met.size >= CACHED_WORDS) this.met.clear();
    const found = LETTERS.test(word) ? this.mended(word) : undefined;
    this.met.set(word, found);
    return found;
  }

  private mended(word: string): Candidate | undefined {
    const drawer = this.drawer(word.slice(0, 1));
    if (!drawer) return undefined;
    const small = smallSlip(word, drawer);
    if (small) return slip(small.word, ONE_SLIP);
    if (word.length < FROM_ONE_CHANGED) return undefined;
    const near = nearest(word, drawer, word.length < FROM_TWO_CHANGED ? 1 : 2);
    if (!near || near.word.length < FROM_ONE_CHANGED - 1) return undefined;
    return slip(near.word, near.distance <= 1 ? ONE_SLIP : TWO_SLIPS);
  }

  private drawer(letter: string): Drawer | undefined {
    const listedWords = this.byFirstLetter.get(letter);
    if (!listedWords) return undefined;
    let drawer = this.drawers.get(letter);
    if (!drawer) this.drawers.set(letter, (drawer = drawerOf(listedWords)));
    return drawer;
  }
}

function drawerOf(words: string[]): Drawer {
  words.sort();
  const undoubled = new Map<string, string[]>();
  for (const word of words) if (word.length >= SHORTEST_SLIP) listed(undoubled, withoutDoubles(word)).push(word);
  return { words, letters: Int32Array.from(words, lettersOf), known: new Set(words), undoubled };
}

function slip(word: string, certainty: number): Candidate {
  return { word, certainty, alone: false, compares: "" };
}

function listed(map: Map<string, string[]>, key: string): string[] {
  let list = map.get(key);
  if (!list) map.set(key, (list = []));
  return list;
}

/** The nearest word that differs only in doubled letters or in two swapped neighbours; the first of equally near ones. */
function smallSlip(word: string, drawer: Drawer): Near | undefined {
  let best: Near | undefined;
  const look = (other: string): void => {
    if (other === word) return;
    const distance = alignmentWithin(word, other, LONGEST + other.length);
    const nearer = !best || distance < best.distance || (distance === best.distance && other < best.word);
    if (nearer) best = { word: other, distance };
  };
  for (const other of drawer.undoubled.get(withoutDoubles(word)) ?? []) look(other);
  for (let at = 1; at < word.length - 1; at += 1) {
    if (word[at] === word[at + 1]) continue;
    const other = word.slice(0, at) + word[at + 1]! + word[at]! + word.slice(at + 2);
    if (drawer.known.has(other)) look(other);
  }
  return best;
}

/** The first of the nearest words, if it is within the distance allowed. */
function nearest(word: string, drawer: Drawer, allowed: number): Near | undefined {
  const { words, letters } = drawer;
  const own = lettersOf(word);
  let best: Near | undefined;
  let most = allowed;
  for (let at = 0; at < words.length; at += 1) {
    // A change takes one letter out of the set and puts another in, at most.
    if (bits(own ^ letters[at]!) > 2 * most) continue;
    const other = words[at]!;
    if (Math.abs(other.length - word.length) > most) continue;
    const distance = alignmentWithin(word, other, most);
    if (distance > most) continue;
    best = { word: other, distance };
    if (distance === 0) break;
    most = distance - 1;
  }
  return best;
}

/** The letters of a word as a set of bits. */
function lettersOf(word: string): number {
  let set = 0;
  for (let at = 0; at < word.length; at += 1) set |= 1 << (word.charCodeAt(at) & 31);
  return set;
}

function bits(set: number): number {
  let left = set - ((set >>> 1) & 0x55555555);
  left = (left & 0x33333333) + ((left >>> 2) & 0x33333333);
  return (((left + (left >>> 4)) & 0x0f0f0f0f) * 0x01010101) >>> 24;
}

function withoutDoubles(word: string): string {
  let kept = word.slice(0, 1);
  for (let at = 1; at < word.length; at += 1) if (word[at] !== word[at - 1]) kept += word[at]!;
  return kept;
}
