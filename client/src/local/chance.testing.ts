/* Chance that can be repeated: the same seed gives the same draws. For tests only. */

export interface Chance {
  /** a number from 0 up to, not including, 1 */
  next(): number;
  /** a whole number from 0 up to, not including, `below` */
  below(below: number): number;
  one<T>(of: readonly T[]): T;
}

/** A small generator of 32 bits (a counter, mixed); good enough to deal out faults. */
export function chance(seed: number): Chance {
  let state = seed >>> 0;
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
  const below = (limit: number) => Math.floor(next() * limit);
  return { next, below, one: (of) => of[below(of.length)]! };
}
