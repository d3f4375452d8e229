/* What of a plan's deviations and cautions is told at once, and what is folded away. */
import type { Caution, Deviation } from "../../wire/protocols";

export interface Held {
  /** where the plan leaves its protocol */
  off: string[];
  /** what nobody can tell from the plan */
  unknown: string[];
  /** cautions beyond a published limit */
  exceeded: string[];
  /** all others */
  rest: string[];
}

/** A source as it is read on a screen: without the key under which docs/sources.md lists it. */
export function withoutKeys(source: string): string {
  return source.replaceAll(/ \[[A-Z][\w-]*\]/g, "");
}

export function sorted(deviations: readonly Deviation[], limits: readonly Caution[]): Held {
  const told = (all: readonly { sentence: string }[]): string[] => all.map((one) => one.sentence);
  return {
    off: told(deviations.filter((one) => one.known)),
    unknown: told(deviations.filter((one) => !one.known)),
    exceeded: told(limits.filter((one) => one.exceeded)),
    rest: told(limits.filter((one) => !one.exceeded)),
  };
}
