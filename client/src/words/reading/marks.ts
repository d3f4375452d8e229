/* What a phrase does to the words around it; the same kinds as in core/words/marks.py. */
export const EMPTY = "empty.phrase";

export const DENY = "denial.deny";
export const DENY_MORE = "denial.more";
export const DENY_BACK = "denial.back";
export const ANSWER = "denial.answer";
export const TURN = "denial.turn";
export const ANEW = "denial.anew";
export const BOTH = "denial.both";
export const EITHER = "denial.either";
export const OVER = "denial.over";
export const OR = "denial.or";
export const UNDO = "denial.undo";

export const MORE = "comparison.more";
export const MOST = "comparison.most";
export const LESS = "comparison.less";
export const LEAST = "comparison.least";
export const THAN = "comparison.than";
export const WISHED = "comparison.wished";
export const AMONG = "comparison.among";
export const RANK = "comparison.rank";
export const RANKED = "comparison.ranked";

export const HEDGE = "hedge.before";
export const HABIT = "habit.phrase";
export const HABIT_BACK = "habit.back";

export const FIRST = "stage.first";
export const FINISH = "stage.finish";
export const COOLING = "stage.cooling";
export const BECOMING = "stage.becoming";
export const THEN = "stage.then";

export const PASSED = "passed.word";
export const WITHIN = "passed.within";
export const COPULA = "passed.copula";
export const AND = "passed.and";
export const CARRIER = "carrier.noun";

/* How much: before the word, of a thing, beside it, behind it. */
export const DEGREE = "degree.";
export const SHARE = "share.";
export const AMOUNT = "amount.";
export const AFTER = "after.";

export type Marks = readonly string[];
export const NO_MARKS: Marks = [];

/** The degree that the marks of one phrase give in a way (DEGREE, SHARE, AMOUNT, AFTER); "" if none. */
export function degreeOf(marks: Marks, how: string): string {
  for (const mark of marks) if (mark.startsWith(how)) return mark.slice(how.length);
  return "";
}
