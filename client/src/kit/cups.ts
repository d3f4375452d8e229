/* What a cup on the table looks like and how it is spoken of. */

/** In the order of a cup's life. "empty" is a bowl of a table that is still planned. */
export const CUP_STATES = ["empty", "dry", "poured", "breaking", "skimmed", "ready", "tasted"] as const;
export type CupState = (typeof CUP_STATES)[number];

/** One cup to draw. `place` is its code or position, `number` the bowl within the place from 1. */
export interface CupView {
  id: string;
  place: string;
  number: number;
  state: CupState;
  /** the cup the next act is about: a brass ring */
  now?: boolean;
  /** what stands in the round instead of its place or number */
  text?: string;
  /** more to say than the state, as in "poured 0:42 ago" */
  say?: string;
}

/** How many bowls stand at each place, places in the order of the cups. */
export function bowlsPerPlace(cups: readonly CupView[]): { place: string; bowls: number }[] {
  const places: { place: string; bowls: number }[] = [];
  for (const cup of cups) {
    const last = places.at(-1);
    if (last !== undefined && last.place === cup.place) last.bowls += 1;
    else places.push({ place: cup.place, bowls: 1 });
  }
  return places;
}

/** Where the focus goes from cup `index` of `count` on that key, or null when the key is not ours. */
export function nextFocus(key: string, index: number, count: number): number | null {
  if (key === "ArrowRight" || key === "ArrowDown") return (index + 1) % count;
  if (key === "ArrowLeft" || key === "ArrowUp") return (index + count - 1) % count;
  if (key === "Home") return 0;
  if (key === "End") return count - 1;
  return null;
}
