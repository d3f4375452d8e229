import { expect, test } from "vitest";
import cases from "../../../../tests/contract/reading_cases.json";
import type { OwnWord } from "../../wire/types";
import { corrections } from "./corrections";
import { extended } from "./extending";
import { lexiconFrom, loadLexicon, type LexiconData } from "./lexicon";
import data from "./lexicon.json";
import { byCodePoints, conceptsOf, prepare, readNote } from "./reading";

interface Case {
  note: string;
  field?: string;
  corrections?: Record<string, string>;
  own?: OwnWord[];
  words: Record<string, unknown>[];
  unread: number[][];
}

const plain = {
  certainty: 1,
  negated: false,
  degree: "plain",
  comparison: "",
  against: "",
  hedged: false,
  stage: "",
};

const lexicon = await loadLexicon();

test.each(cases as unknown as Case[])("the phone reads as the server does: $note", (one) => {
  const mine = extended(lexicon, one.own ?? []);
  const told = corrections(Object.entries(one.corrections ?? {}), mine);

  const reading = byCodePoints(readNote(one.note, mine, { field: one.field ?? "", corrections: told }));

  const words = reading.words.map(({ label: _, ...word }) => word);
  expect(words).toEqual(one.words.map((word) => ({ ...plain, ...word })));
  expect(reading.unread.map((span) => [span.start, span.end])).toEqual(one.unread);
});

test("positions hold in the text of the phone, whatever stands before a word", () => {
  const text = "🍋🍋 quince, 🍯 xyzzy";

  const { words, unread } = readNote(text, lexicon);

  expect(words.map((word) => text.slice(word.start, word.end))).toEqual(["quince"]);
  expect(unread.map((span) => text.slice(span.start, span.end))).toEqual(["xyzzy"]);
});

test("what is denied, less than elsewhere or said of another cup is not said of this one", () => {
  const reading = readNote("smoother than the sour one, less sweet, no fruit, honey", lexicon);

  expect(conceptsOf(reading)).toEqual(new Set(["smooth", "honey"]));
});

test("an own word that does not fit is passed over and the rest is read", () => {
  const own = [
    { concept: "quince", label: "quince cheese", parents: ["fruit"], forms: [] },
    { concept: "pear", label: "", parents: [], forms: ["quince"] },
    { concept: "orphan", label: "orphan", parents: ["nowhere"], forms: [] },
    { concept: "lemon", label: "", parents: [], forms: ["sunshine"] },
  ];

  const mine = extended(lexicon, own);

  expect(readNote("quince, orphan, sunshine", mine).words.map((word) => word.concept)).toEqual(["quince", "lemon"]);
  expect(extended(lexicon, [])).toBe(lexicon);
});

test("a hundred thousand characters are read, and nothing in a text makes reading fail", () => {
  for (const text of ["lemon ".repeat(17_000), "x".repeat(100_000), "'".repeat(100_000), "\ud800 lemon \udc00"]) {
    expect(readNote(text, lexicon).text).toBe(text);
  }
});

test("a note takes a few milliseconds of a slow phone once the lexicon is prepared", () => {
  const fresh = lexiconFrom(data as unknown as LexiconData);
  prepare(fresh);
  const notes = (cases as unknown as Case[]).map((one) => one.note);

  const started = process.cpuUsage();
  for (const note of notes) readNote(note, fresh);
  const { user, system } = process.cpuUsage(started);

  // A slow phone is taken as six times slower than one core here; its bound is 5 ms a note.
  expect((6 * (user + system)) / 1000 / notes.length).toBeLessThan(5);
});
