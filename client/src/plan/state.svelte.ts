/* A plan in the making: the form, what it would need, saving and sealing. */
import type { CupView } from "../kit/cups";
import { draftOf, dropDraft, keepDraft } from "../kit/draft";
import type { Api } from "../wire/api";
import { Asking } from "../wire/asking.svelte";
import type { Outlook } from "../wire/outlook";
import type { Protocol } from "../wire/protocols";
import type { Brief, Coffee, Plan, Sheet, TableView } from "../wire/types";
import { drawable, flightSizes, formOf, freshForm, laidCups, planOf, plannedCups, type PlanForm } from "./form";

const PREVIEW_AFTER_MS = 60;

// Fields that show their own refusal; of all others it is told beside the table.
const NOT_AT_FIELD: readonly string[] = ["", "coffees", "blinding", "sheet", "protocol", "vessel", "spare_bowl"];

type Planning = Pick<
  Api,
  "coffees" | "sheets" | "protocols" | "table" | "previewBrief" | "previewOutlook" | "brief" | "runSheet" | "planTable" | "replanTable" | "seal" | "removeTable"
>;

export class PlanState {
  id: string;
  form = $state<PlanForm>(freshForm());
  table = $state<TableView | null>(null);
  coffees = $state<Coffee[] | null>(null);
  sheets = $state<Sheet[]>([]);
  protocols = $state<Protocol[]>([]);
  brief = $state<Brief | null>(null);
  outlook = $state<Outlook | null>(null);
  dirty = $state(false);
  looking = $state(false);
  loading = new Asking();
  previewing = new Asking();
  saving = new Asking();
  /** the form when a table could last be drawn from it */
  #drawn = $state<PlanForm>(freshForm());
  #api: Planning;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #asked = 0;
  #looked = 0;

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
    return this.table !== null && !this.dirty ? laidCups(this.table) : plannedCups(drawable(this.form) ? this.form : this.#drawn);
  }

  /** How many places each flight has. */
  get flights(): number[] {
    const places = new Set(this.cups.map((cup) => cup.place)).size;
    return flightSizes(places, drawable(this.form) ? this.form.flight : this.#drawn.flight);
  }

  /** Whether the refusal stands beside a field of the form. */
  get fieldRefused(): boolean {
    const field = this.previewing.problem?.field ?? "";
    return field in this.form && !NOT_AT_FIELD.includes(field);
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
    if (this.sealed) return this.#lookUp();
    this.#takeDraft();
    this.#remember();
    await this.preview();
  }

  /** A sheet or protocol of one's own was kept (then it is chosen), or put away (then another one is). */
  async formsChanged(kind: "sheet" | "protocol", name: string): Promise<void> {
    const found = await this.loading.run(() => Promise.all([this.#api.sheets(), this.#api.protocols()]));
    if (found === undefined) return;
    [this.sheets, this.protocols] = found;
    const there: readonly { name: string }[] = kind === "sheet" ? this.sheets : this.protocols;
    if (name === "" && there.some((one) => one.name === this.form[kind])) return;
    const wanted = name === "" ? freshForm()[kind] : name;
    if (kind === "protocol") return this.goBy(wanted);
    this.form.sheet = wanted;
    this.changed();
  }

  /** What a sealed table was planned to be: as it was laid, not as it would be laid today. */
  async #lookUp(): Promise<void> {
    const [brief, sheet] =
      (await this.previewing.run(() => Promise.all([this.#api.brief(this.id), this.#api.runSheet(this.id)]))) ?? [];
    this.brief = brief ?? null;
    if (sheet !== undefined) this.outlook = { schedule: sheet.schedule, warnings: [], one_more: [] };
  }

  #remember(): void {
    if (drawable(this.form)) this.#drawn = $state.snapshot(this.form);
  }

  #takeDraft(): void {
    const draft = draftOf<PlanForm>(this.#draft);
    if (draft === null) return;
    // A coffee may have left the shelf since.
    const known = new Set(this.coffees?.map((coffee) => coffee.id));
    this.form = { ...freshForm(), ...draft, coffees: draft.coffees.filter((id) => known.has(id)) };
    this.form.duplicates = this.form.duplicates.filter((id) => known.has(id));
    this.dirty = true;
  }

  /** Whether the picture is of an older plan than the form. */
  get updating(): boolean {
    return this.previewing.busy || this.looking;
  }

  /** Called on every change of the form. */
  changed(): void {
    this.dirty = true;
    this.saving.problem = null;
    this.#remember();
    keepDraft(this.#draft, this.form);
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.preview(), PREVIEW_AFTER_MS);
  }

  toggle(coffee: string): void {
    const picked = this.form.coffees;
    this.form.coffees = picked.includes(coffee) ? picked.filter((id) => id !== coffee) : [...picked, coffee];
    this.form.duplicates = this.form.duplicates.filter((id) => this.form.coffees.includes(id));
    this.changed();
  }

  /** Stand a coffee under a second code too, or no longer. */
  toggleTwice(coffee: string): void {
    const twice = this.form.duplicates;
    this.form.duplicates = twice.includes(coffee) ? twice.filter((id) => id !== coffee) : [...twice, coffee];
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
      this.outlook = null;
      this.previewing.problem = null;
      return;
    }
    const plan = this.#plan();
    const asking = new Asking();
    this.previewing.busy = true;
    const brief = await asking.run(() => this.#api.previewBrief(plan));
    if (asked !== this.#asked) return;
    this.previewing.busy = false;
    this.previewing.problem = asking.problem;
    if (brief === undefined) return;
    this.brief = brief;
    void this.#lookAhead();
  }

  /** A schedule can take a second: one is asked for at a time, and then for the plan as it stands by then. */
  async #lookAhead(): Promise<void> {
    if (this.looking) return;
    this.looking = true;
    while (this.#looked !== this.#asked && this.form.coffees.length > 0) {
      const asked = this.#asked;
      const outlook = await this.#api.previewOutlook(this.#plan()).catch(() => undefined);
      this.#looked = asked;
      if (outlook !== undefined && asked === this.#asked) this.outlook = outlook;
    }
    this.looking = false;
  }

  /** A name can come last: until then the amounts are asked for under another. */
  #plan(): Plan {
    const plan = planOf(this.form);
    return this.nameless ? { ...plan, name: "-" } : plan;
  }

  /** Which field the server complains about, if it names one. */
  complaint(field: keyof PlanForm): string {
    const problem = this.saving.problem ?? this.previewing.problem;
    return problem?.field === field ? `${problem.what} ${problem.todo}`.trim() : "";
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
    if (sealed !== undefined) {
      this.#show(sealed);
      void this.#lookUp();
    }
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
