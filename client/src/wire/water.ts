/* Water over the wire: what a form can offer, what is wished, and the answer. */

export interface WaterParameter {
  parameter: string;
  label: string;
  /** the program's own first; a pH has one without a name */
  units: string[];
}

export interface WaterKnown {
  parameters: WaterParameter[];
  salts: { name: string; formula: string; soluble_g: number }[];
  ranges: { key: string; title: string; source: string }[];
}

export interface Amount {
  value: number;
  unit: string;
}

export interface WaterWish {
  sources: { name: string; analysis: Record<string, Amount> }[];
  concentrates: { name: string; grams_per_litre: Record<string, number> }[];
  deionised: boolean;
  target: Record<string, Amount> | null;
  range: string | null;
  litres: number;
  scale_step_g: number;
}

export interface WaterJudgement {
  parameter: string;
  low: number;
  high: number;
  target: number | null;
  published: boolean;
  low_value: number | null;
  high_value: number | null;
  verdict: "inside" | "below" | "above" | "unknown";
  words: string;
}

export interface WaterView {
  name: string;
  ranges: Record<string, WaterJudgement[]>;
  complaints: string[];
}

export interface WaterPart {
  name: string;
  kind: "water" | "deionised" | "concentrate";
  litres: number;
  grams: number | null;
  measured_litres: number;
  measured_grams: number | null;
}

export interface WaterReached {
  parameter: string;
  low: number;
  high: number;
  aim: number;
  value: number;
  miss: number;
  measured: number;
}

export interface WaterMix {
  sentence: string;
  reached_sentence: string;
  litres: number;
  feasible: boolean;
  parts: WaterPart[];
  reached: WaterReached[];
  mix: WaterView;
  ph: string;
  complaints: string[];
  cautions: string[];
}

export interface WaterAnswer {
  sources: WaterView[];
  mix: WaterMix | null;
}
