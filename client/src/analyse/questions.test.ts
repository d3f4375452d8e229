import { describe, expect, it } from "vitest";
import type { ReportBlock } from "../wire/report";
import { questionsOf } from "./questions";

const heading = (text: string, level = 1): ReportBlock => ({ block: "heading", text, level });
const paragraph = (text: string, lead = ""): ReportBlock => ({ block: "paragraph", text, lead });

describe("the questions of an analysis", () => {
  it("have their first paragraph for an answer and keep the rest in its order", () => {
    const rest = [heading("Acidity", 2), paragraph("More."), { block: "caveat", text: "Few." } as ReportBlock];
    const [question] = questionsOf([heading("Which coffee?"), paragraph("421, probably."), ...rest]);
    const answers = [{ lead: "", text: "421, probably." }];
    expect(question).toEqual({ id: "question-1", title: "Which coffee?", answers, rest });
  });

  it("have no answer where something else comes first", () => {
    const caveat: ReportBlock = { block: "caveat", text: "Few." };
    const [question] = questionsOf([heading("Which coffee?"), caveat, paragraph("Later.")]);
    expect(question?.answers).toEqual([]);
    expect(question?.rest).toEqual([caveat, paragraph("Later.")]);
  });

  it("have an answer for each attribute where there are several", () => {
    const led = [paragraph("421.", "Body"), paragraph("None.", "Acidity")];
    const [question] = questionsOf([heading("Which coffee?"), ...led, heading("Body", 2), paragraph("More.", "Body")]);
    expect(question?.answers.map((one) => one.lead)).toEqual(["Body", "Acidity"]);
    expect(question?.rest).toHaveLength(2);
  });

  it("keep a second paragraph without a lead for the rest", () => {
    const [question] = questionsOf([heading("Which coffee?"), paragraph("421."), paragraph("How so.")]);
    expect(question?.rest).toEqual([paragraph("How so.")]);
  });

  it("are told apart by their addresses, and what stands before the first is nobody's", () => {
    const found = questionsOf([paragraph("Before."), heading("One?"), heading("Two?"), paragraph("Yes.")]);
    expect(found.map((one) => [one.id, one.answers.length])).toEqual([["question-1", 0], ["question-2", 1]]);
  });
});
