/* The words of the screen on which paper sheets are typed in. */
import type { Field } from "../wire/types";

export const paper = {
  title: "Type in a paper sheet",
  lead: "One seat after the other, as it was filled in by hand. A table may mix paper and phones.",
  who: "Whose sheet?",
  seatHint: "Seats that a phone holds are not listed: what is written there comes by itself.",
  nobody: "Every seat is held by a phone.",
  closed: "The key is open, or the table is a draft: nothing can be written now.",
  another: "Another sheet",
  of: (name: string): string => `Sheet of ${name}`,
  passes: "Passes of the sheet",
  place: "Place",
  wholeTable: "whole table",
  keys: "Enter goes on to the next cell, the arrow keys to the neighbours. An empty cell is no answer.",
  cell: (label: string, place: string): string => `${label}, ${place}`,
  unsent: (n: number): string => (n === 0 ? "All is kept" : `${n} on the way to the table`),
  notTyped: "not from paper",
  how: (field: Field): string => HOW[field.kind](field),
  wrong: {
    number: (low: number, high: number, step: number): string => `${low} to ${high} in steps of ${step}`,
    mm: "0 to 100 mm",
    cups: (cups: number): string => `cups from 1 to ${cups}, or 0 for none`,
    faults: "as 3f 5t, with a point at the end if all others are clean; 0 for none",
    choice: (choices: readonly string[]): string => `one of ${choices.map((one, index) => `${index + 1} ${one}`).join(", ")}`,
    ambiguous: (text: string): string => `“${text}” could be several`,
    unknown: (text: string): string => `“${text}” is not in the list`,
    most: (most: number): string => `${most} at most`,
    places: (places: readonly string[]): string => `places of the table: ${places.join(", ")}`,
    ties: "no two may share a place",
  },
};

const HOW: Record<Field["kind"], (field: Field) => string> = {
  words: () => "word for word",
  text: () => "word for word",
  colour: () => "",
  line: (field) => `mm from the left; ${field.low_label || field.low} is 0`,
  points: (field) => `${field.low} to ${field.high}`,
  choice: (field) => field.choices.map((one, index) => `${index + 1} ${one}`).join(", "),
  ticks: (field) => (field.try_all ? "cups, as 13. (point: others fine); 0 none" : "cups, as 13; 0 none"),
  cups: (field) => `cups not ${field.high_label || "good"}, as 13; 0 all ${field.high_label || "good"}`,
  faults: () => "as 3f 5t. (point: others clean); 0 none",
  tags: () => "first letters, with commas; 0 none",
  rank: (field) => `best first${field.ties ? "; = joins two" : ""}`,
  odd: () => "its code",
};
