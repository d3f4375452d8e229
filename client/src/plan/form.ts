/* The plan as it stands in the form: numbers may be missing, tasters are one text. */
import type { CupView } from "../kit/cups";
import type { Plan, TableView } from "../wire/types";

type Numbers =
  | "bowls_per_sample" | "bowl_ml" | "grams_per_litre" | "scale_step_g" | "kettle_c" | "purge_g" | "seed"
  | "flight" | "samples_each" | "pourers" | "pour_s" | "break_s" | "skim_s"
  | "altitude_m" | "room_c" | "taste_from_c" | "swallowed";

/** `tasters` is one name a line. */
export type PlanForm = Omit<Plan, Numbers | "tasters"> & Record<Numbers, number | null> & { tasters: string };

export const MOST_BOWLS = 60;

export function freshForm(): PlanForm {
  return {
    name: "",
    coffees: [],
    tasters: "Taster 1",
    bowls_per_sample: 1,
    bowl_ml: 200,
    grams_per_litre: 55,
    scale_step_g: 0.1,
    kettle_c: 95,
    spare_bowl: false,
    purge_g: 5,
    blinding: "codes",
    sheet: "open",
    seed: 0,
    protocol: "cupping",
    duplicates: [],
    flight: 8,
    samples_each: 0,
    pourers: 1,
    pour_s: 15,
    break_s: 10,
    skim_s: 15,
    vessel: "bowl",
    altitude_m: 0,
    room_c: 22,
    taste_from_c: 71,
    swallowed: 0.15,
  };
}

export function formOf(plan: Plan): PlanForm {
  return { ...plan, tasters: plan.tasters.join("\n") };
}

/** What is sent. A missing number goes as null, and the server says which field wants one. */
export function planOf(form: PlanForm): Plan {
  const tasters = form.tasters
    .split("\n")
    .map((name) => name.trim())
    .filter((name) => name !== "");
  return { ...form, tasters } as Plan;
}

/** Samples on the table: each coffee once, and once more where it stands under a second code. */
export function samplesOf(form: PlanForm): number {
  return form.coffees.length + form.duplicates.length;
}

export function bowlsOf(form: PlanForm): number {
  return samplesOf(form) * Math.max(0, Math.floor(form.bowls_per_sample ?? 0));
}

/** Whether a table can be drawn from it: nothing yet, or bowls that a table holds, in flights. */
export function drawable(form: PlanForm): boolean {
  if (form.coffees.length === 0) return true;
  const bowls = bowlsOf(form);
  return bowls >= 1 && bowls <= MOST_BOWLS && form.flight !== null && form.flight >= 1;
}

/** The cups as they would stand: places are numbers while no codes are drawn. */
export function plannedCups(form: PlanForm): CupView[] {
  const each = Math.max(0, Math.floor(form.bowls_per_sample ?? 0));
  if (bowlsOf(form) > MOST_BOWLS) return [];
  const shuffled = form.blinding === "shuffle";
  const places = samplesOf(form) * (shuffled ? each : 1);
  const perPlace = shuffled ? 1 : each;
  return Array.from({ length: places }, (_, place) =>
    Array.from({ length: perPlace }, (_, index) => cupAt(String(place + 1), index + 1)),
  ).flat();
}

/** The cups of a table that was laid: with its codes. */
export function laidCups(table: TableView): CupView[] {
  return table.bowls.map((bowl) => cupAt(bowl.place, bowl.number));
}

/** How many places each flight has: as few flights of nearly equal size as the plan allows, as the server parts them. */
export function flightSizes(places: number, flight: number | null): number[] {
  if (places === 0 || flight === null || flight < 1) return [];
  const flights = Math.ceil(places / flight);
  const end = (number: number) => Math.floor((places * number) / flights);
  return Array.from({ length: flights }, (_, number) => end(number + 1) - end(number));
}

function cupAt(place: string, number: number): CupView {
  return { id: `${place}/${number}`, place, number, state: "empty" };
}
