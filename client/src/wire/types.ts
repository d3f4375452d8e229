/* What travels between client and server. Names as in the core of the server; `part` is called `pass` here. */

import type { Schedule } from "../pour/clock";
import type { Balance } from "./balance";
import type { Caution, Deviation } from "./protocols";

export type Step = "plan" | "pour" | "taste" | "reveal";
export type Blinding = "codes" | "shuffle" | "open";

/** Milliseconds since 1970 (UTC). */
export type Millis = number;

// ---- the sheet ----------------------------------------------------------------------------------

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

// ---- notes --------------------------------------------------------------------------------------

/** A colour in OKLab: l in 0..1, a and b in -0.5..0.5. */
export interface Colour {
  l: number;
  a: number;
  b: number;
}

/**
 * By kind. words, text, choice, points, odd: text. line: number. colour: Colour. ticks, cups: cup numbers. tags: texts.
 * faults: cup -> 0, 2 or 4. rank: place -> its number in the order. null: taken back.
 */
export type Value = string | number | number[] | string[] | Colour | Record<string, number> | null;

/** Which of two notes for one question is the newer: the greater counter, then the greater device. */
export interface Stamp {
  counter: number;
  device: string;
}

/** One answer of a seat. `written_at` is the table's time as the device knew it: never for order. */
export interface Note {
  id: string;
  place: string;
  pass: string;
  field: string;
  value: Value;
  stamp: Stamp;
  written_at: Millis;
}

/** The answer to notes sent: the ids that are safe, and the highest number in the server's own count. */
export interface Kept {
  kept: string[];
  sequence: number;
}

/** What one taster's answers on one sample add up to; `total` is null while something is open. */
export interface TableTotal {
  seat: string;
  place: string;
  coffee: string;
  total: number | null;
  low: number;
  high: number;
  lines: string[];
  complaints: string[];
}

// ---- coffees and plans --------------------------------------------------------------------------

/** `roast_date` as 2026-11-25. */
export interface Coffee {
  id: string;
  name: string;
  roaster: string;
  origin: string;
  process: string;
  variety: string;
  roast_date: string | null;
  published_notes: string;
  grams_left: number | null;
}

export type NewCoffee = Omit<Coffee, "id">;

export interface RefusedLine {
  line: number;
  column: string;
  message: string;
}

export interface CoffeeImport {
  added: Coffee[];
  refused: RefusedLine[];
  /** headings of columns that no coffee has a field for */
  unused: string[];
}

/** What the host asks for. Grams, millilitres, degrees Celsius; `coffees` are ids. */
export interface Plan {
  name: string;
  coffees: string[];
  tasters: string[];
  bowls_per_sample: number;
  bowl_ml: number;
  grams_per_litre: number;
  scale_step_g: number;
  kettle_c: number;
  spare_bowl: boolean;
  purge_g: number;
  blinding: Blinding;
  sheet: string;
  seed: number;
  protocol: string;
  /** coffees that also stand under a second code */
  duplicates: string[];
  /** most samples tasted without a break */
  flight: number;
  /** samples each taster gets; 0 for all */
  samples_each: number;
  pourers: number;
  pour_s: number;
  break_s: number;
  skim_s: number;
  vessel: string;
  altitude_m: number;
  room_c: number;
  taste_from_c: number;
  /** share that is not spat out, 0 to 1 */
  swallowed: number;
}

// ---- tables -------------------------------------------------------------------------------------

/** One taster and the order in which that taster meets the places. */
export interface Seat {
  id: string;
  name: string;
  order: string[];
}

/** When the clock was started, (bowl from 0, time) of each pour marked by hand, (what, bowl, time) of what else was. */
export interface Clock {
  started_at: Millis | null;
  pours: [number, Millis][];
  done: [string, number, Millis][];
}

/** One vessel; the list of them is in pouring order. `number` counts within the place from 1. */
export interface Bowl {
  place: string;
  number: number;
}

/** A seat as the desk sees it; `taken` if somebody sits there. */
export interface DeskSeat extends Seat {
  taken: boolean;
}

/** A table in the list of tables. */
export interface TableLine {
  id: string;
  name: string;
  step: Step;
  created: string;
  blinding: Blinding;
  samples: number;
  bowls: number;
  tasters: number;
}

/** A table as the desk sees it. Nothing in it says which coffee stands where before the reveal. */
export interface TableView {
  id: string;
  name: string;
  created: string;
  step: Step;
  blinding: Blinding;
  plan: Plan;
  sheet: Sheet;
  codes: string[];
  places: string[];
  bowls: Bowl[];
  seats: DeskSeat[];
  commitment: string;
  join_code: string;
  clock: Clock;
  placings: Record<string, string>;
}

export interface Recipe {
  samples: number;
  bowls: number;
  spare_bowls: number;
  bowl_ml: number;
  dose_g: number;
  exact_dose_g: number;
  low_g: number;
  high_g: number;
  grams_per_litre: number;
  deviation_percent: number;
  purge_g: number;
  coffee_per_sample_g: number;
  total_coffee_g: number;
  water_poured_ml: number;
  water_to_heat_ml: number;
  kettle_c: number;
  kettle_f: number;
  /** g/L that the steps of the scales leave open */
  ratio_low: number;
  ratio_high: number;
  /** what the water of one bowl weighs as hot as it is poured, and the ratio if it is poured by weight instead */
  bowl_water_g: number;
  by_weight_grams_per_litre: number;
  boiling: { boils_c: number; reached_c: number; pour_low_c: number; pour_high_c: number };
  warnings: string[];
}

export interface Task {
  title: string;
  detail: string;
  caution: string;
}

export interface CoffeeNeed {
  coffee_id: string;
  name: string;
  grams: number;
  grams_left: number | null;
  runs_short: boolean;
}

/** Everything to have ready. `warnings` are whole sentences. */
export interface Brief {
  recipe: Recipe;
  tasks: Task[];
  coffees: CoffeeNeed[];
  warnings: string[];
  deviations: Deviation[];
  limits: Caution[];
  balance: Balance;
}

/** For the pourer's eyes alone. */
export interface PourLine {
  code: string;
  coffee: Coffee;
  bowls: number;
}

export type CueKind = "pour" | "break" | "skim" | "taste";

/** One act on one bowl (index in pouring order from 0), with its place and number; `person` is null for all. */
export interface Cue {
  kind: CueKind;
  bowl: number;
  place: string;
  number: number;
  due: Millis;
  earliest: Millis;
  latest: Millis;
  ends: Millis;
  person: number | null;
  done: boolean;
}

export interface RunSheet {
  now_ms: Millis;
  started_at: Millis | null;
  cues: Cue[];
  schedule: Schedule;
  /** what cannot be kept any more, in sentences */
  late: string[];
}

export interface JoinView {
  code: string;
  url: string;
  qr_svg: string;
  addresses: string[];
}

export interface PassProgress {
  pass: string;
  done: number;
  all: number;
}

export interface SeatProgress {
  seat: string;
  name: string;
  passes: PassProgress[];
  last_seen: Millis | null;
}

// ---- a taster's side ----------------------------------------------------------------------------

/** What a taster may know of a table before the reveal: no coffee, no grams, no order drawn from them. */
export interface SeatTable {
  id: string;
  name: string;
  step: Step;
  blinding: Blinding;
  places: string[];
  /** The places, parted into what is tasted without a break. */
  flights?: string[][];
  bowls: Bowl[];
  sheet: Sheet;
  commitment: string;
  clock: Clock;
  cues: Cue[];
}

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

/** What a phone reads its taster's words with, beside the lexicon. */
export interface SeatWords {
  own: OwnWord[];
  corrections: Correction[];
}

/** `words` come with a whole view only, after=0. */
export interface SeatView {
  now_ms: Millis;
  table: SeatTable;
  seat: Seat;
  notes: Note[];
  sequence: number;
  words: SeatWords | null;
}

export interface Joined {
  token: string;
  seat: Seat;
  table: SeatTable;
}

// ---- the reveal ---------------------------------------------------------------------------------

/** A concept found in text[start:end], counted in code points. */
export interface Word {
  concept: string;
  label: string;
  start: number;
  end: number;
  certainty: number;
  negated: boolean;
}

export interface Span {
  start: number;
  end: number;
}

/** A text word for word, the concepts read in it, and what was not understood. */
export interface Reading {
  text: string;
  words: Word[];
  unread: Span[];
}

/** A concept with its label. */
export interface Named {
  concept: string;
  label: string;
}

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

/** `fits` is missing in a comparison that an older server gave. */
export interface Comparison {
  table_id: string;
  commitment: string;
  key: OpenedKey;
  coffees: CoffeeComparison[];
  fits?: TasterFit[];
}

// ---- around -------------------------------------------------------------------------------------

export type DeskState = "open" | "locked" | "entered" | "unset";

export interface Health {
  version: string;
  build: string;
  now_ms: Millis;
  lan: boolean;
  desk: DeskState;
}
