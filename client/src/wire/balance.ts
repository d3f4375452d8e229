/* How even the serving orders of a table are, as the server counts it. */

/** In short: whole sentences; `cost / bound` is 1 where no orders could be more even. */
export interface BalanceInShort {
  sentences: string[];
  connected: boolean;
  cost: number;
  bound: number;
}

/** One flight: how often place i stood at position p, and how often place j came right after place i. */
export interface FlightBalance {
  places: string[];
  positions: number[][];
  followers: number[][];
  cost: number;
  bound: number;
}

/** With every count: `served[i]` tasters get place i, `together[i][j]` get both i and j. */
export interface Balance extends BalanceInShort {
  tasters: number;
  places: string[];
  served: number[];
  together: number[][];
  flights: FlightBalance[];
}
