/* What is typed off a paper sheet, as an answer, and an answer as it would be typed. */
import type { Field, Value } from "../../wire/types";
import { paper } from "../../words/paper_en";
import { groupsOf, orderOf } from "../fields/rank";
import { onStep } from "../fields/points";
import { CLEAN, FAULT, MARKED, TAINT } from "../points/counted";

/** What a question is about. */
export interface About {
  cups: number;
  places: readonly string[];
}

export type Typed = { value: Value } | { wrong: string };

const LETTERS: Record<string, number> = { c: CLEAN, m: MARKED, t: TAINT, f: FAULT };
const FOUND = /^(\d+)([ctf])$/;
const MARK = /^(\d+)([cm])$/;
const MM = 100;
const right = (value: Value): Typed => ({ value });
const wrong = (sentence: string): Typed => ({ wrong: sentence });

export function typed(field: Field, text: string, about: About): Typed {
  const tidy = text.trim();
  if (tidy === "") return right(null);
  return READ[field.kind](field, tidy, about);
}

/** The answer as it would be typed; "" for none. */
export function asTyped(field: Field, value: Value, cups: number): string {
  if (value === null) return "";
  if (typeof value === "string") return field.kind === "choice" ? String(field.choices.indexOf(value) + 1) : value;
  if (typeof value === "number") return String(Math.round(((value - field.low) / (field.high - field.low)) * MM));
  if (Array.isArray(value)) return value.length === 0 ? "0" : value.join(field.kind === "tags" ? ", " : " ");
  if (field.try_all) return triedTyped(value as Record<string, number>, cups);
  if (field.kind === "faults") return faultsTyped(value as Record<string, number>);
  return field.kind === "rank" ? groupsOf(value as Record<string, number>).map((group) => group.join(" = ")).join(" ") : "";
}

function faultsTyped(found: Record<string, number>): string {
  if (Object.values(found).every((worth) => worth === CLEAN)) return "0";
  const letter = (worth: number) => Object.keys(LETTERS).find((one) => LETTERS[one] === worth) ?? "";
  return Object.entries(found).map(([cup, worth]) => `${cup}${letter(worth)}`).join(" ");
}

/** Cup numbers: "13" is cups 1 and 3; from ten cups on they need blanks between them. */
function cupsOf(text: string, cups: number): number[] | null {
  if (text === "0") return [];
  const parts = cups < 10 ? [...text.replace(/[\s,]/g, "")] : text.split(/[\s,]+/);
  const numbers = parts.map(Number);
  const fits = numbers.every((cup) => Number.isInteger(cup) && cup >= 1 && cup <= cups);
  return fits && new Set(numbers).size === numbers.length ? numbers.sort((a, b) => a - b) : null;
}

function marked(field: Field, text: string, { cups }: About): Typed {
  if (field.try_all && /[cm]/i.test(text)) return faults(field, text, { cups, places: [] });
  const numbers = cupsOf(field.try_all ? text.replace(/\.$/, "") : text, cups);
  if (numbers === null) return wrong(paper.wrong.cups(cups));
  if (field.try_all && numbers.length === 0) return right({});
  return right(field.try_all ? tried(numbers, text.endsWith(".") ? cups : 0) : numbers);
}

/** The marked cups; with `cups` all others are fine, else nobody knows. */
function tried(numbers: readonly number[], cups: number): Record<string, number> {
  const all = Array.from({ length: cups }, (_, index) => [String(index + 1), CLEAN] as const);
  return Object.fromEntries([...all, ...numbers.map((cup) => [String(cup), MARKED] as const)]);
}

function triedTyped(found: Record<string, number>, cups: number): string {
  const all = Object.keys(found);
  const wrongOnes = all.filter((cup) => found[cup] !== CLEAN);
  if (all.length > wrongOnes.length && all.length < cups) return faultsTyped(found);
  return wrongOnes.length === 0 ? "0" : `${wrongOnes.join(" ")}${wrongOnes.length < all.length ? "." : ""}`;
}

function faults(field: Field, text: string, { cups }: About): Typed {
  if (text === "0") return right({});
  const found: Record<string, number> = {};
  for (const part of text.replace(/\.$/, "").toLowerCase().split(/[\s,]+/)) {
    const [, cup = "", letter = ""] = (field.kind === "ticks" ? MARK : FOUND).exec(part) ?? [];
    if (cup === "" || Number(cup) < 1 || Number(cup) > cups || cup in found) return wrong(paper.wrong.faults);
    found[cup] = LETTERS[letter] ?? CLEAN;
  }
  if (text.endsWith(".")) for (let cup = 1; cup <= cups; cup += 1) found[cup] ??= CLEAN;
  return right(found);
}

/** An entry of a list by its number, or by letters it begins with. */
function entry(choices: readonly string[], text: string): string | { wrong: string } {
  const number = /^\d+$/.test(text) ? choices[Number(text) - 1] : undefined;
  const begun = choices.filter((one) => one.toLowerCase().startsWith(text.toLowerCase()));
  const whole = choices.find((one) => one.toLowerCase() === text.toLowerCase());
  const found = whole ?? number ?? (begun.length === 1 ? begun[0] : undefined);
  return found ?? { wrong: begun.length > 1 ? paper.wrong.ambiguous(text) : paper.wrong.unknown(text) };
}

function choice(field: Field, text: string): Typed {
  const found = entry(field.choices, text);
  return typeof found === "string" ? right(found) : wrong(paper.wrong.choice(field.choices));
}

function tags(field: Field, text: string): Typed {
  if (text === "0") return right([]);
  const found = text.split(",").map((part) => entry(field.choices, part.trim()));
  const bad = found.find((one) => typeof one !== "string");
  if (bad !== undefined) return wrong((bad as { wrong: string }).wrong);
  const picked = field.choices.filter((one) => found.includes(one));
  return field.most && picked.length > field.most ? wrong(paper.wrong.most(field.most)) : right(picked);
}

function rank(field: Field, text: string, { places }: About): Typed {
  const groups: string[][] = [];
  let joined = false;
  for (const part of text.replaceAll("=", " = ").split(/[\s,]+/)) {
    if (part === "=") joined = true;
    else if (!places.includes(part) || groups.flat().includes(part)) return wrong(paper.wrong.places(places));
    else if (joined && groups.length > 0) groups.at(-1)!.push(part);
    else groups.push([part]);
    if (part !== "=") joined = false;
  }
  return !field.ties && groups.some((group) => group.length > 1) ? wrong(paper.wrong.ties) : right(orderOf(groups));
}

function points(field: Field, text: string): Typed {
  const tidy = text.replace(",", ".");
  const fits = onStep(tidy, field.low, field.high, field.step);
  return fits ? right(tidy) : wrong(paper.wrong.number(field.low, field.high, field.step));
}

function line(field: Field, text: string): Typed {
  const mm = Number(text.replace(",", "."));
  if (!Number.isFinite(mm) || mm < 0 || mm > MM) return wrong(paper.wrong.mm);
  return right(Number((field.low + (mm / MM) * (field.high - field.low)).toFixed(6)));
}

const READ: Record<Field["kind"], (field: Field, text: string, about: About) => Typed> = {
  words: (_, text) => right(text),
  text: (_, text) => right(text),
  colour: () => wrong(paper.notTyped),
  line,
  points,
  choice,
  ticks: marked,
  cups: marked,
  faults,
  tags,
  rank,
  odd: (_, text, { places }) => (places.includes(text) ? right(text) : wrong(paper.wrong.places(places))),
};
