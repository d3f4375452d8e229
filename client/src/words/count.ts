/** "1 bowl", "12 bowls". */
export function count(number: number, one: string, many = `${one}s`): string {
  return `${number} ${number === 1 ? one : many}`;
}

/** Between facts in one line; it stays with the fact before it when the line breaks. */
export const DOT = "\u00a0· ";
