/* How much of it: "a hint of plum", "very sweet", "plum hints", "sweeter", "less bitter"; as core/words/degree.py. */
import type { Lexicon } from "./lexicon";
import * as marks from "./marks";
import type { Comparison, Degree, Piece } from "./pieces";
import { become, isHigh, isLow, together, wayOf } from "./scale";
import { LINK } from "./tokens";

const BETWEEN = 2;
const COMPARED: readonly (readonly [string, Degree, Comparison])[] = [
  [marks.MORE, "marked", "more"],
  [marks.MOST, "very", "most"],
  [marks.LESS, "slight", "less"],
  [marks.LEAST, "trace", "least"],
];

/** A degree under way to its word; what each means stands in degree.py. */
interface Waiting {
  degree: Degree | "";
  comparison: Comparison;
  share: boolean;
  byAmount: boolean;
  worded: boolean;
  linked: boolean;
  start: number;
  given: boolean;
}

/** Give each concept its degree and comparison, and turn acidity of a low degree into low acidity. */
export function grade(line: readonly Piece[], lexicon: Lexicon): void {
  let waiting = nothing();
  line.forEach((piece, at) => {
    if (!piece.linked) {
      waiting = nothing();
    } else if (piece.gap === LINK) {
      waiting.given = false;
      waiting.start = -1;
    }
    if (piece.concept) {
      give(piece, waiting, lexicon);
      waiting.given = true;
    } else {
      waiting = heard(piece, waiting);
    }
    if (piece.marks.length > 0 && !piece.concept) lookBack(at, line, lexicon);
  });
}

function nothing(): Waiting {
  return {
    degree: "",
    comparison: "",
    share: false,
    byAmount: false,
    worded: false,
    linked: false,
    start: -1,
    given: false,
  };
}

/** What is under way after a piece that names nothing. */
function heard(piece: Piece, waiting: Waiting): Waiting {
  if (piece.marks.length === 0) return nothing();
  for (const [mark, degree, comparison] of COMPARED) {
    if (!piece.has(mark)) continue;
    return { ...added(waiting, piece, compared(waiting, degree), false, comparison), worded: true };
  }
  for (const how of [marks.SHARE, marks.DEGREE, marks.AMOUNT]) {
    const degree = piece.degreeBy(how);
    if (degree) return graded(waiting, piece, degree, how);
  }
  return passed(waiting, piece);
}

function graded(waiting: Waiting, piece: Piece, degree: Degree, how: string): Waiting {
  const amount = how === marks.AMOUNT;
  const comparison = amount && piece.compares ? wayOf(piece.compares, isLow(degree)) : "";
  const now = added(waiting, piece, together(underWay(waiting), degree), how === marks.SHARE, comparison);
  return { ...now, byAmount: now.byAmount || amount };
}

/** Over "and" and "or" a degree reaches another word; over some small words it reaches its own. */
function passed(waiting: Waiting, piece: Piece): Waiting {
  if (piece.has(marks.AND, marks.OR)) return { ...waiting, linked: waiting.given, given: false, start: -1 };
  const over =
    piece.has(marks.HEDGE, marks.FIRST, marks.FINISH, marks.COOLING) ||
    (piece.has(marks.PASSED) && (waiting.share || waiting.comparison !== ""));
  const ended = waiting.given || (waiting.linked && piece.has(marks.HEDGE));
  return over && !ended ? waiting : nothing();
}

function underWay(waiting: Waiting): Degree | "" {
  return waiting.given ? "" : waiting.degree;
}

/** A little sweeter is plain; much sweeter is very. */
function compared(waiting: Waiting, degree: Degree): Degree {
  const before = underWay(waiting);
  if (isLow(before) && isHigh(degree)) return "plain";
  return isHigh(before) && degree === "marked" ? "very" : degree;
}

function added(waiting: Waiting, piece: Piece, degree: Degree, share: boolean, comparison: Comparison): Waiting {
  const from = waiting.given ? nothing() : waiting;
  return {
    ...nothing(),
    degree,
    comparison: comparison || from.comparison,
    share: share || from.share,
    byAmount: from.byAmount,
    worded: from.worded,
    start: from.start < 0 ? piece.start : from.start,
  };
}

function give(piece: Piece, waiting: Waiting, lexicon: Lexicon): void {
  const linked = waiting.given;
  if (piece.has(marks.RANKED)) {
    piece.comparison = "most";
  } else if (piece.compares || piece.has(marks.MORE, marks.MOST)) {
    const most = piece.compares.endsWith("est") || piece.has(marks.MOST);
    piece.comparison ||= most ? "most" : "more";
    piece.degree = compared(waiting, most ? "very" : "marked");
  } else if (waiting.degree && (waiting.share || !linked)) {
    piece.degree = waiting.degree;
    piece.comparison = waiting.comparison;
    const start = linked ? -1 : waiting.start;
    if (piece.negated) giveDenied(piece, lexicon);
    else become(piece, lexicon, waiting.byAmount && !waiting.worded, start);
  }
  if (piece.negated) {
    piece.degree = "plain";
    turnRound(piece, lexicon);
  }
}

/** Not too acidic is low acidity, where the lexicon has such a concept. */
function giveDenied(piece: Piece, lexicon: Lexicon): void {
  if (!isHigh(piece.degree) || !lexicon.concepts.get(piece.concept)!.low || piece.comparison) return;
  piece.negated = false;
  piece.degree = "slight";
  become(piece, lexicon, false, piece.deniedFrom);
}

/** Not balanced is unbalanced, where the lexicon has such a concept. */
function turnRound(piece: Piece, lexicon: Lexicon): void {
  const opposite = lexicon.concepts.get(piece.concept)!.denied;
  if (!opposite || piece.deniedFrom < 0 || piece.comparison) return;
  piece.concept = opposite;
  piece.negated = false;
  piece.reach = piece.deniedFrom;
}

/** A degree or comparison behind its word: plum hints, chocolate forward, liked it less. */
function lookBack(at: number, line: readonly Piece[], lexicon: Lexicon): void {
  const piece = line[at]!;
  const named = namedBefore(at, line, lexicon);
  if (!named || named.negated || reachesOn(at, line)) return;
  const degree = piece.degreeBy(marks.AFTER);
  if (degree && line[at - 1] === named) named.degree = degree;
  for (const [mark, howMuch, comparison] of COMPARED) {
    if (!piece.has(mark) || named.comparison) continue;
    named.degree = howMuch;
    named.comparison = comparison;
  }
}

/** Whether a word of degree has a word behind it to grade, so that it does not look back. */
function reachesOn(at: number, line: readonly Piece[]): boolean {
  const following = line[at + 1];
  if (!following?.joined) return false;
  return following.concept !== "" || following.has(`${marks.SHARE}trace`);
}

/** The word right before; for a verdict small words may stand between: liked this one more. */
function namedBefore(at: number, line: readonly Piece[], lexicon: Lexicon): Piece | undefined {
  for (let back = at - 1; back > Math.max(-1, at - 2 - BETWEEN); back -= 1) {
    const other = line[back]!;
    if (!line[back + 1]!.joined) return undefined;
    if (other.concept) {
      const near = back === at - 1 || lexicon.concepts.get(other.concept)!.family === "verdict";
      return near ? other : undefined;
    }
    if (other.marks.length > 0 || other.unread) return undefined;
  }
  return undefined;
}
