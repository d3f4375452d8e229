/* The words of the room of words. */
import { count } from "./count";

export const wordsRoomWords = {
  title: "Words",
  lead: "What a coffee can call to mind, which words are kin and why, and words of your own.",
  find: "Look up a word",
  findHint: "By its name or by any way to write it.",
  none: "No word of the lexicon is written so. You can add it below.",
  results: "Words found",

  mapTitle: "The picture of words",
  mapWhole: "All words",
  mapAround: (label: string): string => `Around ${label}`,
  mapLegend: "What the picture shows",
  mapSpoken: (total: number, chosen: string): string =>
    `${count(total, "word")}, kin near each other, strangers far apart${chosen === "" ? "" : `; ${chosen} and its kin are named`}.`,
  mapCaption: (stress: number): string =>
    `Computed from kinship: near means kin; directions mean nothing; a word without a colour of its own is hollow. A plane cannot show all of it (stress ${stress.toFixed(2)}, 0 would be all).`,
  mapPick: "Choose a point to see the word.",

  family: (family: string): string => `in the family ${family}`,
  own: "your own word",
  parents: "A kind of",
  children: "Kinds of it",
  forms: "Also written",
  moreForms: (left: number): string => `and ${left} more`,
  reference: "To learn it at home",
  allergens: (names: string): string => `May hold ${names}. Ask about allergies before anything is opened.`,
  defect: "Can name a fault",
  kin: "Nearest kin",
  kinNone: "Nothing in the lexicon is kin of it.",
  kinship: (kinship: number): string => `kinship ${kinship.toFixed(2)} of 1`,

  ownTitle: "Your own words",
  ownHint: "Every note is read by them too: at the reveal, in reports and on phones. What was written stays as it was written.",
  ownNone: "There are none yet.",
  kindOf: (parents: string): string => `a kind of ${parents}`,
  formOf: (concept: string): string => `a way to write ${concept}`,
  notRead: "not read by:",
  remove: "Remove",
  removed: (name: string): string => `${name} is no longer read.`,
  save: "Save them to a file",
  load: "Take in a file",
  imported: (added: number, known: number): string =>
    `${count(added, "word")} added${known > 0 ? `, ${known} were here already` : ""}.`,

  addTitle: "Add a word",
  addKind: "What is it?",
  kinds: [
    { value: "concept", label: "A new word", detail: "something the lexicon does not have" },
    { value: "form", label: "Another way to write a word", detail: "a name, a spelling, another language" },
  ] as const,
  label: "The word",
  labelHint: "As a taster would write it.",
  form: "Written so",
  under: "A kind of",
  of: "Means the same as",
  otherForms: "Other ways to write it",
  otherFormsHint: "Parted by commas; may stay empty.",
  choose: "Search the lexicon",
  chosen: (label: string): string => `Chosen: ${label}`,
  other: "Choose another",
  add: "Add it",
  added: (name: string): string => `${name} is read from now on.`,
};
