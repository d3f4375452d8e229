/* The words of the analysis. */
import type { Analysis, Coverage, WordContrast } from "../wire/analysis";
import type { TableTotal } from "../wire/types";
import { count, grouped, signed } from "./count";

const percent = (share: number): string => `${Math.round(100 * share)}\u00a0%`;

export const analyseWords = {
  lead: (tasters: number, coffees: number): string =>
    `What ${count(tasters, "taster")} wrote and scored about ${count(coffees, "coffee")}, and how far it can be trusted.`,
  notYet: "The key is not open yet. There is nothing to analyse before that.",
  toReveal: "To the key",

  thinOne: "One taster alone: this shows what was written, and says nothing about what others would find.",
  thinFew: (tasters: number): string =>
    `${count(tasters, "taster")}: the intervals are wide. Take differences as hints to taste again, not as findings.`,

  late: ({ answers, tasters }: Analysis["late"]): string =>
    `${count(answers, "answer")} of ${count(tasters, "taster")} came in after the key had been opened and ${answers === 1 ? "is" : "are"} ` +
    "left out of every count here: nothing can prove when it was given, since the clock of a device can be set.",

  season: "All opened tables together",
  seasonLead: "Coffees on one scale, as far as shared coffees link the tables.",
  seasonQuestions: "What the tables answer together",
  toSeason: "All opened tables together",
  questions: "What the table answers",
  questionsHint: "Each answer first; the picture, the numbers and how they came about are folded under it.",
  folded: "Picture, numbers and method",

  words: "Words",
  wordsHint: "How many tasters used a word for a coffee, whatever the pass.",
  wrote: (wrote: number, had: number): string =>
    wrote === 0 ? "Nobody wrote about it." : `${grouped(wrote)} of ${count(had, "taster")} who had it wrote about it.`,
  roundsCaption: "One round for each taster who wrote about it; a full round used the word.",
  sharesCaption: (level: number): string => `Share of the tasters who wrote about it, in %; the line is the ${percent(level)} interval.`,
  once: (labels: string): string => `Used by one taster each: ${labels}.`,
  more: "More often than the others",
  less: "Less often than the others",
  contrast: (word: WordContrast): string =>
    `${grouped(word.count)} of ${grouped(word.of)} here, ${grouped(word.other_count)} of ${grouped(word.other_of)} elsewhere`,
  contrastRow: (word: WordContrast): string => {
    const { estimate, low, high } = word.difference;
    const interval = low === null || high === null ? "" : ` (${signed(100 * low)} to ${signed(100 * high)})`;
    return `${signed(100 * estimate)}${interval} points`;
  },
  rarer: (number: number): string => `and ${count(number, "word")} more, in the report's data`,
  notApart: (looks: number): string =>
    `No word sets it apart by more than chance could make, with ${count(looks, "comparison")} made.`,

  points: "Points",
  pointsHint: "What each taster's sheet adds up to. A range stands for a sheet on which something is open.",
  pointsCoffee: "Coffee",
  pointsMean: "Mean",
  pointsWhy: "How each total came about",
  pointsOf: (taster: string, place: string): string => `${taster}, ${place}`,
  noPoints: "Nobody gave any points.",
  total: ({ total, low, high }: TableTotal): string => (total === null ? `${low.toFixed(2)} to ${high.toFixed(2)}` : total.toFixed(2)),

  reading: "What could be read",
  readingHint: "Notes are kept word for word; which words the program finds in them is its reading, and may be wrong.",
  coverage: (coverage: Coverage): string =>
    `${grouped(coverage.written)} of ${count(coverage.asked, "question")} in words were answered. In ${grouped(coverage.read)} at ` +
    `least one word could be read, in ${grouped(coverage.unread)} none.`,
  unread: "Words that were not understood",
  times: (n: number): string => (n === 1 ? "once" : `${n} times`),
};
