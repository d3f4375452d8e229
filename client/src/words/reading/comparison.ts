/* With what a cup is compared: "sweeter than B", "the most bitter of the four"; as core/words/comparison.py. */
import type { Lexicon } from "./lexicon";
import * as marks from "./marks";
import { LONGEST_CLAUSE, sentences, type Comparison, type Piece } from "./pieces";
import { namesQuality } from "./roles";

const WAYS: readonly (readonly [string, Comparison])[] = [
  [marks.MORE, "more"],
  [marks.LESS, "less"],
  [marks.MOST, "most"],
  [marks.LEAST, "least"],
];
/* Pieces that name what the cup is compared with. */
const LONGEST_OTHER = 4;
/* Families that name another cup behind "than". */
const OF_A_CUP: readonly string[] = ["verdict", "make"];

/** Mark what is said of another cup, or of this one against others; needs the degrees. */
export function compare(line: readonly Piece[], text: string, lexicon: Lexicon): void {
  for (const sentence of sentences(line)) {
    sentence.forEach((piece, at) => {
      if (piece.has(marks.WISHED)) againstWish(at, sentence, lexicon);
      else if (piece.has(marks.THAN)) against(at, sentence, text, lexicon);
      else if (piece.has(marks.AMONG)) among(at, sentence);
      else if (piece.has(marks.RANK)) rank(at, sentence, lexicon);
    });
    contrast(sentence);
  }
}

/** Not bitter, more tannic: rather tannic, and no other cup is meant; but: no bitterness, more acidity. */
function contrast(sentence: readonly Piece[]): void {
  let denied = false;
  for (const piece of sentence) {
    if (piece.concept) {
      if (denied && worded(piece) && !piece.against && !namesQuality(piece)) {
        piece.comparison = "";
        piece.degree = "plain";
      }
      denied = piece.negated;
    } else if (piece.turns) {
      denied = false;
    }
  }
}

/** Than: what is before it in its clause is compared with what is behind it. */
function against(at: number, sentence: readonly Piece[], text: string, lexicon: Lexicon): void {
  const behind = clauseBehind(at, sentence);
  if (behind[0]?.has(marks.FIRST, marks.COOLING)) {
    withItself(at, sentence);
    return;
  }
  const named = clauseBefore(at, sentence).filter((piece) => piece.concept);
  if (at === 0 && fronted(sentence, text)) return;
  if (within(sentence[at]!, named, behind, lexicon)) return;
  const other = otherOf(behind, text);
  const way = (at > 0 ? wayOf(sentence[at - 1]!) : "") || "more";
  const already = named.filter((piece) => piece.comparison);
  for (const piece of already.length > 0 ? already : named.slice(-1)) {
    piece.comparison ||= way;
    piece.against = other;
  }
  for (const piece of behind) if (piece.concept) piece.comparison ||= "other";
}

/** Whether "more" was said: more sour, not sourer or better. */
function worded(piece: Piece): boolean {
  return piece.comparison === "more" && !piece.compares && !piece.has(marks.MORE);
}

function otherOf(named: readonly Piece[], text: string): string {
  return named.length > 0 ? text.slice(named[0]!.start, named.slice(0, LONGEST_OTHER).at(-1)!.end) : "";
}

/** Compared to A this is thin: all that is said after the name of the other cup is compared with it. */
function fronted(sentence: readonly Piece[], text: string): boolean {
  const end = sentence.findIndex((piece, at) => at > 0 && (!piece.joined || piece.has(marks.ANEW)));
  if (end < 0) return false;
  for (const piece of sentence.slice(end)) {
    if (!piece.concept || piece.negated) continue;
    piece.comparison ||= "more";
    piece.against = otherOf(sentence.slice(1, end), text);
  }
  return true;
}

/** More sour than fruity: two things of one cup, the second of which there is less; nothing is compared. */
function within(than: Piece, named: readonly Piece[], behind: readonly Piece[], lexicon: Lexicon): boolean {
  const more = named.at(-1);
  if (!more || than.word !== "than" || !worded(more) || behind.length === 0) return false;
  const familyOf = (piece: Piece) => lexicon.concepts.get(piece.concept)?.family ?? "verdict";
  if (behind.some((piece) => OF_A_CUP.includes(familyOf(piece))) || familyOf(more) === "verdict") return false;
  more.comparison = "";
  for (const piece of behind) piece.degree = "slight";
  return true;
}

/** Sweeter than I like: no other cup is meant, and nothing is liked. */
function againstWish(at: number, sentence: readonly Piece[], lexicon: Lexicon): void {
  withItself(at, sentence);
  for (const piece of clauseBehind(at, sentence)) {
    if (piece.concept && lexicon.concepts.get(piece.concept)!.family === "verdict") piece.concept = "";
  }
}

function withItself(at: number, sentence: readonly Piece[]): void {
  for (const piece of clauseBefore(at, sentence)) piece.comparison = "";
}

function wayOf(piece: Piece): Comparison {
  return WAYS.find(([mark]) => piece.has(mark))?.[1] ?? "";
}

function clauseBefore(at: number, sentence: readonly Piece[]): readonly Piece[] {
  const furthest = Math.max(0, at - LONGEST_CLAUSE);
  let start = at;
  while (start > furthest && sentence[start]!.linked && !(start < at && sentence[start]!.turns)) start -= 1;
  return sentence.slice(start, at);
}

function clauseBehind(at: number, sentence: readonly Piece[]): readonly Piece[] {
  const furthest = Math.min(sentence.length, at + LONGEST_CLAUSE);
  let end = at + 1;
  while (end < furthest) {
    const piece = sentence[end]!;
    if (!piece.linked || piece.turns || piece.has(marks.AND, marks.ANEW)) break;
    end += 1;
  }
  return sentence.slice(at + 1, end);
}

/** Of the four: the nearest word before it is compared, unless what is most so was not understood. */
function among(at: number, sentence: readonly Piece[]): void {
  for (let back = at - 1; back >= Math.max(0, at - LONGEST_CLAUSE); back -= 1) {
    const piece = sentence[back]!;
    if (piece.concept) {
      piece.comparison ||= "most";
      return;
    }
    if (piece.has(marks.MOST, marks.LEAST)) return;
  }
}

/** Second favourite; a second round is no rank. */
function rank(at: number, sentence: readonly Piece[], lexicon: Lexicon): void {
  const following = sentence[at + 1];
  if (!following?.joined || !following.concept) return;
  if (lexicon.concepts.get(following.concept)!.family === "verdict") following.comparison ||= "most";
}
