/* Protocols, where a plan leaves one, and what a table asks of its people. Names are those of the wire. */

/** One thing a protocol asks for, and where that comes from. */
export interface Ask {
  what: string;
  asks: string;
  source: string;
}

/** `own` is a user's; `suggested` holds values of a plan that keep to it, by the plan's own names. */
export interface Protocol {
  name: string;
  version: number;
  title: string;
  about: string;
  own: boolean;
  brewed: "bowl" | "apart";
  acts: string[];
  asks: Ask[];
  suggested: Record<string, number>;
  text: string;
}

/** `size` is signed and in `unit`; null where the plan does not tell. `sentence` says all of it. */
export interface Deviation {
  what: string;
  sentence: string;
  size: number | null;
  tolerance: number | null;
  unit: string;
  source: string;
  known: boolean;
}

/** `size` in `unit`, expected between `low` and `high`, against `limit` (null where nobody has set one). */
export interface Caution {
  about: string;
  sentence: string;
  size: number;
  low: number;
  high: number;
  limit: number | null;
  unit: string;
  source: string;
  exceeded: boolean;
}
