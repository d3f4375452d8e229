/* What is said of totals beside everybody's words. */
import type { TableTotal } from "../wire/types";

const two = (points: number): string => points.toFixed(2);

export const totals = {
  points: "Points",
  at: (place: string): string => `at ${place}`,
  total: ({ total, low, high }: TableTotal): string => (total === null ? `${two(low)} to ${two(high)}, something is open` : two(total)),
  why: "How it adds up",
};
