/* Forms that stand for more than one concept: less certain, or what the field means; as in core/words/phrases.py. */
import { spellings } from "./forms";
import { ENGLISH, type Lexicon } from "./lexicon";
import type { Node, PhraseTree } from "./phrase_tree";
import { EXACT } from "./spelling";

/* How sure a reading is when the form may stand for another concept, too. */
export const AMBIGUOUS = 0.6;
/* Families whose shared forms are meant only in a field of their own: orange the colour, where it was asked. */
const ONLY_WHERE_ASKED = ["colour"];

/** What a phrase that ends at a node means in a field. */
export interface Meaning {
  readonly concept: string;
  readonly certainty: number;
}

/** The meanings that a field gives to nodes of the English tree, which must be compiled. */
export function sharedIn(field: string, lexicon: Lexicon, tree: PhraseTree): ReadonlyMap<Node, Meaning> {
  const meant = new Map<Node, Meaning>();
  const english = lexicon.languages.get(ENGLISH)!;
  for (const concept of lexicon.concepts.values()) {
    for (const spelling of concept.shared.flatMap((form) => spellings(form, english))) {
      const end = tree.at(spelling);
      const before = meant.get(end) ?? end;
      const owner = lexicon.concepts.get(before.concept)!.family;
      if (concept.family === field) meant.set(end, { concept: concept.id, certainty: EXACT });
      else if (!ONLY_WHERE_ASKED.includes(concept.family) && owner !== field) {
        meant.set(end, { concept: before.concept, certainty: AMBIGUOUS });
      }
    }
  }
  return meant;
}

/** Whether anything is read otherwise in a field of a family. */
export function sharesForms(lexicon: Lexicon, family: string): boolean {
  for (const concept of lexicon.concepts.values()) if (concept.family === family && concept.shared.length > 0) return true;
  return false;
}
