/* A text cut where words were read in it. The server counts in code points; JavaScript in UTF-16 units. */
import type { Reading, Word } from "../wire/types";

export interface Segment {
  text: string;
  word: Word | null;
}

/** The whole text in order, in pieces; nothing of it is left out. */
export function segments(reading: Reading): Segment[] {
  const points = [...reading.text];
  const pieces: Segment[] = [];
  let at = 0;
  const push = (to: number, word: Word | null) => {
    if (to > at) pieces.push({ text: points.slice(at, to).join(""), word });
    at = Math.max(at, to);
  };
  for (const word of [...reading.words].sort((a, b) => a.start - b.start || b.end - a.end)) {
    if (word.start < at) continue; // inside a longer word
    push(word.start, null);
    push(word.end, word);
  }
  push(points.length, null);
  return pieces;
}
