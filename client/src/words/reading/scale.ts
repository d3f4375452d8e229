/* Degrees in order, how two of them go together, and the concepts that a graded concept becomes; as core/words/scale.py. */
import type { Lexicon } from "./lexicon";
import { CARRIER, NO_MARKS } from "./marks";
import type { Comparison, Degree, Piece } from "./pieces";

export const isLow = (degree: Degree | ""): boolean => degree === "trace" || degree === "slight";
export const isHigh = (degree: Degree | ""): boolean => degree === "marked" || degree === "very" || degree === "too";

/** Two degrees in a row: very faint is a trace, slightly strong is plain. */
export function together(first: Degree | "", second: Degree): Degree {
  if (first === "" || first === "plain") return second;
  if (isLow(second)) return isHigh(first) ? "trace" : second;
  if (isLow(first) && isHigh(second)) return second === "too" ? "too" : "plain";
  return second === "marked" ? "very" : second;
}

/** Which way a word such as "higher" or "lowest" compares; `down` if it goes down. */
export function wayOf(ending: string, down: boolean): Comparison {
  const most = ending.endsWith("est");
  if (down) return most ? "least" : "less";
  return most ? "most" : "more";
}

/** Acidity of a low degree is low acidity, where the lexicon has such a concept. What is only compared stays what it is. */
export function become(piece: Piece, lexicon: Lexicon, byAmount: boolean, start = -1, end = -1): void {
  if (piece.comparison && !byAmount) return;
  const concept = lexicon.concepts.get(piece.concept)!;
  if (concept.middle && !piece.has(CARRIER)) return; // very textured is not much texture
  let turned = byAmount ? concept.middle : "";
  if (isLow(piece.degree)) turned = concept.low;
  else if (isHigh(piece.degree)) turned = concept.high;
  if (!turned) return;
  piece.concept = turned;
  piece.degree = "plain";
  piece.marks = NO_MARKS;
  piece.reach = start;
  piece.end = Math.max(piece.end, end);
}
