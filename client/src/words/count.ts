/** "1,264" */
export function grouped(number: number): string {
  return number.toLocaleString("en-GB");
}

/** "1 bowl", "12 bowls"; number and word stay on one line. */
export function count(number: number, one: string, many = `${one}s`): string {
  return `${grouped(number)}\u00a0${number === 1 ? one : many}`;
}

/** Water to heat or pour. Below a litre in mL: "0.5 L for bowls of 0.5 L" would not show what is left over. */
export function water(ml: number): string {
  return ml < 1000 ? `${Math.round(ml / 10) * 10}\u00a0mL` : `${(ml / 1000).toFixed(1)}\u00a0L`;
}

/** "−0.18": so many decimals, with a true minus. */
export function decimals(number: number, digits: number): string {
  return number.toFixed(digits).replace("-", "−");
}

/** A whole number with its sign, "+3" or "−3", and 0 without. */
export function signed(number: number): string {
  const whole = Math.round(number);
  if (whole === 0) return "0";
  return `${whole > 0 ? "+" : "−"}${Math.abs(whole)}`;
}

/** Between facts in one line; it stays with the fact before it when the line breaks. */
export const DOT = "\u00a0· ";
