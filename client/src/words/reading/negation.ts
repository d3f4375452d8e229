/* What a note denies: "not sweet", "no acidity", "lacks body", "sweetness missing"; as core/words/negation.py. */
import * as marks from "./marks";
import { LONGEST_CLAUSE, type Piece } from "./pieces";
import { STOP } from "./tokens";

/* A denial reaches over at most this many other words: "I don't think I'd want to drink it every day". */
const REACH = 8;
/* Endings of names of qualities, which are listed with one another: no sweetness and acidity. */
const NAMING = ["ness", "ity", "acid"];

/** A negator under way: how far it still reaches, what it has hit last, whether "and" carries it on, where it starts. */
interface Denial {
  reach: number;
  hit: Piece | undefined;
  carries: boolean;
  start: number;
}

class Clause {
  private denial: Denial | undefined;
  private last: Piece | undefined;
  private owed: Piece | undefined;

  meet(at: number, line: readonly Piece[]): void {
    const piece = line[at]!;
    if (!piece.linked) this.pause(at, line);
    if (piece.concept) this.name(piece, line[at - 1]);
    else this.word(at, line);
  }

  end(): void {
    if (this.owed) this.owed.negated = true;
    this.denial = this.last = this.owed = undefined;
  }

  /** Punctuation ends a denial, except in a list: not bitter, sour or harsh; no, either good or bad. */
  private pause(at: number, line: readonly Piece[]): void {
    const either = line[at]!.has(marks.EITHER);
    const goingOn = this.denial && (this.denial.hit || either) && listed(at, line) ? this.denial : undefined;
    if (goingOn && either) goingOn.start = -1;
    this.end();
    if (line[at]!.gap !== STOP) this.denial = goingOn;
  }

  private name(piece: Piece, before: Piece | undefined): void {
    const beside = piece.joined && before !== undefined && before === this.denial?.hit;
    if (beside && namesQuality(before)) this.denial = undefined; // no sourness or bitterness | fruity
    if (this.denial) {
      piece.negated = true;
      piece.deniedFrom = this.denial.start;
      this.denial.hit = piece;
      this.denial.reach = REACH;
      this.owed = undefined;
    }
    this.last = piece;
  }

  private word(at: number, line: readonly Piece[]): void {
    const piece = line[at]!;
    const following = line[at + 1];
    if (piece.has(marks.DENY_BACK)) this.owed = this.last;
    if (piece.has(marks.DENY)) {
      if (following?.joined && following.has(marks.UNDO)) return;
      const start = piece.has(marks.BOTH) ? -1 : piece.start;
      this.denial = { reach: REACH, hit: undefined, carries: piece.has(marks.DENY_MORE), start };
    } else if (piece.has(marks.TURN, marks.ANEW)) {
      this.denial = undefined;
    } else if (this.denial) {
      this.goOn(this.denial, piece, following);
    }
  }

  private goOn(denial: Denial, piece: Piece, following: Piece | undefined): void {
    denial.reach -= 1;
    const listing = piece.has(marks.AND) && (denial.carries || sameKind(denial.hit, following));
    const linked = isLink(piece) || listing;
    if (denial.reach < 0 || (denial.hit && !linked)) this.denial = undefined;
  }
}

/** Mark the pieces that the note denies. */
export function deny(line: readonly Piece[]): void {
  if (!line.some((piece) => piece.has(marks.DENY, marks.DENY_BACK))) return;
  const clause = new Clause();
  line.forEach((_, at) => clause.meet(at, line));
  clause.end();
}

function isLink(piece: Piece): boolean {
  return piece.has(marks.OVER) || piece.degreeBy(marks.DEGREE, marks.SHARE, marks.AMOUNT) !== "";
}

/** Whether the list that goes on here ends with "or" or "nor" before anything else is said. */
function listed(at: number, line: readonly Piece[]): boolean {
  for (const piece of line.slice(at, at + LONGEST_CLAUSE)) {
    if (piece.gap === STOP || piece.has(marks.TURN, marks.DENY)) return false;
    if (piece.has(marks.OR)) return true;
  }
  return false;
}

function sameKind(hit: Piece | undefined, following: Piece | undefined): boolean {
  if (!hit || !following?.concept) return false;
  return namesQuality(hit) && namesQuality(following);
}

function namesQuality(piece: Piece): boolean {
  return piece.has(marks.CARRIER) || NAMING.some((ending) => piece.word.endsWith(ending));
}
