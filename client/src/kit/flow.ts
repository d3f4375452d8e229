/* The flow as the screens draw it: six steps, and which of them a table has reached. */

export const FLOW = ["plan", "pour", "taste", "reveal", "analyse", "report"] as const;
export type FlowStep = (typeof FLOW)[number];

/** The steps a table is kept at (core/flow.py). */
export type TableStep = "plan" | "pour" | "taste" | "reveal";

const OPEN: Record<TableStep, readonly FlowStep[]> = {
  plan: ["plan"],
  pour: ["plan", "pour", "taste", "reveal"],
  taste: ["plan", "pour", "taste", "reveal"],
  reveal: FLOW,
};

/** Whether the screen of `step` has something to show for a table at `at`. */
export function isOpen(step: FlowStep, at: TableStep): boolean {
  return OPEN[at].includes(step);
}

/** The screen where the next act waits. */
export function nextScreen(at: TableStep): FlowStep {
  return at === "reveal" ? "report" : at;
}

/** done: behind the table; now: where it stands; open: can be visited; ahead: not yet. */
export function standing(step: FlowStep, at: TableStep): "done" | "now" | "open" | "ahead" {
  if (at === "reveal") return "done";
  const [mine, its] = [FLOW.indexOf(step), FLOW.indexOf(at)];
  if (mine === its) return "now";
  if (mine < its) return "done";
  return isOpen(step, at) ? "open" : "ahead";
}
