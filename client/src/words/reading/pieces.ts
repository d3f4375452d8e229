/* The pieces of a note: its phrases and other words in order, on which the steps of reading work in turn; as core/words/pieces.py. */
import { longestTold, type Corrections } from "./corrections";
import { degreeOf, MORE, MOST, NO_MARKS, THEN, TURN, type Marks } from "./marks";
import type { Found, PhraseIndex } from "./phrases";
import { EXACT } from "./spelling";
import { JOINED, LINK, STOP, type Gap, type Token } from "./tokens";

/* No word bears on another over more pieces than this; it keeps the time of a text without punctuation linear. */
export const LONGEST_CLAUSE = 40;
const LETTER = /^\p{L}/u;

export type Degree = "trace" | "slight" | "plain" | "marked" | "very" | "too";
export type Comparison = "" | "more" | "most" | "less" | "least" | "other";
export type Stage = "" | "first" | "finish" | "cooling";

/** One phrase or word, `text.slice(start, end)`, and what reading has found out about it so far. */
export class Piece {
  /** The word, if it is one. */
  readonly word: string;
  start: number;
  end: number;
  readonly gap: Gap;
  readonly asked: boolean;
  concept = "";
  marks: Marks = NO_MARKS;
  certainty = 0;
  compares = "";
  unread = false;
  negated = false;
  /** Where the negator starts; -1 if the denial does not mean the opposite. */
  deniedFrom = -1;
  degree: Degree = "plain";
  comparison: Comparison = "";
  against = "";
  hedged = false;
  stage: Stage = "";
  /** Where what else belongs to the word starts (not too | acidic), if that is further ahead. */
  reach = -1;

  constructor(first: Token, last: Token) {
    this.word = first === last ? first.word : "";
    this.start = first.start;
    this.end = last.end;
    this.gap = first.gap;
    this.asked = last.asked;
  }

  get joined(): boolean {
    return this.gap === JOINED;
  }

  /** Whether it goes on in the clause of the piece before, or is listed with it by a sign. */
  get linked(): boolean {
    return this.gap === JOINED || this.gap === LINK;
  }

  /** Whether something else begins: then, but. "More" turns a denial only. */
  get turns(): boolean {
    return this.has(THEN) || (this.has(TURN) && !this.has(MORE, MOST));
  }

  /** Whether it is a mark of one of these kinds. */
  has(...kinds: string[]): boolean {
    if (this.marks.length === 0) return false;
    for (let at = 0; at < kinds.length; at += 1) if (this.marks.includes(kinds[at]!)) return true;
    return false;
  }

  /** The degree it gives to another word in one of these ways; "" if none. */
  degreeBy(...ways: string[]): Degree | "" {
    if (this.marks.length === 0) return "";
    for (let at = 0; at < ways.length; at += 1) {
      const degree = degreeOf(this.marks, ways[at]!);
      if (degree) return degree as Degree;
    }
    return "";
  }
}

/** The pieces of a note: from each word on the longest phrase, or the word alone. */
export function piecesOf(words: readonly Token[], index: PhraseIndex, told: Corrections): Piece[] {
  const line: Piece[] = [];
  for (let at = 0; at < words.length; ) {
    const found = chosen(words, at, index, told);
    line.push(found ? phrase(found, words) : bare(words[at]!, index));
    at = found ? found.after : at + 1;
  }
  return line;
}

/** What the user has said goes before what the lexicon says, if it is at least as long. */
function chosen(words: readonly Token[], at: number, index: PhraseIndex, told: Corrections): Found | undefined {
  const found = longest(words, at, index);
  const said = told.mostWords > 0 ? longestTold(told, words, at) : undefined;
  return said && (!found || said.after >= found.after) ? said : found;
}

/** The longest phrase from a word on, unless a longer one begins inside it: with | milk chocolate. */
function longest(words: readonly Token[], at: number, index: PhraseIndex): Found | undefined {
  const found = index.longest(words, at);
  if (!found || found.after - at < 2) return found;
  for (let inside = at + 1; inside < found.after; inside += 1) {
    const other = index.longest(words, inside);
    if (!other || other.after <= found.after) continue;
    const gain = other.after - inside - (found.after - at);
    if (gain > 0 || (gain === 0 && index.small.has(words[at]!.word))) return index.longest(words, at, inside);
  }
  return found;
}

/** Let words start where what belongs to them starts, unless another word or an unread one stands between. */
export function takeReach(line: readonly Piece[]): void {
  let before = 0;
  for (const piece of line) {
    if (piece.concept && before <= piece.reach && piece.reach < piece.start) piece.start = piece.reach;
    if (piece.concept || piece.unread) before = piece.end;
  }
}

/** The pieces of each sentence. */
export function sentences(line: readonly Piece[]): (readonly Piece[])[] {
  const found: (readonly Piece[])[] = [];
  let start = 0;
  line.forEach((piece, at) => {
    if (piece.gap !== STOP || at === start) return;
    found.push(line.slice(start, at));
    start = at;
  });
  if (start < line.length) found.push(line.slice(start));
  return found;
}

function phrase(found: Found, words: readonly Token[]): Piece {
  const first = words[found.first]!;
  const last = words[found.after - 1]!;
  const piece = new Piece(first, last);
  piece.concept = found.concept;
  piece.marks = found.marks;
  piece.compares = found.compares;
  piece.certainty = found.certainty === EXACT ? EXACT : Number(found.certainty.toFixed(3));
  return piece;
}

function bare(token: Token, index: PhraseIndex): Piece {
  const piece = new Piece(token, token);
  piece.unread = carriesMeaning(token.word, index);
  return piece;
}

/** Whether a folded word says something: no small word of the language, no number, no single letter. */
function carriesMeaning(word: string, index: PhraseIndex): boolean {
  const first = LETTER.exec(word);
  return first !== null && word.length > first[0].length && !index.small.has(word);
}
