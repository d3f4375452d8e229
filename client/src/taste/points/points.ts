/*
 * Points: what a filled-in sheet adds up to, exactly, with a line for everything that counts.
 *
 * The same rules as src/cupwright/core/taste/points.py; tests/contract/points_cases.json is run against both.
 */
import type { Field, PointsRule, Sheet, Term, Value } from "../../wire/types";
import { type Asking, type Counted, counted } from "./counted";
import { ends, fraction, type Fraction, isZero, minus, parsed, plus, rounded, said, saidTotal, times, ZERO } from "./fraction";

/** `total` is "" while something is missing or does not fit; `low` and `high` are what is still possible. */
export interface Points {
  total: string;
  low: string;
  high: string;
  lines: string[];
  complaints: string[];
}

export type AnswerOf = (pass: string, field: string) => Value;

const CENT: Fraction = fraction(1n, 100n);

export function points(sheet: Sheet, answer: AnswerOf, cups = 5, place = ""): Points | null {
  const rule = sheet.points;
  if (!rule) return null;
  const asking: Asking = { cups, place, least: rule.least };
  const counts = [
    ...rule.add.map((term) => ({ sign: 1, term, one: count(sheet, term, answer, asking, true) })),
    ...rule.subtract.map((term) => ({ sign: -1, term, one: count(sheet, term, answer, asking, false) })),
  ];
  let low = parsed(rule.start) ?? ZERO;
  let high = low;
  for (const { sign, term, one } of counts) {
    const [least, most] = [one.low, one.high].map((end) => times(end, factor(term)));
    low = sign > 0 ? plus(low, least!) : minus(low, most!);
    high = sign > 0 ? plus(high, most!) : minus(high, least!);
  }
  const settled = counts.every(({ one }) => !one.open);
  return {
    total: settled ? totalOf(low, rule) : "",
    low: totalOf(low, rule),
    high: totalOf(high, rule),
    lines: [
      ...(isZero(parsed(rule.start) ?? ZERO) ? [] : [`Start: ${rule.start}`]),
      ...counts.map(({ sign, term, one }) => lineOf(sign, term, one)),
      ...otherSize(rule, answer, asking),
      settled ? sumLine(low, rule) : `Total: from ${totalOf(low, rule)} to ${totalOf(high, rule)} still possible`,
    ],
    complaints: [...counts.flatMap(({ one }) => one.complaints), ...apart(rule, sheet, answer)],
  };
}

/** Whether anything that counts is asked in a pass, and all of it is answered. */
export function passCounted(sheet: Sheet, pass: string, answer: AnswerOf): boolean {
  const terms = [...(sheet.points?.add ?? []), ...(sheet.points?.subtract ?? [])].filter((term) => term.pass === pass);
  return terms.length > 0 && terms.every((term) => answer(term.pass, term.field) !== null || mayBeNone(fieldOf(sheet, term)));
}

const factor = (term: Term): Fraction => parsed(term.times) ?? ZERO;
const mayBeNone = (field: Field): boolean => field.kind === "faults" || field.kind === "ticks";

function fieldOf(sheet: Sheet, term: Term): Field {
  const field = sheet.passes.find((pass) => pass.id === term.pass)?.fields.find((one) => one.id === term.field);
  if (field === undefined) throw new Error(`The sheet counts a field '${term.field}' that it does not have.`);
  return field;
}

function count(sheet: Sheet, term: Term, answer: AnswerOf, asking: Asking, added: boolean): Counted {
  const field = fieldOf(sheet, term);
  return counted(field, answer(term.pass, term.field), asking, added || !mayBeNone(field));
}

function lineOf(sign: number, term: Term, one: Counted): string {
  if (one.open || isZero(one.high)) return one.line;
  const one_time = parsed(term.times)?.over === 1n && parsed(term.times)?.under === 1n;
  const worth = one_time ? one.line : `${one.line} x ${term.times} = ${said(times(one.high, factor(term)))}`;
  return sign < 0 ? `${worth}, taken away` : worth;
}

function otherSize(rule: PointsRule, answer: AnswerOf, asking: Asking): string[] {
  if (asking.cups === rule.cups || !rule.subtract.some((term) => marks(answer(term.pass, term.field)).size > 0)) return [];
  return [
    `The rule was made for ${rule.cups} cups; this sample has ${asking.cups}. ` +
      "What is taken away goes by the number of cups as it is.",
  ];
}

/** Cups marked in one field that count as good in another where they cannot. */
function apart(rule: PointsRule, sheet: Sheet, answer: AnswerOf): string[] {
  const found = new Map(sheet.passes.flatMap((pass) => pass.fields.map((field) => [field.id, { field, value: answer(pass.id, field.id) }])));
  return rule.both.flatMap(([one, other]) => {
    const [marked, beside] = [found.get(one), found.get(other)];
    if (!marked || !beside || typeof marked.value !== "object" || typeof beside.value !== "object") return [];
    if (marked.value === null || beside.value === null) return [];
    const held = marks(beside.value);
    const left = [...marks(marked.value)].filter((cup) => !held.has(cup)).sort((a, b) => a - b);
    return left.map((cup) => `Cup ${cup} is marked under ${marked.field.label}, but counts as good under ${beside.field.label}.`);
  });
}

function marks(value: Value): Set<number> {
  if (Array.isArray(value)) return new Set(value.map(Number));
  if (typeof value !== "object" || value === null) return new Set();
  return new Set(Object.entries(value).filter(([, found]) => found !== 0).map(([cup]) => Number(cup)));
}

function roundedBy(a: Fraction, rule: PointsRule): Fraction {
  const stepped = rule.step === "" ? a : rounded(a, parsed(rule.step) ?? CENT);
  return ends(stepped) ? stepped : rounded(stepped, CENT);
}

const totalOf = (a: Fraction, rule: PointsRule): string => saidTotal(roundedBy(a, rule));

function sumLine(a: Fraction, rule: PointsRule): string {
  if (rule.step !== "") return `Total: ${said(a)}, to the nearest ${rule.step} (a half upwards): ${totalOf(a, rule)}`;
  return ends(a) ? `Total: ${totalOf(a, rule)}` : `Total: ${totalOf(a, rule)}, rounded to 0.01`;
}

