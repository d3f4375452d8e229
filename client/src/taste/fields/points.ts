/* Whether typed points lie on the steps of a field, decided on decimal digits: 7.25 in quarters, never 7.2500000001. */

const DIGITS = 6;

/** The number as whole millionths, or null if the text is no plain decimal. */
function millionths(text: string): bigint | null {
  const parts = /^(-?)(\d+)(?:\.(\d{1,6}))?$/.exec(text);
  if (parts === null) return null;
  const [, sign, whole, rest = ""] = parts;
  const size = BigInt(`${whole}${rest.padEnd(DIGITS, "0")}`);
  return sign === "-" ? -size : size;
}

export function onStep(text: string, low: number, high: number, step: number): boolean {
  const [value, least, most, stride] = [text.replace(",", "."), ...[low, high, step].map(String)].map(millionths);
  if (value == null || least == null || most == null || stride == null || stride <= 0n) return false;
  return value >= least && value <= most && (value - least) % stride === 0n;
}
