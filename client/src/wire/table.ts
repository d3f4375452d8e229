/* The table as the desk sees it. Names as in the core of the server. */
import type { Plan } from "./plan";
import type { Sheet } from "./sheet";

export type Step = "plan" | "pour" | "taste" | "reveal";

export type Blinding = "codes" | "shuffle" | "open";

/** Milliseconds since 1970 (UTC). */
export type Millis = number;

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

export interface JoinView {
  code: string;
  url: string;
  qr_svg: string;
  addresses: string[];
}
