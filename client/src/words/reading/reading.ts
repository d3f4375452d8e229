/* Reading a note without the server: which concepts a text names, where, how surely, and what could not be read.

   The same as core/words/reading.py on the same lexicon, held to tests/contract/reading_cases.json. Positions here
   count UTF-16 units, so that `text.slice(start, end)` holds; `byCodePoints` gives the server's. */
import { compare } from "./comparison";
import { NO_CORRECTIONS, type Corrections } from "./corrections";
import { grade } from "./degree";
import { dropHabits } from "./habit";
import { hedge } from "./hedge";
import { ENGLISH, type Lexicon } from "./lexicon";
import { deny } from "./negation";
import { phraseIndex } from "./phrases";
import { piecesOf, takeReach, type Comparison, type Degree, type Piece, type Stage } from "./pieces";
import { joinRepeats } from "./repeats";
import { dropCarriers, settleAmounts } from "./roles";
import { place } from "./stage";
import { tokens } from "./tokens";

/* A word that another language knows counts one, two if it is long; English is left from two on. */
const LONG_WORD = 5;
const ENOUGH = 2;

/** A concept found in `text.slice(start, end)`; what the rest means stands in core/words/reading.py. */
export interface Word {
  concept: string;
  label: string;
  start: number;
  end: number;
  certainty: number;
  negated: boolean;
  degree: Degree;
  comparison: Comparison;
  against: string;
  hedged: boolean;
  stage: Stage;
}

export interface Span {
  start: number;
  end: number;
}

/** A text as written, the words found in it, and what carries meaning but was not understood. */
export interface Reading {
  text: string;
  words: Word[];
  unread: Span[];
}

export interface Asked {
  /** The family that was asked for, if one was: in a field "colour" the word orange is a colour. */
  field?: string;
  corrections?: Corrections;
}

/** Read a note into concepts of the lexicon. Nothing in a text can make it fail. */
export function readNote(text: string, lexicon: Lexicon, asked: Asked = {}): Reading {
  const line = pieces(text, lexicon, asked);
  if (line.some((piece) => piece.concept)) understand(line, text, lexicon);
  return {
    text,
    words: line.filter((piece) => piece.concept).map((piece) => wordOf(piece, lexicon)),
    unread: line.filter((piece) => piece.unread).map(({ start, end }) => ({ start, end })),
  };
}

/** Compile what reading needs, so that the first note after it takes no longer than the others. */
export function prepare(lexicon: Lexicon): void {
  for (const code of lexicon.languages.keys()) phraseIndex(lexicon, code);
}

/** What the text says is there: not denied, not less than in another cup, not of another cup. */
export function conceptsOf(reading: Reading): Set<string> {
  const unsaid: readonly Comparison[] = ["less", "least", "other"];
  const said = reading.words.filter((word) => !word.negated && !unsaid.includes(word.comparison));
  return new Set(said.map((word) => word.concept));
}

/** The same reading with positions as the server counts them: in code points. */
export function byCodePoints(reading: Reading): Reading {
  const { text } = reading;
  const counted = <T extends Span>(span: T): T => ({
    ...span,
    start: [...text.slice(0, span.start)].length,
    end: [...text.slice(0, span.end)].length,
  });
  return { text, words: reading.words.map(counted), unread: reading.unread.map(counted) };
}

/** The pieces of a note in English, or in the language that knows its other words. */
function pieces(text: string, lexicon: Lexicon, asked: Asked): Piece[] {
  const words = tokens(text);
  const told = asked.corrections ?? NO_CORRECTIONS;
  const field = asked.field !== undefined && lexicon.families.includes(asked.field) ? asked.field : "";
  const line = piecesOf(words, phraseIndex(lexicon, ENGLISH, field), told);
  const unknown = line.filter((piece) => piece.unread).map((piece) => piece.word);
  const code = spoken(unknown, lexicon, field);
  return code === ENGLISH ? line : piecesOf(words, phraseIndex(lexicon, code, field), told);
}

/** The language to read a note in, given its words that English does not know. */
function spoken(unknown: readonly string[], lexicon: Lexicon, field: string): string {
  let best = ENGLISH;
  let points = ENOUGH - 1;
  if (unknown.length === 0) return best;
  for (const code of lexicon.languages.keys()) {
    if (code === ENGLISH) continue;
    const other = phraseIndex(lexicon, code, field);
    const known = unknown.filter((word) => other.knows(word));
    const counted = known.reduce((sum, word) => sum + (word.length >= LONG_WORD ? 2 : 1), 0);
    if (counted > points) [best, points] = [code, counted];
  }
  return best;
}

function understand(line: readonly Piece[], text: string, lexicon: Lexicon): void {
  settleAmounts(line, lexicon);
  dropHabits(line);
  deny(line, lexicon);
  grade(line, lexicon);
  dropCarriers(line, lexicon);
  joinRepeats(line);
  compare(line, text, lexicon);
  hedge(line);
  place(line, lexicon);
  takeReach(line);
}

function wordOf(piece: Piece, lexicon: Lexicon): Word {
  const { concept, start, end, certainty, negated, degree, comparison, against, hedged, stage } = piece;
  const label = lexicon.concepts.get(concept)!.label;
  return { concept, label, start, end, certainty, negated, degree, comparison, against, hedged, stage };
}
