/* What stood where, and how the words compare. */
import type { Coffee } from "./coffees";
import type { TableTotal } from "./notes";
import type { Named, Reading } from "./words";

export interface Near {
  mine: Named;
  theirs: Named;
  kinship: number;
}

/** Two lists of words side by side; `score` in 0..1. */
export interface Matched {
  shared: Named[];
  near: Near[];
  missed: Named[];
  own: Named[];
  score: number;
}

export interface Written {
  place: string;
  pass: string;
  field: string;
  text: string;
  reading: Reading;
}

/** What one taster wrote of one coffee; null where there is nothing to compare with. `late`: after the key was opened. */
export interface TasterWords {
  seat: string;
  name: string;
  written: Written[];
  published: Matched | null;
  others: Matched | null;
  late: Written[];
}

export interface CoffeeComparison {
  coffee: Coffee;
  places: string[];
  published: Reading;
  tasters: TasterWords[];
}

/** The opened key: what the commitment can be recomputed from (docs/methods/seal.md). */
export interface OpenedKey {
  pairs: [string, string][];
  nonce: string;
}

/** Whether notes pick out the coffees: `worse` of `ways` of shuffling them fit worse than they stood. */
export interface Fit {
  sentence: string;
  coffees: number;
  worse: number;
  ways: number;
  p_value: number;
  exact: boolean;
}

/** One taster's fit by the bags' words and by the others'; null where there is too little to say. */
export interface TasterFit {
  seat: string;
  published: Fit | null;
  others: Fit | null;
}

/** `fits` and `totals` are missing in a comparison that an older server gave; no totals, if the sheet makes none. */
export interface Comparison {
  table_id: string;
  commitment: string;
  key: OpenedKey;
  coffees: CoffeeComparison[];
  fits?: TasterFit[];
  totals?: TableTotal[];
}
