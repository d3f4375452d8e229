/* How a plan would run, and what one more bowl or taster would change; names are those of the wire. */
import type { Schedule } from "../pour/clock";

export interface OneMore {
  what: string;
  sentences: string[];
}

/** `schedule` has as many people as it takes; null where nobody can keep it. `warnings` are whole sentences. */
export interface Outlook {
  schedule: Schedule | null;
  warnings: string[];
  one_more: OneMore[];
}
