/* The lexicon, kin and own words, as they travel. */
import type { Named, OwnWord } from "./types";

/** A concept in few words; `family` is the label of its head, `own` if users added it. */
export interface ConceptLine {
  id: string;
  label: string;
  family: string;
  own: boolean;
}

export interface ListedConcept extends ConceptLine {
  forms: string[];
}

/** A concept near another; kinship 0..1, and why in sentences. */
export interface Kin extends Named {
  kinship: number;
  why: string;
}

/** `colour` is typical of it, or "". A fault has its usual cause in `defect` and what to do in `todo`. */
export interface ConceptView extends ListedConcept {
  parents: Named[];
  children: Named[];
  colour: string;
  reference: string;
  allergens: string[];
  defect: string;
  todo: string;
  kin: Kin[];
}

/** Where a concept lies on the map; the middle of all at 0. */
export interface MapPoint extends ConceptLine {
  x: number;
  y: number;
  colour: string;
}

/** `stress` says how much of the kinship a plane cannot show, 0 for nothing. */
export interface WordMap {
  points: MapPoint[];
  stress: number;
}

/** An own word as the desk keeps it; `why_not` says why it is not read by, "" if it is. */
export interface KeptOwnWord extends OwnWord {
  id: string;
  added: string;
  why_not: string;
}

export interface ImportedWords {
  added: number;
  known: number;
}
