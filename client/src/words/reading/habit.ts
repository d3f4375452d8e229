/* What a taster usually drinks, likes or wishes for says nothing of this cup; as core/words/habit.py. */
import * as marks from "./marks";
import type { Piece } from "./pieces";

/** Take out the names behind a word of habit, to the end of its clause or to a contrast; before "drinker", too. */
export function dropHabits(line: readonly Piece[]): void {
  let habit = false;
  line.forEach((piece, at) => {
    if (!piece.linked || piece.turns || piece.has(marks.ANEW, marks.THAN)) habit = false;
    if (piece.has(marks.HABIT)) habit = true;
    else if (habit && piece.concept) drop(piece);
    if (piece.has(marks.HABIT_BACK) && piece.joined) dropBefore(at, line);
  });
}

function dropBefore(at: number, line: readonly Piece[]): void {
  for (let back = at - 1; back >= 0 && line[back]!.concept; back -= 1) {
    drop(line[back]!);
    if (!line[back]!.joined) return;
  }
}

function drop(piece: Piece): void {
  piece.concept = "";
  piece.marks = marks.NO_MARKS;
}
