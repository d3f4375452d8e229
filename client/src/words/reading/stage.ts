/* When in the life of a sip or a cup: at first, on the finish, as it cools; as core/words/stage.py. */
import type { Lexicon } from "./lexicon";
import * as marks from "./marks";
import { LONGEST_CLAUSE, sentences, type Piece, type Stage } from "./pieces";
import { PAUSE } from "./tokens";

const STAGES: readonly (readonly [string, Stage])[] = [
  [marks.COOLING, "cooling"],
  [marks.FIRST, "first"],
  [marks.FINISH, "finish"],
];

/** Give each concept its stage; "" where the note does not say. */
export function place(line: readonly Piece[], lexicon: Lexicon): void {
  for (const sentence of sentences(line)) placeSentence(sentence);
  for (const piece of line) {
    const family = lexicon.concepts.get(piece.concept)?.family;
    if (family === "finish" && piece.stage !== "cooling") piece.stage = "finish";
    // Compared with itself at another time.
    if ((piece.stage === "cooling" || piece.stage === "first") && !piece.against) piece.comparison = "";
  }
}

function placeSentence(sentence: readonly Piece[]): void {
  let stage: Stage = "";
  let covered = false;
  sentence.forEach((piece, at) => {
    if (stage === "finish" && covered && piece.gap === PAUSE) stage = ""; // a finish is told in its clause
    const named = stageOf(at, sentence);
    if (named) {
      const behind = named === "finish" ? described(at, sentence) : clauseBefore(at, sentence);
      for (const other of behind) {
        if (named === "finish" || other.stage === "") other.stage = named;
      }
      const ended = behind.length > 0 && (named === "finish" || endsClause(at, sentence)) && !piece.concept;
      stage = ended ? "" : named;
      covered = false;
    } else if (piece.turns) {
      stage = "";
    }
    if (piece.concept && stage) {
      piece.stage = stage;
      covered = true;
    }
  });
}

function stageOf(at: number, sentence: readonly Piece[]): Stage {
  const piece = sentence[at]!;
  if (piece.has(marks.BECOMING)) {
    const ahead = sentence.slice(at + 1, at + 4).find((other) => other.concept);
    return ahead?.comparison ? "cooling" : "";
  }
  return STAGES.find(([mark]) => piece.has(mark))?.[1] ?? "";
}

/** The words right before "finish": bitter, bitter and dry; or before "on the finish". */
function described(at: number, sentence: readonly Piece[]): Piece[] {
  const found: Piece[] = [];
  for (let back = at - 1; back > Math.max(-1, at - LONGEST_CLAUSE); back -= 1) {
    const other = sentence[back]!;
    const led = found.length > 0 ? other.has(marks.AND) : other.marks.length > 0;
    if (!sentence[back + 1]!.linked || !(other.concept || led) || (other.turns && !other.concept)) break;
    if (other.concept) found.push(other);
  }
  return found;
}

/** The words before a stage that ends its clause: sour and thin at first. */
function clauseBefore(at: number, sentence: readonly Piece[]): Piece[] {
  if (!endsClause(at, sentence)) return [];
  const found: Piece[] = [];
  for (let back = at - 1; back > Math.max(-1, at - LONGEST_CLAUSE); back -= 1) {
    const other = sentence[back]!;
    if (!sentence[back + 1]!.linked || other.turns) break;
    if (other.concept) found.push(other);
  }
  return found;
}

function endsClause(at: number, sentence: readonly Piece[]): boolean {
  for (const piece of sentence.slice(at + 1, at + LONGEST_CLAUSE)) {
    if (!piece.linked || piece.turns || piece.has(marks.AND)) return true;
    if (piece.concept || piece.unread) return false;
  }
  return true;
}
