/* How many slips lie between two words; as in core/words/spelling.py. */

/* Rows of the table, used again each time: a new word is compared with hundreds. */
const LONGEST_ROW = 64;
let rows = newRows(LONGEST_ROW);

function newRows(length: number): [Uint16Array, Uint16Array, Uint16Array] {
  return [new Uint16Array(length), new Uint16Array(length), new Uint16Array(length)];
}

/** Letters put in, left out, changed, and neighbours swapped: optimal string alignment; if over `most`, any number over it. */
export function alignmentWithin(one: string, other: string, most: number): number {
  if (other.length >= rows[0].length) rows = newRows(2 * other.length);
  let [before, last, row] = rows;
  for (let j = 0; j <= other.length; j += 1) last[j] = j;
  let leastOfLast = 0;
  for (let i = 1; i <= one.length; i += 1) {
    const letter = one.charCodeAt(i - 1);
    const previous = i > 1 ? one.charCodeAt(i - 2) : -1;
    let leastOfRow = (row[0] = i);
    for (let j = 1; j <= other.length; j += 1) {
      const facing = other.charCodeAt(j - 1);
      let least = last[j - 1]! + (letter === facing ? 0 : 1);
      if (last[j]! + 1 < least) least = last[j]! + 1;
      if (row[j - 1]! + 1 < least) least = row[j - 1]! + 1;
      const swapped = previous === facing && j > 1 && letter === other.charCodeAt(j - 2);
      if (swapped && before[j - 2]! + 1 < least) least = before[j - 2]! + 1;
      row[j] = least;
      if (least < leastOfRow) leastOfRow = least;
    }
    // A swap reaches back over two rows; no way goes round both.
    if (leastOfRow > most && leastOfLast > most) return most + 1;
    leastOfLast = leastOfRow;
    [before, last, row] = [last, row, before];
  }
  return last[other.length]!;
}
