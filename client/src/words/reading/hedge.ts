/* How sure the taster was: "maybe plum", "plum?", "kind of smoky"; as core/words/hedge.py. */
import * as marks from "./marks";
import type { Piece } from "./pieces";
import { COLON, JOINED, PAUSE } from "./tokens";

/* Words that may stand between a hedge and what it doubts. */
const REACH = 4;

/** Mark what is doubted: the name at which a hedge stands, all from a question mark back to a comma. */
export function hedge(line: readonly Piece[]): void {
  line.forEach((piece, at) => {
    if (piece.has(marks.HEDGE)) doubtBeside(at, line);
    if (piece.asked) doubtAsked(at, line);
  });
}

/** The name that follows, all of it; if none follows in the clause, the name before it. */
function doubtBeside(at: number, line: readonly Piece[]): void {
  for (let ahead = at + 1; ahead < Math.min(line.length, at + 2 + REACH); ahead += 1) {
    if (!line[ahead]!.joined && !(ahead === at + 1 && leadsOn(line[at]!, line[ahead]!))) break;
    if (line[ahead]!.concept) return doubtRun(ahead, line);
  }
  const here = line[at]!;
  const before = line[at - 1];
  if (before?.concept && (here.gap === JOINED || here.gap === COLON)) before.hedged = true;
}

/** Perhaps: honey; if I had to guess, honey. But "maybe, honey" doubts what was before. */
function leadsOn(doubt: Piece, following: Piece): boolean {
  return following.gap === COLON || (following.gap === PAUSE && doubt.word === "");
}

function doubtRun(from: number, line: readonly Piece[]): void {
  line[from]!.hedged = true;
  for (let at = from + 1; at < line.length; at += 1) {
    const piece = line[at]!;
    if (!piece.joined || !piece.concept) return;
    piece.hedged = true;
  }
}

function doubtAsked(at: number, line: readonly Piece[]): void {
  for (let back = at; back >= 0; back -= 1) {
    const piece = line[back]!;
    if (piece.concept) piece.hedged = true;
    if (!piece.linked) return;
  }
}
