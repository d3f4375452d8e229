/* The run of a table: its clock as time goes by, on this screen as on every other. */
import type { CupView } from "../kit/cups";
import type { Api } from "../wire/api";
import { Asking } from "../wire/asking.svelte";
import type { TableView } from "../wire/types";
import { runSheet, serverAhead, unkept, type Clock, type Cue, type Schedule } from "./clock";
import { actToMark, cuesOf, cupsAt, momentOf, ownCues, peopleOf, type Moment } from "./moment";

type Running = Pick<Api, "table" | "runSheet" | "startClock" | "takeBackStart" | "markAct" | "takeBackMark">;
export type Marked = "pour" | "break" | "skim" | "aside";

/** One person's present and next act. */
export interface PersonAt {
  person: number;
  moment: Moment;
  toMark: Cue | null;
}

export class RunState {
  id: string;
  table = $state<TableView | null>(null);
  laid = $state.raw<Schedule | null>(null);
  /** the server's time, as well as this device knows it */
  now = $state(0);
  selected = $state<number | null>(null);
  /** whose acts this screen calls out, from 0; null for all */
  person = $state<number | null>(null);
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

  cues: Cue[] = $derived(this.table === null || this.laid === null ? [] : runSheet(this.laid, this.table.clock));
  /** the sheet as it would run from now, before the clock is started */
  planned: Cue[] = $derived(this.laid === null ? [] : runSheet(this.laid, { started_at: 0, pours: [], done: [] }));
  mine: Cue[] = $derived(cuesOf(this.cues, this.person));
  cups: CupView[] = $derived(this.table === null ? [] : cupsAt(this.table.bowls, this.cues, this.now));
  moment: Moment = $derived(momentOf(this.mine, this.now));
  late: Cue[] = $derived(unkept(this.cues));
  people: number[] = $derived(peopleOf(this.planned));

  /** What each person does now and next. */
  get hands(): PersonAt[] {
    return this.people.map((person) => ({
      person,
      // Without what is everybody's: a first taste that comes sooner would hide this person's own next act.
      moment: momentOf(ownCues(this.cues, person), this.now, 1),
      toMark: this.table?.step === "taste" ? actToMark(this.cues, person, this.now) : null,
    }));
  }

  /** Milliseconds since the first pour; 0 before it. */
  get elapsed(): number {
    const started = this.table?.clock.started_at;
    return started === null || started === undefined ? 0 : Math.max(0, this.now - started);
  }

  /** Whether nothing but the start is marked, so that it can be taken back. */
  get canTakeBack(): boolean {
    const clock = this.table?.clock;
    return this.table?.step === "taste" && clock?.pours.length === 0 && clock.done.length === 0;
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
    this.laid = found[1].schedule;
    this.tick();
  }

  async start(): Promise<void> {
    await this.#move(() => this.#api.startClock(this.id));
  }

  async takeBackStart(): Promise<void> {
    await this.#move(() => this.#api.takeBackStart(this.id));
  }

  /** Something was done with a bowl just now: seen here at once, then told to the server; taken back if it refuses. */
  async mark(kind: Marked, bowl: number): Promise<void> {
    const before = this.table;
    if (before === null) return;
    this.tick();
    this.table = { ...before, clock: { ...before.clock, ...withMark(before.clock, kind, bowl, this.now) } };
    const sheet = await this.acting.run(() => this.#api.markAct(this.id, kind, bowl));
    if (sheet === undefined) this.table = before;
  }

  /** What was marked of a bowl. */
  marksOf(bowl: number): Marked[] {
    const clock = this.table?.clock;
    const poured: Marked[] = clock?.pours.some(([one]) => one === bowl) ? ["pour"] : [];
    return [...poured, ...(clock?.done ?? []).filter(([, one]) => one === bowl).map(([kind]) => kind as Marked)];
  }

  /** That was marked by mistake. */
  async unmark(kind: Marked, bowl: number): Promise<void> {
    if ((await this.acting.run(() => this.#api.takeBackMark(this.id, kind, bowl))) !== undefined) await this.load();
  }

  async #move(ask: () => Promise<TableView>): Promise<void> {
    const table = await this.acting.run(ask);
    if (table === undefined) return;
    this.table = table;
    await this.load();
  }
}

/** A pour's mark is when its water goes in; that of any other act when it is done. */
function withMark(clock: Clock, kind: Marked, bowl: number, now: number): Pick<TableView["clock"], "pours" | "done"> {
  const pours = clock.pours.map(([one, at]): [number, number] => [one, at]);
  const done = clock.done.map(([what, one, at]): [string, number, number] => [what, one, at]);
  if (kind === "pour") return { pours: [...pours.filter(([one]) => one !== bowl), [bowl, now]], done };
  return { pours, done: [...done.filter(([what, one]) => what !== kind || one !== bowl), [kind, bowl, now]] };
}
