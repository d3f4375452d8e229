/* The form of the water: what is typed, and the wish that follows from it. */
import type { Amount, WaterWish } from "../../wire/water";
import { en } from "../../words/en";

/** Empty is not known. */
export interface AmountForm {
  value: number | null;
  unit: string;
}

export type AmountsForm = Record<string, AmountForm>;

export interface SourceForm {
  name: string;
  amounts: AmountsForm;
}

export interface ConcentrateForm {
  name: string;
  salts: { salt: string; grams: number | null }[];
}

export interface WaterForm {
  sources: SourceForm[];
  concentrates: ConcentrateForm[];
  deionised: boolean;
  /** the key of a published range, or "own" */
  wanted: string;
  target: AmountsForm;
  litres: number | null;
  scaleStep: number | null;
}

/** What most people have; the others are folded away. */
export const FIRST = ["hardness", "alkalinity"] as const;
/** What mixing can set. */
export const TARGETS = ["hardness", "calcium", "magnesium", "alkalinity", "sodium", "tds"] as const;

export function freshForm(): WaterForm {
  return {
    sources: [{ name: en.water.firstSource, amounts: {} }],
    concentrates: [],
    deionised: true,
    wanted: "2009",
    target: {},
    litres: 4,
    scaleStep: 0.1,
  };
}

/** What a form kept on this device still holds; a form of another shape is as good as none. */
export function keptForm(kept: WaterForm | null): WaterForm {
  const whole = kept !== null && Array.isArray(kept.sources) && Array.isArray(kept.concentrates) && "target" in kept;
  return whole ? { ...freshForm(), ...kept } : freshForm();
}

function amounts(form: AmountsForm): Record<string, Amount> {
  const given = Object.entries(form).filter((entry): entry is [string, Amount] => typeof entry[1].value === "number");
  return Object.fromEntries(given.map(([parameter, { value, unit }]) => [parameter, { value, unit }]));
}

function grams(recipe: ConcentrateForm): Record<string, number> {
  const given = recipe.salts.filter(({ salt }) => salt !== "");
  return Object.fromEntries(given.map(({ salt, grams: weighed }) => [salt, weighed ?? 0]));
}

/** The wish; with `mix` false the waters are only to be judged. A water without a single amount is left out. */
export function wishOf(form: WaterForm, mix: boolean): WaterWish {
  const sources = form.sources.map(({ name, amounts: given }) => ({ name, analysis: amounts(given) }));
  return {
    sources: sources.filter(({ analysis }) => Object.keys(analysis).length > 0),
    concentrates: form.concentrates.map((recipe) => ({ name: recipe.name, grams_per_litre: grams(recipe) })),
    deionised: form.deionised,
    target: mix && form.wanted === "own" ? amounts(form.target) : null,
    range: mix && form.wanted !== "own" ? form.wanted : null,
    litres: form.litres ?? 0,
    scale_step_g: form.scaleStep ?? 0,
  };
}
