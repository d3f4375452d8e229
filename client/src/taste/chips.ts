/* What was read in a note, as chips: one a meaning, each with how sure the reading is and what to call it. */
import { NOT_THAT, surfaceWords } from "../local/corrections";
import type { Reading, Word } from "../words/reading/reading";
import { tokens } from "../words/reading/tokens";
import { type Said, saidOf } from "../words/said_en";

/** How sure: written so, written nearly so, a guess, or not read at all. */
export type Sureness = "sure" | "likely" | "guess" | "unread";

/** `surface` are the words as written; `said`: what the note says of them; `corrected` if the taster has said so. */
export interface Chip {
  surface: string;
  concept: string | null;
  label: string;
  sureness: Sureness;
  said: Said;
  corrected: boolean;
}

const NOTHING_SAID: Said = { negated: false, degree: "plain", comparison: "", against: "", hedged: false, stage: "" };
// Below these a reading took off an ending at most, or mended one slip.
const SURE = 0.9;
const LIKELY = 0.75;

/**
 * The chips of a note in the order of its text, equal ones once.
 *
 * `corrected` holds what the taster has said of words (as `surfaceWords` gives them); words said to be none stay
 * as unread chips, so that the correction can be taken back.
 */
export function chipsOf(reading: Reading, corrected: ReadonlyMap<string, string>): Chip[] {
  const { text } = reading;
  const read = reading.words.map((word) => ({ start: word.start, chip: readChip(word, text.slice(word.start, word.end)) }));
  const unread = reading.unread.map((span) => ({ start: span.start, chip: unreadChip(text.slice(span.start, span.end)) }));
  const silent = silenced(text, corrected).map(({ start, surface }) => ({ start, chip: unreadChip(surface) }));
  const chips = [...read, ...unread, ...silent].sort((a, b) => a.start - b.start).map(({ chip }) => chip);
  const seen = new Set<string>();
  return chips.flatMap((chip) => {
    const meaning = saidOf(chip.said, chip.concept ?? surfaceWords(chip.surface));
    if (seen.has(meaning)) return [];
    seen.add(meaning);
    return [{ ...chip, corrected: corrected.has(surfaceWords(chip.surface)) }];
  });
}

function readChip({ concept, label, certainty, ...said }: Word, surface: string): Chip {
  const sureness = certainty >= SURE ? "sure" : certainty >= LIKELY ? "likely" : "guess";
  return { surface, concept, label, sureness, said, corrected: false };
}

function unreadChip(surface: string): Chip {
  return { surface, concept: null, label: surface, sureness: "unread", said: NOTHING_SAID, corrected: false };
}

/** Where the text has words that the taster said mean nothing: place and words as written. A reading is silent there. */
function silenced(text: string, corrected: ReadonlyMap<string, string>): { start: number; surface: string }[] {
  const told = tokens(text);
  const silent = [...corrected].filter(([, concept]) => concept === NOT_THAT).map(([words]) => words.split(" "));
  return silent.flatMap((words) => {
    const first = told.findIndex((_, at) => words.every((word, further) => told[at + further]?.word === word));
    if (first < 0) return [];
    const [from, to] = [told[first]!.start, told[first + words.length - 1]!.end];
    return [{ start: from, surface: text.slice(from, to) }];
  });
}
