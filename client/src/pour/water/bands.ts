/* Where a value and its band lie on a line of their own, in percent of its length. */
import { scaleLinear } from "d3-scale";
import type { WaterJudgement, WaterReached } from "../../wire/water";

export interface BandRow {
  parameter: string;
  low: number;
  high: number;
  target: number | null;
  published: boolean;
  /** the value; two ends where only a total is known */
  from: number | null;
  to: number | null;
  words: string;
}

export interface BandLine {
  band: [number, number];
  target: number | null;
  value: [number, number] | null;
  ticks: { value: number; at: number }[];
}

/** A line that holds band and value, from nought; a pH, whose nought means nothing, from a little below. */
export function lineOf(row: BandRow): BandLine {
  // A band that is nothing but nought still needs a line to lie on.
  const reach = Math.max(row.high, row.to ?? 0, row.high > 0 ? 0 : 0.4);
  const lowest = Math.min(row.low, row.from ?? row.low);
  const start = row.parameter === "ph" ? Math.min(5, Math.floor(lowest)) : 0;
  const end = row.parameter === "ph" ? Math.max(9, Math.ceil(reach)) : reach * 1.12;
  const scale = scaleLinear([start, end], [0, 100]).nice(4).clamp(true);
  return {
    band: [scale(row.low), scale(row.high)],
    target: row.target === null ? null : scale(row.target),
    value: row.from === null || row.to === null ? null : [scale(row.from), scale(row.to)],
    ticks: scale.ticks(4).map((value) => ({ value, at: scale(value) })),
  };
}

export function rowsOfRange(judged: readonly WaterJudgement[]): BandRow[] {
  return judged.map(({ low_value, high_value, verdict: _, ...rest }) => ({ ...rest, from: low_value, to: high_value }));
}

/** The same for a target of one's own, whose band is what counts as met. */
export function rowsOfTarget(reached: readonly WaterReached[], say: (one: WaterReached) => string): BandRow[] {
  return reached.map((one) => ({
    parameter: one.parameter,
    low: one.low,
    high: one.high,
    target: one.aim,
    published: true,
    from: one.measured,
    to: one.measured,
    words: say(one),
  }));
}
