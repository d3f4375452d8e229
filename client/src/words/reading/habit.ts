/* What a taster usually drinks or likes says nothing of this cup; as core/words/habit.py. */
import * as marks from "./marks";
import type { Piece } from "./pieces";

/** Take out the names behind a word of habit, to the end of its clause or to a contrast. */
export function dropHabits(line: readonly Piece[]): void {
  let habit = false;
  for (const piece of line) {
    if (!piece.linked || piece.turns || piece.has(marks.ANEW, marks.THAN)) habit = false;
    if (piece.has(marks.HABIT)) {
      habit = true;
    } else if (habit && piece.concept) {
      piece.concept = "";
      piece.marks = marks.NO_MARKS;
    }
  }
}
