/* Refusals as the server words them: application/problem+json (RFC 9457). */

export interface ProblemPlace {
  file?: string;
  line?: number | null;
  column?: string | number | null;
}

export interface ProblemBody {
  status: number;
  title: string;
  detail: string;
  todo: string;
  where: ProblemPlace | null;
  about?: string;
}

/**
 * One refusal. `detail` is the whole sentence (where, what, what to do), `what` only what is wrong, `todo` what to do.
 * Status 0: the server did not answer.
 */
export class Problem extends Error {
  status: number;
  title: string;
  detail: string;
  todo: string;
  where: ProblemPlace | null;
  /** the field that is wrong, where one is */
  about: string;

  constructor(body: ProblemBody) {
    super(body.detail);
    this.name = "Problem";
    this.status = body.status;
    this.title = body.title;
    this.detail = body.detail;
    this.todo = body.todo;
    this.where = body.where;
    this.about = body.about ?? "";
  }

  /** The sentence without what `where` and `todo` say apart. */
  get what(): string {
    const place = placeText(this);
    const bare = this.detail.startsWith(`${place}: `) ? this.detail.slice(place.length + 2) : this.detail;
    return this.todo !== "" && bare.endsWith(this.todo) ? bare.slice(0, -this.todo.length).trim() : bare;
  }

  /** The field that it is about, by whatever name the server gives it. */
  get field(): string {
    return this.about !== "" ? this.about : String(this.where?.column ?? "");
  }

  get unreachable(): boolean {
    return this.status === 0;
  }
}

/** Where in the input, in words: "coffees.csv, line 3, column roast_date". */
export function placeText(problem: Problem): string {
  const { file, line, column } = problem.where ?? {};
  const parts = [
    file ?? "",
    line === null || line === undefined ? "" : `line ${line}`,
    column === null || column === undefined || column === "" ? "" : `column ${column}`,
  ];
  return parts.filter((part) => part !== "").join(", ");
}
