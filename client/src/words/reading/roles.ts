/* Words that mark and mean ("strong" in "strong plum"), and nouns of the mouth ("dry mouthfeel"); as core/words/roles.py. */
import { ancestors, INTENSITY, type Lexicon } from "./lexicon";
import * as marks from "./marks";
import type { Degree, Piece } from "./pieces";
import { become, isHigh, together, wayOf } from "./scale";
import { COLON, JOINED } from "./tokens";

/* Words that may stand between a noun and what is said of it: "acidity is on the high side". */
const BESIDE = 5;
const PRAISE = ["liked", "disliked", "acceptable"];
/* Families beside whose words "strong" or "light" is a word of its own. */
const NOT_GRADED = ["touch", "finish", "character", "verdict", "make"];

/** Decide for each word such as "strong", "light", "high" whether it grades a word beside it. */
export function settleAmounts(line: readonly Piece[], lexicon: Lexicon): void {
  line.forEach((piece, at) => {
    const following = line[at + 1];
    if (following?.concept && following.joined) {
      const takes = lexicon.concepts.get(following.concept)!.takes;
      const taken = Object.hasOwn(takes, piece.word) ? takes[piece.word] : undefined;
      if (taken) {
        piece.concept = "";
        piece.marks = [marks.AMOUNT + taken];
        piece.unread = false;
        return;
      }
    }
    const graded = following?.joined && following.concept;
    if (piece.concept && piece.degreeBy(marks.DEGREE) && graded) piece.concept = ""; // mildly nutty
    if (piece.concept && piece.degreeBy(marks.AFTER) && moves(at, line, lexicon)) piece.concept = "";
    const amount = piece.degreeBy(marks.AMOUNT);
    if (amount) settle(at, amount, line, lexicon);
  });
}

function settle(at: number, amount: Degree, line: readonly Piece[], lexicon: Lexicon): void {
  const piece = line[at]!;
  if (gradesWhatFollows(at, line, lexicon)) {
    piece.concept = "";
    return;
  }
  const nounAt = nounBefore(at, line, lexicon);
  if (nounAt >= 0) gradeNoun(nounAt, at, amount, line, lexicon);
  else if (piece.concept) piece.marks = piece.marks.filter((mark) => !mark.startsWith(marks.AMOUNT));
}

function gradesWhatFollows(at: number, line: readonly Piece[], lexicon: Lexicon): boolean {
  for (const following of line.slice(at + 1, at + 1 + BESIDE)) {
    if (!following.joined) return false;
    const amount = following.degreeBy(marks.AMOUNT);
    if (following.concept && !amount) return gradable(following, line[at]!, lexicon);
    if (!amount && !following.has(marks.FIRST, marks.COOLING, marks.FINISH)) return false;
  }
  return false;
}

/** Whether an amount grades the word behind it; if it means something itself, no adjective of taste. */
function gradable(noun: Piece, amount: Piece, lexicon: Lexicon): boolean {
  const concept = lexicon.concepts.get(noun.concept)!;
  if (concept.low || concept.high) return !amount.concept || namesQuality(noun);
  if (!amount.concept) return true;
  const above = ancestors(lexicon, noun.concept);
  if (NOT_GRADED.some((family) => above.has(family))) return false;
  return concept.family !== "taste" || namesQuality(noun);
}

/** Whether a word that names something is the verb of a quality here: acidity (that) rose. */
function moves(at: number, line: readonly Piece[], lexicon: Lexicon): boolean {
  let back = at - 1;
  if (back > 0 && line[back]!.joined && line[back]!.has(marks.PASSED)) back -= 1;
  const noun = line[back];
  if (!noun?.concept || !line[at]!.joined) return false;
  return lexicon.concepts.get(noun.concept)!.about === INTENSITY && (noun.word === "" || namesQuality(noun));
}

/** Whether a word is the name of a quality: acidity, sweetness, body. */
export function namesQuality(piece: Piece): boolean {
  return piece.has(marks.CARRIER) || piece.word.endsWith("ness") || piece.word.endsWith("ity");
}

/** Where the noun is that is graded behind it ("acidity is rather high", "Sweetness: low"), or -1. */
function nounBefore(at: number, line: readonly Piece[], lexicon: Lexicon): number {
  for (let back = at - 1; back > Math.max(-1, at - 1 - BESIDE); back -= 1) {
    const gap = line[back + 1]!.gap;
    if (gap !== JOINED && gap !== COLON) return -1;
    const noun = line[back]!;
    if (noun.concept) return answers(noun, line[at]!, lexicon) ? back : -1;
    if (!between(noun)) return -1;
  }
  return -1;
}

/** Whether the noun is one of which is asked how much; a word with a meaning of its own needs a noun. */
function answers(noun: Piece, amount: Piece, lexicon: Lexicon): boolean {
  const concept = lexicon.concepts.get(noun.concept)!;
  if (amount.concept && ancestors(lexicon, amount.concept).has(concept.id)) return false; // mouthfeel: heavy
  if (concept.low || concept.high) return !amount.concept || namesQuality(noun);
  return concept.about === INTENSITY && !amount.concept;
}

function between(piece: Piece): boolean {
  return piece.has(marks.COPULA, marks.PASSED, marks.DENY) || piece.degreeBy(marks.DEGREE, marks.SHARE) !== "";
}

function gradeNoun(nounAt: number, at: number, amount: Degree, line: readonly Piece[], lexicon: Lexicon): void {
  const noun = line[nounAt]!;
  const piece = line[at]!;
  let degree = together(line[at - 1]!.degreeBy(marks.DEGREE), amount);
  const denier = line.slice(nounAt + 1, at).find((other) => other.has(marks.DENY));
  if (denier) {
    degree = isHigh(degree) ? "slight" : "plain";
    denier.marks = marks.NO_MARKS;
  }
  noun.degree = degree;
  if (piece.compares) noun.comparison = wayOf(piece.compares, !isHigh(amount));
  piece.concept = "";
  piece.marks = marks.NO_MARKS;
  become(noun, lexicon, true, -1, piece.end);
}

/** Body, acidity, finish and the like are no word of their own where the word beside them says how. */
export function dropCarriers(line: readonly Piece[], lexicon: Lexicon): void {
  line.forEach((piece, at) => {
    if (piece.concept && piece.has(marks.CARRIER) && saidHow(at, line, lexicon)) piece.concept = "";
  });
}

function saidHow(at: number, line: readonly Piece[], lexicon: Lexicon): boolean {
  let back = at - 1;
  while (back > at - BESIDE && back > 0 && line[back]!.joined && line[back]!.has(marks.WITHIN)) back -= 1; // thick in texture
  if (back >= 0 && line[at]!.joined && line[back + 1]!.joined && describes(line[back]!, lexicon)) return true;
  for (const following of line.slice(at + 1, at + 1 + BESIDE)) {
    if (following.gap !== JOINED && following.gap !== COLON) return false;
    if (following.concept) {
      const told = following.gap === COLON || line[at + 1] !== following || !following.has(marks.CARRIER);
      return told && describes(following, lexicon);
    }
    if (!tells(following)) return false;
  }
  return false;
}

/** Whether a word says how something is, and does not only praise or blame it. */
function describes(piece: Piece, lexicon: Lexicon): boolean {
  if (!piece.concept || piece.has(marks.CARRIER)) return false;
  const above = ancestors(lexicon, piece.concept);
  return !PRAISE.some((concept) => above.has(concept));
}

/** A word that may stand between a noun of the mouth and what is said of it. */
function tells(piece: Piece): boolean {
  if (piece.has(marks.COPULA, marks.HEDGE, marks.DENY, marks.BECOMING, marks.COOLING)) return true;
  return piece.degreeBy(marks.DEGREE, marks.SHARE, marks.AMOUNT) !== "";
}
