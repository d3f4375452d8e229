/* Whose totals stand beside which coffee. */
import type { CoffeeComparison, Comparison, TableTotal, TasterWords } from "../wire/types";

/** A taster's totals for a coffee, in the order of the places where it stood. */
export function totalsOf(comparison: Comparison | null, compared: CoffeeComparison, seat: string): TableTotal[] {
  const found = (comparison?.totals ?? []).filter((one) => one.seat === seat && one.coffee === compared.coffee.id);
  return found.sort((a, b) => compared.places.indexOf(a.place) - compared.places.indexOf(b.place));
}

/** Everybody who wrote of a coffee, then those who only gave it points. */
export function tastersOf(comparison: Comparison | null, compared: CoffeeComparison): TasterWords[] {
  const tasters = [...compared.tasters];
  for (const { seat, name, coffee } of comparison?.totals ?? []) {
    const known = tasters.some((one) => one.seat === seat);
    if (coffee === compared.coffee.id && !known) tasters.push({ seat, name, written: [], published: null, others: null, late: [] });
  }
  return tasters;
}
