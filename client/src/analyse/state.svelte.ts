/* The analysis of an opened table, cut as the screen shows it. */
import type { IntervalRow } from "../kit/figures/axis";
import type { Api } from "../wire/api";
import type { AnalysedCoffee, Analysis, WordContrast, WordCount } from "../wire/analysis";
import { onceOpen, TableWith } from "../wire/table_with.svelte";

type Analysing = Pick<Api, "table" | "analysis">;

/** Up to so many tasters a count says more than a percentage. */
export const SMALL_PANEL = 12;
const SHOWN = 12;

export interface ShownWords {
  /** used by two at least, or the most used of a large panel */
  shared: WordCount[];
  once: string[];
}

/** A small panel shows what two share and names the rest; a large one the most used. */
export function shownWords(coffee: AnalysedCoffee): ShownWords {
  if (coffee.wrote > SMALL_PANEL) return { shared: coffee.words.slice(0, SHOWN), once: [] };
  return {
    shared: coffee.words.filter((word) => word.count > 1).slice(0, SHOWN),
    once: coffee.words.filter((word) => word.count === 1).map((word) => word.label),
  };
}

export function shareRows(words: readonly WordCount[]): IntervalRow[] {
  return words.map(({ label, share, count, of }) => ({
    label,
    estimate: 100 * share.estimate,
    low: share.low === null ? null : 100 * share.low,
    high: share.high === null ? null : 100 * share.high,
    note: `${count} of ${of}`,
  }));
}

export interface ShownContrasts {
  more: WordContrast[];
  less: WordContrast[];
  left: number;
}

const CONTRASTS_SHOWN = 6;

/** What sets a coffee apart: the largest differences either way, and how many are left out. */
export function shownContrasts(coffee: AnalysedCoffee): ShownContrasts {
  const more = coffee.contrasts.filter((word) => word.difference.estimate > 0);
  const less = coffee.contrasts.filter((word) => word.difference.estimate <= 0).reverse();
  const shown = { more: more.slice(0, CONTRASTS_SHOWN), less: less.slice(0, CONTRASTS_SHOWN) };
  return { ...shown, left: coffee.contrasts.length - shown.more.length - shown.less.length };
}

export class AnalyseState extends TableWith<Analysis> {
  constructor(api: Analysing, id: string) {
    super(api, id, (table) => onceOpen(table, () => api.analysis(id)));
  }

  get analysis(): Analysis | null {
    return this.shown;
  }
}
