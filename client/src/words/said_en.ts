/* What a note says of a word beside naming it: not, a hint of, more, maybe, at first. */
import type { Comparison, Degree, Stage } from "./reading/pieces";
import type { Word } from "./reading/reading";

export type Said = Pick<Word, "negated" | "degree" | "comparison" | "against" | "hedged" | "stage">;

const DEGREES: Record<Degree, string> = {
  trace: "a hint of",
  slight: "a little",
  plain: "",
  marked: "clearly",
  very: "very",
  too: "too",
};
const COMPARED: Record<Comparison, string> = {
  "": "",
  more: "more",
  most: "most",
  less: "less",
  least: "least",
  other: "another cup:",
};
const STAGES: Record<Stage, string> = { "": "", first: "at first", finish: "on the finish", cooling: "as it cools" };
/* Names that tell the finish themselves. */
const TELLS_FINISH = /finish|aftertaste/i;

/** The words before and behind a label, in reading order; no empty ones. */
export function saidAround(said: Said, label: string): { before: string[]; behind: string[] } {
  const { negated, degree, comparison, against, hedged, stage } = said;
  // A comparison says how much already.
  const much = comparison === "" ? DEGREES[degree] : COMPARED[comparison];
  const than = against !== "" && comparison !== "other" ? `than ${against}` : "";
  const when = stage === "finish" && TELLS_FINISH.test(label) ? "" : STAGES[stage];
  const told = (words: string[]): string[] => words.filter((word) => word !== "");
  return { before: told([hedged ? "maybe" : "", negated ? "not" : "", much]), behind: told([than, when]) };
}

/** A label with all that is said of it: maybe a hint of plum, at first. */
export function saidOf(said: Said, label: string): string {
  const { before, behind } = saidAround(said, label);
  return [...before, label, ...behind].join(" ");
}
