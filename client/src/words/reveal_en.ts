/* The words of the reveal at the desk. */
import { count } from "./count";

export const revealWords = {
  before: {
    plan: "This table is still being planned. There is no key yet.",
    codes: "Opening the key ends the tasting: what stood where is shown to all, and nobody can write any more.",
    shuffle: "Turn each bowl over and enter the code under it. Then the key is opened, and nobody can write any more.",
    open: "This table is not blind. Closing it ends the tasting, and nobody can write any more.",
  },
  open: "Open the key",
  close: "Close the table",
  sure: "Open the key now?",
  sureBody: "This cannot be undone. Notes that a phone has not sent by then can be taken in from its file, but they do not count.",
  notYet: "Not yet",
  waitFor: (names: string): string => `Not finished yet: ${names}.`,
  who: "Who has finished",

  placingsTitle: "What stands where",
  placingsHint: "Empty the bowls before you turn them over. A whole code jumps on to the next place.",
  place: (place: string): string => `Place ${place}`,
  placesLeft: (left: number): string => (left === 0 ? "Every place has its code." : `${count(left, "place")} left`),
  twice: (place: string): string => `stands at place ${place} too`,
  noSuch: "is on no bowl of this table",
  tableLabel: "The table; each round shows the code entered for its place",

  sealHolds: (time: string, day: string): string => `The key matches the seal made at ${time}, ${day}.`,
  sealHoldsPlain: "The key matches the seal.",
  sealBroken: "The key does not match the seal.",
  sealBrokenTodo: "Do not trust what stands here. Compare the digest with the one on the labels.",
  sealHow: "This page has computed the digest again from the key and its random number.",

  lead: "Each coffee, and everybody's words for it beside the roaster's.",
  against: "Compared with",
  roaster: "the roaster's words",
  others: "the other tasters'",
  published: "The roaster's words",
  unpublished: "The roaster printed no words for this coffee.",
  unreadable: "None of the roaster's words could be read, so nothing can be compared.",
  alone: "Nobody else wrote about this coffee.",
  nobody: "Nobody wrote about this coffee.",
  late: "Came after the key was opened; not compared:",
  more: (next: number, left: number): string => `${next} more of ${count(left, "taster")}`,
  under: (places: string[], shuffled: boolean): string =>
    shuffled ? `${places.length === 1 ? "place" : "places"} ${places.join(", ")}` : `code ${places.join(", ")}`,

  fitsTitle: "Do the notes pick out the coffees?",
  fitsHint: "Each taster's notes, held against every way of shuffling the coffees. Many usual words fit any coffee.",
  fitLine: (worse: number, ways: number): string => `better than ${worse} of ${ways} ways of shuffling`,

  marks: { shared: "shared", near: "near", missed: "missed", own: "own" },
  marksHint: {
    shared: "both have it",
    near: "close, not the same",
    missed: "only they have it",
    own: "only this taster has it",
  },
  marksTitle: "How to read the marks",
  nearPair: (mine: string, theirs: string): string => `${mine} ~ ${theirs}`,
  underlined: "Underlined: words the program could read. Everything is kept as it was written.",
};
