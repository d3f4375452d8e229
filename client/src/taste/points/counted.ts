/*
 * What one answer is worth, with the line that explains it and what is wrong with it.
 *
 * The same rules as src/cupwright/core/taste/counted.py; tests/contract/points_cases.json is run against both.
 */
import type { Field, Value } from "../../wire/types";
import { exact, fraction, type Fraction, less, minus, onStep, parsed, plus, said, shared, times, whole, ZERO } from "./fraction";

export const CLEAN = 0;
export const TAINT = 2;
export const FAULT = 4;
/** a cup that is marked where a sheet only asks whether it is */
export const MARKED = 1;

const NUMBERS = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"];
const FOUND: Record<number, string> = { [CLEAN]: "clean", [TAINT]: "a taint", [FAULT]: "a fault" };

/** A sample: its cups, what complaints call it, and from where scores count. */
export interface Asking {
  cups: number;
  place: string;
  least: string;
}

/** An answer's worth: from `low` to `high`, which are one number unless it is `open`. */
export interface Counted {
  low: Fraction;
  high: Fraction;
  line: string;
  complaints: string[];
  open: boolean;
}

const settled = (worth: Fraction, line: string, complaints: string[] = []): Counted => ({ low: worth, high: worth, line, complaints, open: false });

/** One that is missing is none, or a range if it is `needed`. */
export function counted(field: Field, value: Value, asking: Asking, needed: boolean): Counted {
  if (value === null || value === "") {
    if (!needed) return settled(ZERO, `${field.label}: nothing written, taken as none`);
    const [low, high] = bounds(field, asking);
    const line = `${field.label}: nothing written; ${said(low)} to ${said(high)} possible`;
    return { low, high, line, complaints: [`${field.label} is missing.`], open: true };
  }
  if (Array.isArray(value)) return ofMarks(field, value.map(Number).sort((a, b) => a - b), asking);
  if (typeof value === "object") {
    const found = new Map(Object.entries(value).map(([cup, worth]) => [Number(cup), worth]));
    return field.kind === "ticks" ? ofTried(field, found, asking) : ofFaults(field, found, asking);
  }
  // A place on a line is no decimal by itself: a billionth of it is finer than any thumb.
  const text = typeof value === "number" ? value.toFixed(9) : value;
  return ofNumber(field, parsed(text), text, asking);
}

function bounds(field: Field, asking: Asking): [Fraction, Fraction] {
  if (field.kind === "cups") return [ZERO, exact(field.high)];
  if (field.kind === "faults") return [ZERO, whole(FAULT * asking.cups)];
  if (field.kind === "ticks") return [ZERO, whole(asking.cups)];
  return [exact(field.low), exact(field.high)];
}

function stepOf(field: Field, asking: Asking): Fraction {
  if (field.kind === "cups") return shared(exact(field.high), asking.cups);
  if (field.kind === "faults") return whole(TAINT);
  if (field.kind === "ticks") return whole(1);
  // A line takes any place on it; its step is only how far a key moves the mark.
  return field.kind === "line" ? fraction(1n, 10n ** 9n) : exact(field.step);
}

function ofNumber(field: Field, value: Fraction | null, text: string, asking: Asking): Counted {
  const [low, high] = bounds(field, asking);
  const least = asking.least !== "" && field.kind === "points" ? (parsed(asking.least) ?? low) : low;
  if (value === null) return unfit(field, asking, `${field.label} is '${text.slice(0, 40)}', which is no number.`);
  if (less(value, least) || less(high, value)) {
    return unfit(field, asking, `${field.label} is ${said(value)}; ${said(least)} to ${said(high)} can be given.`);
  }
  const step = stepOf(field, asking);
  const between = `${field.label} is ${said(value)}, between the steps of ${said(step)}.`;
  return settled(value, `${field.label}: ${said(value)}`, onStep(minus(value, low), step) ? [] : [between]);
}

function unfit(field: Field, asking: Asking, complaint: string): Counted {
  const [low, high] = bounds(field, asking);
  return { low, high, line: `${field.label}: not counted`, complaints: [complaint], open: true };
}

/** Ticks count the cups that are marked, cups those that are not. */
function ofMarks(field: Field, marked: number[], asking: Asking): Counted {
  if (marked.some((cup) => cup < 1 || cup > asking.cups) || new Set(marked).size < marked.length) {
    return unfit(field, asking, `${field.label} marks a cup that is not there, or one twice; there are ${asking.cups}.`);
  }
  if (field.kind === "ticks") {
    const listed = marked.length > 0 ? ` (${cupsSaid(marked)})` : "";
    return settled(whole(marked.length), `${field.label}: ${marked.length} of ${asking.cups} cups${listed}`);
  }
  const each = shared(exact(field.high), asking.cups);
  const good = asking.cups - marked.length;
  const but = marked.length > 0 ? `, ${cupsSaid(marked)} ${marked.length === 1 ? "is" : "are"} not` : "";
  const line = `${field.label}: ${good} of ${asking.cups} cups ${field.high_label || "good"}${but}`;
  const worth = times(whole(good), each);
  return settled(worth, `${line}: ${good} x ${said(each)} = ${said(worth)}`);
}

/** Taints and faults cup by cup. With one found, the sample stands only when every cup was tried. */
function ofFaults(field: Field, found: Map<number, number>, asking: Asking): Counted {
  const wrong = [...found].filter(([, worth]) => worth !== CLEAN).sort(([a], [b]) => a - b);
  const first = wrong[0];
  if (first === undefined) return settled(ZERO, `${field.label}: none in any cup`);
  if ([...found.keys()].some((cup) => cup < 1 || cup > asking.cups)) {
    return unfit(field, asking, `${field.label} marks a cup that is not there.`);
  }
  const worth = whole(wrong.reduce((sum, [, each]) => sum + each, 0));
  const listed = wrong.map(([cup, each]) => `cup ${cup} ${FOUND[each]} ${each}`).join(" + ");
  const untried = Array.from({ length: asking.cups }, (_, index) => index + 1).filter((cup) => !found.has(cup));
  if (untried.length === 0) return settled(worth, `${field.label}: ${listed} = ${said(worth)}`);
  return {
    low: worth,
    high: plus(worth, whole(FAULT * untried.length)),
    line: `${field.label}: ${listed}; ${cupsSaid(untried)} not tried yet`,
    complaints: [tryOthers(`${cupOf(first[0], asking)} has ${FOUND[first[1]]}`, untried)],
    open: true,
  };
}

/** Marked cups. With one marked, the sample stands only when every cup was tried. */
function ofTried(field: Field, found: Map<number, number>, asking: Asking): Counted {
  const marked = [...found].filter(([, worth]) => worth !== CLEAN).map(([cup]) => cup).sort((a, b) => a - b);
  if ([...found.keys()].some((cup) => cup < 1 || cup > asking.cups)) {
    return unfit(field, asking, `${field.label} marks a cup that is not there.`);
  }
  const untried = Array.from({ length: asking.cups }, (_, index) => index + 1).filter((cup) => !found.has(cup));
  const first = marked[0];
  if (first === undefined || untried.length === 0) return ofMarks(field, marked, asking);
  const worth = whole(MARKED * marked.length);
  return {
    low: worth,
    high: plus(worth, whole(MARKED * untried.length)),
    line: `${field.label}: ${cupsSaid(marked)}; ${cupsSaid(untried)} not tried yet`,
    complaints: [tryOthers(`${cupOf(first, asking)} is marked under ${field.label}`, untried)],
    open: true,
  };
}

const cupOf = (cup: number, asking: Asking): string => (asking.place === "" ? `Cup ${cup}` : `Cup ${cup} of ${asking.place}`);

function tryOthers(found: string, untried: number[]): string {
  return `${found}: smell and taste the other ${NUMBERS[untried.length] ?? untried.length} before you write it down for the sample.`;
}

function cupsSaid(numbers: number[]): string {
  const last = numbers.at(-1);
  return numbers.length > 1 ? `cups ${numbers.slice(0, -1).join(", ")} and ${last}` : `cup ${last}`;
}

