/* What the host asks for, and what is to be made ready for it. */
import type { Balance } from "./balance";
import type { Caution, Deviation } from "./protocols";
import type { Blinding } from "./table";

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
  boiling: { boils_c: number; reached_c: number; pour_low_c: number; pour_high_c: number; reaches: boolean };
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
