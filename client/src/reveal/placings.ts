/* What stands where after a shuffle, while it is being entered. */

/** place -> what was typed for it */
export type Entered = Readonly<Record<string, string>>;

export const CODE_LENGTH = 3;

/** Only the digits of what was typed, at most a code's worth. */
export function asCode(text: string): string {
  return text.replace(/\D/g, "").slice(0, CODE_LENGTH);
}

export interface Fault {
  kind: "noSuch" | "twice";
  /** the other place that has the same code */
  other: string;
}

/** What is wrong with the code of one place; null while it is being typed or if nothing is. */
export function faultAt(place: string, entered: Entered, codes: readonly string[]): Fault | null {
  const code = entered[place] ?? "";
  if (code.length < CODE_LENGTH) return null;
  if (!codes.includes(code)) return { kind: "noSuch", other: "" };
  const other = Object.keys(entered).find((one) => one !== place && entered[one] === code);
  return other === undefined ? null : { kind: "twice", other };
}

/** How many places have no whole, right code yet. */
export function missing(places: readonly string[], entered: Entered, codes: readonly string[]): number {
  return places.filter(
    (place) => (entered[place] ?? "").length < CODE_LENGTH || faultAt(place, entered, codes) !== null,
  ).length;
}

/** Where the caret goes once a place has its code: the next place without one, round the table; else null. */
export function nextPlace(places: readonly string[], entered: Entered, from: string): string | null {
  const start = places.indexOf(from);
  for (let step = 1; step < places.length; step += 1) {
    const place = places[(start + step) % places.length];
    if (place !== undefined && (entered[place] ?? "").length < CODE_LENGTH) return place;
  }
  return null;
}
