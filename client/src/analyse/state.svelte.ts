/* The analysis of an opened table, cut as the screen shows it. */
import type { IntervalRow } from "../kit/figures/axis";
import type { Api } from "../wire/api";
import { Asking } from "../wire/asking.svelte";
import type { AnalysedCoffee, AnalysedScale, Analysis, WordContrast, WordCount } from "../wire/analysis";
import type { TableView } from "../wire/types";

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

/** Pairs whose difference chance would not make, the larger coffee named first. */
export function clearDifferences(scale: AnalysedScale): AnalysedScale["differences"] {
  return scale.differences.filter(({ mean }) => mean.low !== null && mean.high !== null && (mean.low > 0 || mean.high < 0));
}

export class AnalyseState {
  id: string;
  table = $state<TableView | null>(null);
  analysis = $state<Analysis | null>(null);
  asking = new Asking();
  #api: Analysing;

  constructor(api: Analysing, id: string) {
    this.#api = api;
    this.id = id;
  }

  async load(): Promise<void> {
    const table = await this.asking.run(() => this.#api.table(this.id));
    if (table === undefined) return;
    this.table = table;
    if (table.step === "reveal") this.analysis = (await this.asking.run(() => this.#api.analysis(this.id))) ?? null;
  }

  /** Scales that somebody answered, liking first. */
  get scales(): AnalysedScale[] {
    const answered = (this.analysis?.scales ?? []).filter((scale) => scale.means.some((mean) => mean.n > 0));
    return [...answered.filter((scale) => scale.liking), ...answered.filter((scale) => !scale.liking)];
  }

  meanRows(scale: AnalysedScale, note: (n: number) => string): IntervalRow[] {
    return scale.means.map(({ n, mean }, index) => ({
      label: this.analysis?.coffees[index]?.name ?? "",
      estimate: mean?.estimate ?? null,
      low: mean?.low ?? null,
      high: mean?.high ?? null,
      note: note(n),
    }));
  }
}
