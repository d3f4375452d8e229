/* What a user has said a piece of text means, so that the next reading knows it; as core/words/corrections.py does. */
import type { Lexicon } from "./lexicon";
import { EMPTY, NO_MARKS } from "./marks";
import type { Found } from "./phrases";
import { EXACT } from "./spelling";
import { JOINED, tokens, type Token } from "./tokens";

/** "These words name no concept." */
export const NOT_THAT = "none";

/** Folded words between spaces -> concept id or NOT_THAT, and of how many words the longest is. */
export interface Corrections {
  meant: ReadonlyMap<string, string>;
  mostWords: number;
}

export const NO_CORRECTIONS: Corrections = { meant: new Map(), mostWords: 0 };

/** Corrections from surfaces as written; what the lexicon does not have is passed over. */
export function corrections(said: Iterable<readonly [string, string]>, lexicon: Lexicon): Corrections {
  const meant = new Map<string, string>();
  let mostWords = 0;
  for (const [surface, concept] of said) {
    const words = tokens(surface).map((token) => token.word);
    if (words.length === 0 || (concept !== NOT_THAT && !lexicon.concepts.has(concept))) continue;
    meant.set(words.join(" "), concept);
    mostWords = Math.max(mostWords, words.length);
  }
  return { meant, mostWords };
}

/** The longest corrected surface that starts at a word. */
export function longestTold(told: Corrections, words: readonly Token[], first: number): Found | undefined {
  let surface = "";
  let best: Found | undefined;
  for (let at = first; at < Math.min(words.length, first + told.mostWords); at += 1) {
    const word = words[at]!;
    if (at > first && word.gap !== JOINED) break;
    surface = at === first ? word.word : `${surface} ${word.word}`;
    const meant = told.meant.get(surface);
    if (meant === undefined) continue;
    const nothing = meant === NOT_THAT;
    best = {
      concept: nothing ? "" : meant,
      marks: nothing ? [EMPTY] : NO_MARKS,
      first,
      after: at + 1,
      certainty: EXACT,
      compares: "",
    };
  }
  return best;
}
