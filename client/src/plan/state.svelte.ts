/* A plan in the making: the form, what it would need, saving and sealing. */
import type { CupView } from "../kit/cups";
import { draftOf, dropDraft, keepDraft } from "../kit/draft";
import type { Api } from "../wire/api";
import { Asking } from "../wire/asking.svelte";
import type { Protocol } from "../wire/protocols";
import type { Brief, Coffee, Plan, Sheet, TableView } from "../wire/types";
import { formOf, freshForm, laidCups, planOf, plannedCups, type PlanForm } from "./form";

const PREVIEW_AFTER_MS = 300;

type Planning = Pick<
  Api,
  "coffees" | "sheets" | "protocols" | "table" | "previewBrief" | "planTable" | "replanTable" | "seal" | "removeTable"
>;

export class PlanState {
  id: string;
  form = $state<PlanForm>(freshForm());
  table = $state<TableView | null>(null);
  coffees = $state<Coffee[] | null>(null);
  sheets = $state<Sheet[]>([]);
  protocols = $state<Protocol[]>([]);
  brief = $state<Brief | null>(null);
  dirty = $state(false);
  loading = new Asking();
  previewing = new Asking();
  saving = new Asking();
  #api: Planning;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #asked = 0;

  /** `id` is "" for a new table. */
  constructor(api: Planning, id: string) {
    this.#api = api;
    this.id = id;
  }

  get #draft(): string {
    return `plan/${this.id === "" ? "new" : this.id}`;
  }

  get sealed(): boolean {
    return this.table !== null && this.table.step !== "plan";
  }

  /** The table as laid where nothing was changed since; else as it would be laid. */
  get cups(): CupView[] {
    return this.table !== null && !this.dirty ? laidCups(this.table) : plannedCups(this.form);
  }

  get nameless(): boolean {
    return this.form.name.trim() === "";
  }

  /** What keeps it from being sealed. */
  get missing(): ("name" | "coffees")[] {
    return [...(this.nameless ? ["name" as const] : []), ...(this.form.coffees.length === 0 ? ["coffees" as const] : [])];
  }

  async load(): Promise<void> {
    const [coffees, sheets, protocols, table] =
      (await this.loading.run(() =>
        Promise.all([
          this.#api.coffees(),
          this.#api.sheets(),
          this.#api.protocols(),
          this.id === "" ? null : this.#api.table(this.id),
        ]),
      )) ?? [];
    if (coffees === undefined || sheets === undefined || protocols === undefined) return;
    this.coffees = coffees;
    this.sheets = sheets;
    this.protocols = protocols;
    this.table = table ?? null;
    if (this.table !== null) this.form = formOf(this.table.plan);
    if (!this.sealed) this.#takeDraft();
    await this.preview();
  }

  #takeDraft(): void {
    const draft = draftOf<PlanForm>(this.#draft);
    if (draft === null) return;
    // A coffee may have left the shelf since.
    const known = new Set(this.coffees?.map((coffee) => coffee.id));
    this.form = { ...freshForm(), ...draft, coffees: draft.coffees.filter((id) => known.has(id)) };
    this.dirty = true;
  }

  /** Called on every change of the form. */
  changed(): void {
    this.dirty = true;
    keepDraft(this.#draft, this.form);
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.preview(), PREVIEW_AFTER_MS);
  }

  toggle(coffee: string): void {
    const picked = this.form.coffees;
    this.form.coffees = picked.includes(coffee) ? picked.filter((id) => id !== coffee) : [...picked, coffee];
    this.changed();
  }

  /** Go by another protocol: what it asks of the plan is filled in, and can be changed again. */
  goBy(name: string): void {
    const suggested = this.protocols.find((one) => one.name === name)?.suggested ?? {};
    const known = Object.entries(suggested).filter(([field]) => field in this.form);
    this.form = { ...this.form, ...Object.fromEntries(known), protocol: name };
    this.changed();
  }

  /** Ask what the plan would need. A slow answer to an older plan does not replace a newer one. */
  async preview(): Promise<void> {
    const asked = ++this.#asked;
    if (this.form.coffees.length === 0) {
      this.brief = null;
      this.previewing.problem = null;
      return;
    }
    const plan = this.#plan();
    const brief = await this.previewing.run(() => this.#api.previewBrief(plan));
    if (asked === this.#asked) this.brief = brief ?? this.brief;
  }

  /** A name can come last: until then the amounts are asked for under another. */
  #plan(): Plan {
    const plan = planOf(this.form);
    return this.nameless ? { ...plan, name: "-" } : plan;
  }

  /** Which field the server complains about, if it names one. */
  complaint(field: keyof PlanForm): string {
    const problem = this.saving.problem ?? this.previewing.problem;
    return problem?.where?.column === field ? problem.what : "";
  }

  /** The saved table, or undefined when it was refused. */
  async save(): Promise<TableView | undefined> {
    const plan = planOf(this.form);
    const table = await this.saving.run(() =>
      this.id === "" ? this.#api.planTable(plan) : this.#api.replanTable(this.id, plan),
    );
    if (table === undefined) return undefined;
    dropDraft(this.#draft);
    this.#show(table);
    return table;
  }

  /** Save what is unsaved, then seal. Whether it is sealed. */
  async seal(): Promise<boolean> {
    const saved = this.dirty || this.id === "" ? await this.save() : this.table;
    if (saved === undefined || saved === null) return false;
    const sealed = await this.saving.run(() => this.#api.seal(saved.id));
    if (sealed !== undefined) this.#show(sealed);
    return sealed !== undefined;
  }

  /** Back to what was saved, or to an empty plan. */
  discard(): void {
    dropDraft(this.#draft);
    this.form = this.table === null ? freshForm() : formOf(this.table.plan);
    this.dirty = false;
    void this.preview();
  }

  async remove(name: string): Promise<boolean> {
    const done = await this.saving.run(async () => {
      await this.#api.removeTable(this.id, name);
      return true;
    });
    if (done === true) dropDraft(this.#draft);
    return done === true;
  }

  #show(table: TableView): void {
    this.id = table.id;
    this.table = table;
    this.form = formOf(table.plan);
    this.dirty = false;
  }
}
