/* Where a number lies along a figure, in percent of its width. */
import { scaleLinear } from "d3-scale";
import { decimals } from "../../words/count";

/** One line of a figure of intervals. Without low and high there is no interval to draw. */
export interface IntervalRow {
  label: string;
  estimate: number | null;
  low: number | null;
  high: number | null;
  /** what stands at the end of the line, as in "3 tasters" */
  note?: string;
}

export interface Axis {
  at: (value: number) => number;
  ticks: { value: number; at: number }[];
}

function spread(rows: readonly IntervalRow[]): [number, number] {
  const values = rows.flatMap((row) => [row.estimate, row.low, row.high]).filter((value) => value !== null);
  if (values.length === 0) return [0, 1];
  const [low, high] = [Math.min(...values), Math.max(...values)];
  return low === high ? [low - 1, high + 1] : [low, high];
}

/** `domain` fixes the ends, as for a scale of 0 to 100; without one the rows decide. */
export function axisOf(rows: readonly IntervalRow[], domain: readonly [number, number] | null): Axis {
  const scale = scaleLinear(domain ?? spread(rows), [0, 100]);
  if (domain === null) scale.nice(5);
  // An interval may reach beyond the ends of its scale; what is drawn may not.
  scale.clamp(true);
  return { at: scale, ticks: scale.ticks(5).map((value) => ({ value, at: scale(value) })) };
}

/** Ends from nought to a round number above every interval: for shares, which mean nothing without their nought. */
export function fromZero(rows: readonly IntervalRow[]): [number, number] {
  const highest = Math.max(1, ...rows.map((row) => row.high ?? row.estimate ?? 0));
  const [low = 0, high = 1] = scaleLinear([0, highest], [0, 1]).nice(5).domain();
  return [low, high];
}

/** As many decimals as tell the ticks of such a range apart. */
export function digitsFor(domain: readonly [number, number]): number {
  const range = Math.abs(domain[1] - domain[0]);
  if (range >= 20) return 0;
  return range >= 2 ? 1 : 2;
}

/** "6.2 (4.9 to 7.5)", or only the number where there is no interval. */
export function inWords(row: IntervalRow, digits: number): string {
  if (row.estimate === null) return "–";
  const said = decimals(row.estimate, digits);
  if (row.low === null || row.high === null) return said;
  return `${said} (${decimals(row.low, digits)} to ${decimals(row.high, digits)})`;
}
