/* The run of a table: its clock as time goes by, on this screen as on every other. */
import type { CupView } from "../kit/cups";
import type { Api } from "../wire/api";
import { Asking } from "../wire/asking.svelte";
import type { TableView } from "../wire/types";
import { runSheet, serverAhead, type Cue } from "./clock";
import { bowlToMark, cupsAt, momentOf, type Moment } from "./moment";

type Running = Pick<Api, "table" | "runSheet" | "startClock" | "markPour">;

export class RunState {
  id: string;
  table = $state<TableView | null>(null);
  /** the server's time, as well as this device knows it */
  now = $state(0);
  selected = $state<number | null>(null);
  loading = new Asking();
  acting = new Asking();
  #api: Running;
  #clock: () => number;
  #ahead = 0;

  constructor(api: Running, id: string, clock: () => number = () => Date.now()) {
    this.#api = api;
    this.#clock = clock;
    this.id = id;
    this.tick();
  }

  cues: Cue[] = $derived(this.table === null ? [] : runSheet(this.table.bowls.length, this.table.clock));
  cups: CupView[] = $derived(this.table === null ? [] : cupsAt(this.table.bowls, this.cues, this.now));
  moment: Moment = $derived(momentOf(this.cues, this.now));

  /** Milliseconds since the first pour; 0 before it. */
  get elapsed(): number {
    const started = this.table?.clock.started_at;
    return started === null || started === undefined ? 0 : Math.max(0, this.now - started);
  }

  /** The bowl that the button marks as poured. */
  get toPour(): number | null {
    if (this.table?.step !== "taste") return null;
    const marked = this.table.clock.pours.map(([bowl]) => bowl);
    return bowlToMark(this.table.bowls.length, marked, this.cues, this.now);
  }

  tick = (): void => {
    this.now = this.#clock() + this.#ahead;
  };

  async load(): Promise<void> {
    const asked = this.#clock();
    const found = await this.loading.run(() => Promise.all([this.#api.table(this.id), this.#api.runSheet(this.id)]));
    if (found === undefined) return;
    this.#ahead = serverAhead(found[1].now_ms, asked, this.#clock());
    this.table = found[0];
    this.tick();
  }

  async start(): Promise<void> {
    const table = await this.acting.run(() => this.#api.startClock(this.id));
    if (table === undefined) return;
    this.table = table;
    await this.load();
  }

  /** A bowl was poured just now: seen here at once, then told to the server; taken back if it refuses. */
  async poured(bowl: number): Promise<void> {
    const before = this.table;
    if (before === null) return;
    this.tick();
    const others = before.clock.pours.filter(([one]) => one !== bowl);
    this.table = { ...before, clock: { ...before.clock, pours: [...others, [bowl, this.now]] } };
    const sheet = await this.acting.run(() => this.#api.markPour(this.id, bowl));
    if (sheet === undefined) this.table = before;
  }
}
