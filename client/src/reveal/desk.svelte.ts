/* The reveal at the desk: opening the key, checking it, and everybody's words side by side. */
import type { CupView } from "../kit/cups";
import { draftOf, dropDraft, keepDraft } from "../kit/draft";
import { sealHolds } from "../local/seal";
import type { Api } from "../wire/api";
import { Asking } from "../wire/asking.svelte";
import type { TableEvent } from "../wire/live";
import type { Comparison, Fit, SeatProgress, TableView } from "../wire/types";
import { asCode, missing, type Entered } from "./placings";

type Revealing = Pick<Api, "table" | "progress" | "openKey" | "comparison" | "events">;

export class DeskRevealState {
  id: string;
  table = $state<TableView | null>(null);
  seats = $state<SeatProgress[]>([]);
  entered = $state<Entered>({});
  comparison = $state<Comparison | null>(null);
  sealedAt = $state("");
  against = $state<"published" | "others">("published");
  loading = new Asking();
  opening = new Asking();
  #api: Revealing;

  constructor(api: Revealing, id: string) {
    this.#api = api;
    this.id = id;
    this.entered = draftOf<Entered>(this.#draft) ?? {};
  }

  get #draft(): string {
    return `placings/${this.id}`;
  }

  async load(): Promise<void> {
    const table = await this.loading.run(() => this.#api.table(this.id));
    if (table === undefined) return;
    this.table = table;
    await (table.step === "reveal" ? this.#loadOpened() : this.#loadWaiting());
  }

  async #loadWaiting(): Promise<void> {
    if (this.table?.step === "plan") return;
    this.seats = (await this.loading.run(() => this.#api.progress(this.id))) ?? this.seats;
  }

  async #loadOpened(): Promise<void> {
    const found = await this.loading.run(() => Promise.all([this.#api.comparison(this.id), this.#api.events(this.id)]));
    if (found === undefined) return;
    this.comparison = found[0];
    this.sealedAt = found[1].find((event: TableEvent) => event.kind === "sealed")?.at ?? "";
  }

  /** Whether codes have to be entered before the key can be opened. */
  get shuffled(): boolean {
    return this.table?.blinding === "shuffle";
  }

  get left(): number {
    return this.table === null ? 0 : missing(this.table.places, this.entered, this.table.codes);
  }

  get ready(): boolean {
    return !this.shuffled || this.left === 0;
  }

  /** The places as cups, each showing the code entered for it. */
  get cups(): CupView[] {
    return (this.table?.places ?? []).map((place) => {
      const code = this.entered[place] ?? "";
      const cup: CupView = { id: place, place, number: 1, state: code === "" ? "ready" : "empty" };
      return code === "" ? cup : { ...cup, text: code, say: code };
    });
  }

  /** Each taster's notes against chance, by what they are compared with; without those of whom nothing can be said. */
  get fits(): { seat: string; fit: Fit }[] {
    return (this.comparison?.fits ?? []).flatMap((one) => {
      const fit = one[this.against];
      return fit ? [{ seat: one.seat, fit }] : [];
    });
  }

  /** This page's own check of the opened key against what was promised; null before the reveal. */
  get sealMatches(): boolean | null {
    const { comparison, table } = this;
    return comparison === null || table === null ? null : sealHolds(comparison.key, table.commitment);
  }

  enter(place: string, text: string): void {
    this.entered = { ...this.entered, [place]: asCode(text) };
    keepDraft(this.#draft, this.entered);
  }

  /** Whether the key is open now. */
  async open(): Promise<boolean> {
    const table = await this.opening.run(() => this.#api.openKey(this.id, this.shuffled ? { ...this.entered } : null));
    if (table === undefined) return false;
    dropDraft(this.#draft);
    this.table = table;
    await this.#loadOpened();
    return true;
  }
}
