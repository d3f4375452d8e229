/* A taster's view of the reveal: kept on this device, so that it opens again without the server. */
import { sealHolds } from "../local/seal";
import type { Shelf, Sitting } from "../taste/sitting.svelte";
import type { ReportBlock } from "../wire/report";
import type { CoffeeComparison, Colour, Comparison, TableTotal, TasterFit, TasterWords } from "../wire/types";
import { tastersOf, totalsOf } from "./totals";

/** One coffee as its taster looks at it. `mine` is null where nothing was written. */
export interface Seen {
  compared: CoffeeComparison;
  mine: TasterWords | null;
  others: TasterWords[];
  colours: Colour[];
  /** what each taster's sheets give this coffee, by seat; `totals` are the own */
  totals: TableTotal[];
  totalsOf: Record<string, TableTotal[]>;
}

export class TasterReveal {
  comparison = $state<Comparison | null>(null);
  /** what the own scores say, kindly and for these eyes alone; empty until it came */
  own = $state<ReportBlock[]>([]);
  /** why it cannot be shown yet, in a sentence */
  trouble = $state("");
  #sitting: Sitting;
  #shelf: Shelf;

  constructor(sitting: Sitting, shelf: Shelf) {
    this.#sitting = sitting;
    this.#shelf = shelf;
  }

  /** Show what this device has kept, and ask the table: notes that came in late may have been added. */
  async load(): Promise<void> {
    this.comparison ??= this.#kept();
    const reply = await this.#sitting.notebook.comparison();
    if (reply.kind === "ok") {
      this.comparison = reply.value;
      this.#keep(reply.value);
    }
    const own = await this.#sitting.notebook.own();
    if (own.kind === "ok") this.own = own.value.blocks;
    this.trouble = reply.kind === "ok" || this.comparison !== null ? "" : reply.sentence;
  }

  /** Whether the opened key is the one that was sealed; null before the reveal and at an open table. */
  get sealMatches(): boolean | null {
    const promised = this.#sitting.known?.table.commitment ?? "";
    return this.comparison === null || promised === "" ? null : sealHolds(this.comparison.key, promised);
  }

  /** Whether this taster's notes pick out the coffees; null where there is too little to say. */
  get fit(): TasterFit | null {
    const seat = this.#sitting.known?.seat.id;
    const fit = this.comparison?.fits?.find((one) => one.seat === seat) ?? null;
    return fit?.published || fit?.others ? fit : null;
  }

  get coffees(): Seen[] {
    const seat = this.#sitting.known?.seat.id;
    return (this.comparison?.coffees ?? []).map((compared) => {
      const tasters = tastersOf(this.comparison, compared);
      return {
        compared,
        mine: compared.tasters.find((taster) => taster.seat === seat) ?? null,
        others: tasters.filter((taster) => taster.seat !== seat),
        colours: this.#colours(compared.places),
        totals: totalsOf(this.comparison, compared, seat ?? ""),
        totalsOf: Object.fromEntries(tasters.map((one) => [one.seat, totalsOf(this.comparison, compared, one.seat)])),
      };
    });
  }

  /** The colours this taster picked for a coffee, in the order of its places. */
  #colours(places: readonly string[]): Colour[] {
    const passes = this.#sitting.known?.table.sheet.passes ?? [];
    const asked = passes.flatMap((pass) =>
      pass.fields.filter((field) => field.kind === "colour").map((field) => [pass.id, field.id] as const),
    );
    return places
      .flatMap((place) => asked.map(([pass, field]) => this.#sitting.notebook.answer(place, pass, field)))
      .filter((value): value is Colour => typeof value === "object" && value !== null && !Array.isArray(value));
  }

  get #key(): string {
    return `cupwright.reveal.${this.#sitting.known?.seat.id ?? ""}`;
  }

  #kept(): Comparison | null {
    try {
      return JSON.parse(this.#shelf.getItem(this.#key) ?? "null") as Comparison | null;
    } catch {
      return null;
    }
  }

  #keep(comparison: Comparison): void {
    try {
      this.#shelf.setItem(this.#key, JSON.stringify(comparison));
    } catch {
      // A full shelf: the server still has it.
    }
  }
}
