/* An order of places as it is put together: groups of places, the first first; places of one group share it. */

export type Groups = readonly (readonly string[])[];

/** The groups of a kept order, which gives each place its number. */
export function groupsOf(order: Readonly<Record<string, number>>): string[][] {
  const numbers = [...new Set(Object.values(order))].sort((a, b) => a - b);
  return numbers.map((number) => Object.keys(order).filter((place) => order[place] === number).sort());
}

/** The order as it is kept; null where no place is in it. */
export function orderOf(groups: Groups): Record<string, number> | null {
  const filled = groups.filter((group) => group.length > 0);
  if (filled.length === 0) return null;
  return Object.fromEntries(filled.flatMap((group, index) => group.map((place) => [place, index + 1])));
}

const without = (groups: Groups, place: string): string[][] =>
  groups.map((group) => group.filter((each) => each !== place)).filter((group) => group.length > 0);

const indexOf = (groups: Groups, place: string): number => groups.findIndex((group) => group.includes(place));

/** With a place more, as the last. */
export const added = (groups: Groups, place: string): string[][] => [...without(groups, place), [place]];

/** Without a place. */
export const taken = (groups: Groups, place: string): string[][] => without(groups, place);

/** A place one up (-1) or down (1): out of a shared place first, else past the next group. */
export function moved(groups: Groups, place: string, by: -1 | 1): string[][] {
  const at = indexOf(groups, place);
  if (at < 0) return groups.map((group) => [...group]);
  const isShared = (groups[at]?.length ?? 0) > 1;
  const rest = without(groups, place);
  const to = isShared ? (by < 0 ? at : at + 1) : Math.min(Math.max(at + by, 0), rest.length);
  return [...rest.slice(0, to), [place], ...rest.slice(to)];
}

/** A place beside those above it; the first stays where it is. */
export function tied(groups: Groups, place: string): string[][] {
  const at = indexOf(groups, place);
  const above = groups[at - 1];
  if (above === undefined) return groups.map((group) => [...group]);
  return without(groups, place).map((group) => (group.includes(above[0] ?? "") ? [...group, place].sort() : group));
}
