/* Exact fractions on whole numbers of any size, so that no total depends on binary fractions. */

export interface Fraction {
  over: bigint;
  under: bigint;
}

const DECIMAL = /^([+-]?)(\d{1,9})(?:\.(\d{1,9}))?$/;
/** The most decimals that a number is written with before it counts as one without an end. */
const DIGITS = 10;

export const ZERO: Fraction = { over: 0n, under: 1n };

function gcd(a: bigint, b: bigint): bigint {
  return b === 0n ? a : gcd(b, a % b);
}

export function fraction(over: bigint, under: bigint): Fraction {
  const shared = gcd(over < 0n ? -over : over, under) || 1n;
  return { over: over / shared, under: under / shared };
}

export const whole = (number: number): Fraction => ({ over: BigInt(number), under: 1n });

/** The number a text writes, with a point or a comma before its decimals; null for anything else. */
export function parsed(text: string): Fraction | null {
  const parts = DECIMAL.exec(text.trim().replaceAll(",", "."));
  if (parts === null) return null;
  const [, sign, before = "0", after = ""] = parts;
  const size = BigInt(before + after);
  return fraction(sign === "-" ? -size : size, 10n ** BigInt(after.length));
}

/** Of a bound of a sheet, by its shortest decimal text. */
export const exact = (bound: number): Fraction => parsed(String(bound)) ?? ZERO;

export const plus = (a: Fraction, b: Fraction): Fraction => fraction(a.over * b.under + b.over * a.under, a.under * b.under);
export const minus = (a: Fraction, b: Fraction): Fraction => plus(a, { over: -b.over, under: b.under });
export const times = (a: Fraction, b: Fraction): Fraction => fraction(a.over * b.over, a.under * b.under);
export const shared = (a: Fraction, parts: number): Fraction => fraction(a.over, a.under * BigInt(parts));
export const less = (a: Fraction, b: Fraction): boolean => a.over * b.under < b.over * a.under;
export const isZero = (a: Fraction): boolean => a.over === 0n;

/** The greatest whole number not above a quotient. */
function floor(over: bigint, under: bigint): bigint {
  const cut = over / under;
  return over < 0n && cut * under !== over ? cut - 1n : cut;
}

/** To the nearest step, a half upwards. */
export function rounded(a: Fraction, step: Fraction): Fraction {
  const steps = fraction(a.over * step.under, a.under * step.over);
  return times(fraction(floor(2n * steps.over + steps.under, 2n * steps.under), 1n), step);
}

/** Whether it lies on a step, counted from nought. */
export const onStep = (a: Fraction, step: Fraction): boolean => (a.over * step.under) % (a.under * step.over) === 0n;

/** Whether it can be written with finitely many decimals. */
export function ends(a: Fraction): boolean {
  let rest = a.under;
  for (const factor of [2n, 5n]) while (rest % factor === 0n) rest /= factor;
  return rest === 1n;
}

function withDecimals(a: Fraction, digits: number): string {
  const size = 10n ** BigInt(digits);
  const units = rounded(a, { over: 1n, under: size }).over * (size / rounded(a, { over: 1n, under: size }).under);
  const text = (units < 0n ? -units : units).toString().padStart(digits + 1, "0");
  return `${units < 0n ? "-" : ""}${text.slice(0, -digits)}.${text.slice(-digits)}`;
}

/** A number as it is written; to two decimals where it has no end. */
export function said(a: Fraction): string {
  if (!ends(a) || (10n ** BigInt(DIGITS)) % a.under !== 0n) return withDecimals(a, 2);
  return withDecimals(a, DIGITS).replace(/\.?0+$/, "");
}

/** A total: with two decimals at least, and all it has. */
export function saidTotal(a: Fraction): string {
  const text = said(a);
  const decimals = text.split(".")[1]?.length ?? 0;
  return decimals > 2 ? text : withDecimals(a, 2);
}
