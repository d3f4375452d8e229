/* A sheet: what a taster is asked, pass by pass; `part` of the core is called `pass` here. */

export type Kind =
  "words" | "text" | "colour" | "line" | "points" | "choice" | "ticks" | "cups" | "faults" | "tags" | "rank" | "odd";

export type Moment = "dry" | "break" | "hot" | "warm" | "cool";

/**
 * One question. `low`, `high`, `step` and their labels matter for line and points; `high` for cups: what good ones
 * get; `choices` for choice and tags, `most` for tags (0: any number), `ties` for rank.
 */
export interface Field {
  id: string;
  kind: Kind;
  label: string;
  hint: string;
  low: number;
  high: number;
  step: number;
  low_label: string;
  high_label: string;
  choices: string[];
  /** tables that a phone kept from an earlier version have none of these */
  most?: number;
  ties?: boolean;
  /** ticks: whether one marked cup asks what all others are */
  try_all?: boolean;
}

/** One round over all places, or one question to the whole table. `caution` is shown wherever it is not empty. */
export interface Pass {
  id: string;
  title: string;
  ask: string;
  moment: Moment;
  caution: string;
  over?: "places" | "table";
  fields: Field[];
}

/** A field that counts towards the points; `times` as a decimal text. */
export interface Term {
  pass: string;
  field: string;
  times: string;
}

/** How a sheet's points are made; numbers are decimal texts. */
export interface PointsRule {
  start: string;
  add: Term[];
  subtract: Term[];
  step: string;
  least: string;
  cups: number;
  both: [string, string][];
}

/** `liking` names the pass and field that hold overall liking. */
export interface Sheet {
  name: string;
  version: number;
  title: string;
  liking: [string, string] | null;
  passes: Pass[];
  points?: PointsRule | null;
}

/** A user's own sheet as it was written. */
export interface OwnSheet {
  name: string;
  version: number;
  text: string;
  kept: string;
}
