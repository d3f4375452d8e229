/* What a note denies: "not sweet", "no acidity", "lacks body", "sweetness missing"; as core/words/negation.py. */
import type { Lexicon } from "./lexicon";
import * as marks from "./marks";
import { LONGEST_CLAUSE, type Piece } from "./pieces";
import { COLON, STOP } from "./tokens";

/* A denial reaches over at most this many other words: "I don't think I'd want to drink it every day". */
const REACH = 8;
/* Endings of names of qualities, which are listed with one another: no sweetness and acidity. */
const NAMING = ["ness", "acid"];
/* Acidity, clarity, astringency; but not fruity, juicy. */
const NAMING_IN_THE_MOUTH = ["ity", "cy"];
const OF_THE_MOUTH = ["taste", "touch", "finish", "character"];

/** A negator under way: how far it still reaches, what it has hit last, whether "and" carries it on, whether one
    article stands before what was hit and what follows "and", where it starts. */
interface Denial {
  reach: number;
  hit: Piece | undefined;
  carries: boolean;
  shared: boolean;
  start: number;
}

class Clause {
  private readonly lexicon: Lexicon;
  private denial: Denial | undefined;
  private last: Piece | undefined;
  private undone: Piece | undefined;
  private owed: Piece | undefined;

  constructor(lexicon: Lexicon) {
    this.lexicon = lexicon;
  }

  meet(at: number, line: readonly Piece[]): void {
    const piece = line[at]!;
    if (!piece.linked) this.pause(at, line);
    if (piece.concept) this.name(at, line);
    else this.word(at, line);
  }

  end(): void {
    if (this.owed) this.owed.negated = true;
    this.denial = this.last = this.owed = undefined;
  }

  /** Punctuation ends a denial, except in a list: not bitter, sour or harsh; no, either good or bad. */
  private pause(at: number, line: readonly Piece[]): void {
    const either = line[at]!.has(marks.EITHER);
    const last = line[at]!.gap === COLON ? this.last : undefined; // sweetness: none
    const goingOn = this.denial && (this.denial.hit || either) && this.listed(at, line) ? this.denial : undefined;
    if (goingOn && either) goingOn.start = -1;
    this.end();
    this.last = last;
    if (line[at]!.gap !== STOP) this.denial = goingOn;
  }

  private name(at: number, line: readonly Piece[]): void {
    const piece = line[at]!;
    const before = line[at - 1];
    const beside = piece.joined && before !== undefined && before === this.denial?.hit;
    if (beside && this.closes(before)) this.denial = undefined; // no sourness or bitterness | fruity
    if (this.denial) {
      piece.negated = true;
      piece.deniedFrom = this.denial.start;
      this.denial.shared = before !== undefined && before.has(marks.OVER) && !before.has(marks.OR);
      this.denial.hit = piece;
      this.denial.reach = REACH;
      this.owed = undefined;
    }
    this.last = piece;
  }

  private word(at: number, line: readonly Piece[]): void {
    const piece = line[at]!;
    const following = line[at + 1];
    if (piece !== this.undone && deniesBack(at, line)) this.owed = this.last;
    if (piece.has(marks.DENY)) {
      if (following?.joined && lacks(following)) {
        this.undone = following; // not without | sweetness
      } else if (piece !== this.undone && !(following?.joined && following.has(marks.UNDO))) {
        const start = piece.has(marks.BOTH) ? -1 : piece.start;
        this.denial = { reach: REACH, hit: undefined, carries: piece.has(marks.DENY_MORE), shared: false, start };
      }
    } else if (piece.has(marks.TURN, marks.ANEW)) {
      this.denial = undefined;
    } else if (this.denial) {
      this.goOn(this.denial, piece, following);
    }
  }

  private goOn(denial: Denial, piece: Piece, following: Piece | undefined): void {
    denial.reach -= 1;
    const listing = piece.has(marks.AND) && (denial.carries || this.goesOnOverAnd(denial, following));
    const linked = this.leadsOn(piece, denial.hit) || listing;
    if (denial.reach < 0 || (denial.hit && !linked)) this.denial = undefined;
  }

  /** Or, articles, degrees; behind a verdict only "or": I don't dislike | the funk. */
  private leadsOn(piece: Piece, hit: Piece | undefined): boolean {
    return hit && this.familyOf(hit) === "verdict" ? piece.has(marks.OR) : isLink(piece);
  }

  /** No sweetness and acidity; not the dark and bitter cup I was told of; but: no acid | and smooth. */
  private goesOnOverAnd(denial: Denial, following: Piece | undefined): boolean {
    if (!denial.hit || !following?.concept) return false;
    return denial.shared || (this.namesQuality(denial.hit) && this.namesQuality(following));
  }

  /** Whether what stands right behind a denied word is no longer denied. */
  private closes(hit: Piece): boolean {
    return this.namesQuality(hit) || this.familyOf(hit) === "verdict";
  }

  /** Whether the list that goes on here ends with "or" or "nor", after "without" with "and", before all else. */
  private listed(at: number, line: readonly Piece[]): boolean {
    const carried = this.denial?.carries === true && this.namesQuality(line[at]!);
    for (const piece of line.slice(at, at + LONGEST_CLAUSE)) {
      if (piece.gap === STOP || piece.has(marks.TURN, marks.DENY)) return false;
      if (piece.has(marks.OR) || (carried && piece.has(marks.AND))) return true;
    }
    return false;
  }

  private namesQuality(piece: Piece): boolean {
    if (piece.has(marks.CARRIER) || NAMING.some((ending) => piece.word.endsWith(ending))) return true;
    if (!piece.concept || !OF_THE_MOUTH.includes(this.familyOf(piece))) return false;
    return NAMING_IN_THE_MOUTH.some((ending) => piece.word.endsWith(ending));
  }

  private familyOf(piece: Piece): string {
    return this.lexicon.concepts.get(piece.concept)!.family;
  }
}

/** Mark the pieces that the note denies. */
export function deny(line: readonly Piece[], lexicon: Lexicon): void {
  if (!line.some((piece) => piece.has(marks.DENY, marks.DENY_BACK, marks.ANSWER))) return;
  const clause = new Clause(lexicon);
  line.forEach((_, at) => clause.meet(at, line));
  clause.end();
}

function isLink(piece: Piece): boolean {
  return piece.has(marks.OVER) || piece.degreeBy(marks.DEGREE, marks.SHARE, marks.AMOUNT) !== "";
}

function lacks(piece: Piece): boolean {
  return piece.has(marks.DENY_MORE) && !piece.has(marks.BOTH);
}

/** Sweetness is gone; but not: gone bitter. Sweetness, none; but not: none of it. */
function deniesBack(at: number, line: readonly Piece[]): boolean {
  const following = line[at + 1];
  if (line[at]!.has(marks.DENY_BACK)) return !(following?.joined && following.concept);
  return line[at]!.has(marks.ANSWER) && endsClause(at, line);
}

function endsClause(at: number, line: readonly Piece[]): boolean {
  const following = line[at + 1];
  return !following?.linked || following.turns;
}
