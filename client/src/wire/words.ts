/* Words: readings, the lexicon, kin, own words and corrections. */
import type { Stamp } from "./notes";
import type { Millis } from "./table";

/** An own word of the installation: a concept with its label and parents or, without a label, forms of another. */
export interface OwnWord {
  concept: string;
  label: string;
  parents: string[];
  forms: string[];
}

/** What words of a taster mean, as an append-only message. `concept`: an id, "none", or null where it is taken back. */
export interface Correction {
  id: string;
  surface: string;
  concept: string | null;
  stamp: Stamp;
  written_at: Millis;
}

/* Readings are as the phone makes them, except that the server counts places in code points. */
export type { Reading, Span, Word } from "../words/reading/reading";

/** A concept with its label. */
export interface Named {
  concept: string;
  label: string;
}

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
