/* One thing said in two words ("liked it better", "good with milk and sugar"); as core/words/repeats.py. */
import * as marks from "./marks";
import type { Piece } from "./pieces";
import { LINK } from "./tokens";

/* Small words that may stand between a verb of liking and how much it was liked. */
const BETWEEN = 3;
const PUT_IN: readonly string[] = ["dairy", "sugar", "cream"];

/** Take the second word into the first, which keeps its degree and comparison. */
export function joinRepeats(line: readonly Piece[]): void {
  line.forEach((piece, at) => {
    if (piece.concept === "liked" && piece.has(marks.MORE, marks.MOST) && piece.joined) joinLiking(at, line);
    else if (PUT_IN.includes(piece.concept)) joinAddition(at, line);
  });
}

/** Liked it better, liked this the best; but: nice and better. */
function joinLiking(at: number, line: readonly Piece[]): void {
  const better = line[at]!;
  for (let back = at - 1; back >= Math.max(0, at - 1 - BETWEEN); back -= 1) {
    const before = line[back]!;
    if (before.concept) {
      if (before.concept !== "liked" || before.negated || before.comparison) return;
      before.degree = better.degree;
      before.comparison = better.comparison;
      takeIn(before, better);
      return;
    }
    if (before.unread || !before.joined || before.has(marks.AND, marks.OR, marks.TURN)) return;
  }
}

/** Milk/sugar, milk or sugar, milk and sugar, behind words such as "good with milk". */
function joinAddition(at: number, line: readonly Piece[]): void {
  const piece = line[at]!;
  let back = at - 1;
  if (piece.gap !== LINK) {
    const small = line[back];
    if (back < 1 || !small || !piece.joined || !small.joined || !small.has(marks.AND, marks.OR)) return;
    back -= 1;
  }
  const first = line[back];
  if (first?.concept === "goes_with_milk") takeIn(first, piece);
}

function takeIn(first: Piece, second: Piece): void {
  first.end = second.end;
  second.concept = "";
}
