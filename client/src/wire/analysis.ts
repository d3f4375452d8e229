/* The analysis of an opened table, as it travels. */

/** A number with its interval; null where there is too little for one. */
export interface Estimate {
  estimate: number;
  low: number | null;
  high: number | null;
  level: number;
}

/** `count` of the `of` tasters who wrote on a coffee used a word. */
export interface WordCount {
  concept: string;
  label: string;
  count: number;
  of: number;
  share: Estimate;
}

/** A word's share for one coffee less its share for all others. */
export interface WordContrast {
  concept: string;
  label: string;
  count: number;
  of: number;
  other_count: number;
  other_of: number;
  difference: Estimate;
  adjusted_p: number;
}

export interface AnalysedCoffee {
  id: string;
  name: string;
  places: string[];
  wrote: number;
  /** tasters who were given it */
  had: number;
  words: WordCount[];
  families: WordCount[];
  contrasts: WordContrast[];
}

/** Mean over `n` tasters; null when nobody scored. */
export interface Mean {
  n: number;
  mean: Estimate | null;
}

/** Coffee `first` less coffee `second` (indices), over the tasters who scored both. */
export interface PairDifference {
  first: number;
  second: number;
  n: number;
  mean: Estimate;
}

export interface Agreement {
  icc: Estimate;
  tasters: number;
  dropped: number;
}

/** `means` follow the order of the coffees. Without `agreement`, `why_not` says why. */
export interface AnalysedScale {
  pass: string;
  field: string;
  pass_title: string;
  label: string;
  /** the ends of the scale or, where they are not known (imported numbers), of the answers */
  low: number;
  high: number;
  ends_known: boolean;
  low_label: string;
  high_label: string;
  liking: boolean;
  means: Mean[];
  differences: PairDifference[];
  agreement: Agreement | null;
  why_not: string;
}

/** Counts of notes in fields for words; unread words and notes with how often they came. */
export interface Coverage {
  asked: number;
  empty: number;
  written: number;
  read: number;
  unread: number;
  unread_words: [string, number][];
  unread_notes: [string, number][];
}

export interface Analysis {
  level: number;
  looks: number;
  tasters: number;
  /** answers that came after the key was opened: kept, and left out of everything here */
  late: { answers: number; tasters: number };
  coffees: AnalysedCoffee[];
  scales: AnalysedScale[];
  coverage: Coverage;
}
