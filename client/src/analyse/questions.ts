/* The questions of an analysis, each cut into what is read at once and what is folded away. */
import type { ReportBlock } from "../wire/report";

export interface Answer {
  /** of which attribute, where there are several */
  lead: string;
  text: string;
}

export interface Question {
  /** place in the list, as its address on the page */
  id: string;
  title: string;
  /** the first paragraph, and of several attributes one each */
  answers: Answer[];
  /** pictures, numbers and method */
  rest: ReportBlock[];
}

/** A question from each heading of the first level; what stands before the first belongs to none. */
export function questionsOf(blocks: readonly ReportBlock[]): Question[] {
  const questions: Question[] = [];
  for (const block of blocks) {
    const last = questions.at(-1);
    if (block.block === "heading" && block.level === 1) {
      questions.push({ id: `question-${questions.length + 1}`, title: block.text, answers: [], rest: [] });
    } else if (last && block.block === "paragraph" && answers(last, block.lead)) {
      last.answers.push({ lead: block.lead, text: block.text });
    } else {
      last?.rest.push(block);
    }
  }
  return questions;
}

/** Whether a paragraph with that lead belongs to the answer rather than to what it rests on. */
function answers(question: Question, lead: string): boolean {
  return question.rest.length === 0 && (question.answers.length === 0 || (lead !== "" && question.answers.at(-1)?.lead !== ""));
}
