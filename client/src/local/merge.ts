/*
 * Merging: notes of one seat from many devices become one set, whatever the order, doubling or delay.
 *
 * The same rules as src/cupwright/core/taste/merge.py; tests/contract/merge_cases.json is run against both.
 * `written_at` is never asked, so a wrong clock changes nothing.
 */
import type { Note } from "../wire/types";
import { compareStamps, compareText } from "./stamp";

/** What a note answers, as one text. None of its parts can contain a slash. */
export function question(place: string, pass: string, field: string): string {
  return `${place}/${pass}/${field}`;
}

/** The union of two sets of notes by id, in the order of (stamp, id). */
export function merge(a: Iterable<Note>, b: Iterable<Note>): Note[] {
  const byId = new Map<string, Note>();
  for (const note of [...a, ...b]) {
    const twin = byId.get(note.id);
    byId.set(note.id, twin && compareWhole(twin, note) >= 0 ? twin : note);
  }
  return [...byId.values()].sort(compareNotes);
}

/** For each question the note that holds: the greatest stamp; of equal stamps the greater id. */
export function standing(notes: Iterable<Note>): Map<string, Note> {
  const held = new Map<string, Note>();
  for (const note of notes) {
    const asked = question(note.place, note.pass, note.field);
    const rival = held.get(asked);
    if (!rival || compareNotes(rival, note) < 0) held.set(asked, note);
  }
  return held;
}

/** The standing notes without those that took an answer back. */
export function answers(notes: Iterable<Note>): Map<string, Note> {
  return new Map([...standing(notes)].filter(([, note]) => note.value !== null));
}

/** Whether two notes of one id say the same. */
export function sameBody(a: Note, b: Note): boolean {
  return compareWhole(a, b) === 0;
}

function compareNotes(a: Note, b: Note): number {
  return compareStamps(a.stamp, b.stamp) || compareText(a.id, b.id);
}

/** An order of notes that share an id. Their bodies differ only by a fault; even then all must agree. */
function compareWhole(a: Note, b: Note): number {
  return compareStamps(a.stamp, b.stamp) || a.written_at - b.written_at || compareText(bodyText(a), bodyText(b));
}

function bodyText(note: Note): string {
  const value = note.value;
  const sorted =
    value !== null && typeof value === "object" && !Array.isArray(value)
      ? Object.fromEntries(Object.entries(value).sort(([a], [b]) => compareText(a, b)))
      : value;
  return JSON.stringify([note.place, note.pass, note.field, sorted]);
}
