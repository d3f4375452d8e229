/*
 * One taster at one table: the notebook of the seat, where the taster is on the sheet, and the time of the table.
 * What is typed goes into the notebook while it is typed, so that a killed tab loses nothing.
 */
import { Notebook } from "../local/notebook";
import { fileName } from "../local/save_to_file";
import { momentOf, presentAt } from "../pour/moment";
import type { Correction, Cue, OwnWord, Pass, Value } from "../wire/types";
import { type Lexicon, loadLexicon } from "../words/reading/lexicon";
import { taster } from "../words/taster_en";
import { Reader } from "./reader";
import { after, before, fitting, isBreak, passAt, placeAt, type Standing, type Way } from "./walk";

export interface Shelf {
  getItem: (key: string) => string | null;
  setItem: (key: string, value: string) => void;
}

/** What the clock asks for: an act that is due now, or else the next one. */
export interface Due {
  cue: Cue;
  isNow: boolean;
}

export class Sitting {
  /** "looking" while the device is searched for a seat, "none" if nobody sits here */
  found = $state<"looking" | "here" | "none">("looking");
  at = $state<Standing>({ round: 0, stop: 0 });
  now = $state(0);
  #tick = $state(0);
  #notebook: Notebook;
  #shelf: Shelf;
  #clock: () => number;
  #lexicon = $state.raw<Lexicon | null>(null);
  /** made anew only when its words change, since compiling a lexicon takes a phone a moment */
  #reader: { own: readonly OwnWord[]; corrections: readonly Correction[]; reader: Reader } | null = null;

  constructor(notebook: Notebook, shelf: Shelf, clock: () => number = Date.now) {
    this.#notebook = notebook;
    this.#shelf = shelf;
    this.#clock = clock;
    this.now = clock();
    notebook.subscribe(() => (this.#tick += 1));
  }

  /** Sit down on the seat this browser sat on last. */
  async open(): Promise<void> {
    const [last] = await this.#notebook.remembered();
    if (last === undefined) {
      this.found = "none";
      return;
    }
    await this.#notebook.open(last.seat, last.token);
    // A seat that was never seen whole has no sheet yet: one round brings it, if the table answers.
    if (this.#notebook.known === null) await this.#notebook.sync();
    const way = this.way;
    if (way !== null) this.at = fitting(way, this.#kept());
    this.found = this.#notebook.known === null ? "none" : "here";
    void this.prepare();
  }

  close(): void {
    this.#notebook.close();
  }

  /** Move the table's time on; call it once a second. Time comes from the clock, never from counting. */
  beat = (): void => {
    this.now = this.#clock() + this.#notebook.ahead;
  };

  /** The notebook, read so that whoever reads it follows its changes. */
  get notebook(): Notebook {
    void this.#tick;
    return this.#notebook;
  }

  get known() {
    return this.notebook.known;
  }

  get way(): Way | null {
    const known = this.known;
    return known && { sheet: known.table.sheet, order: known.seat.order, flights: known.table.flights ?? [] };
  }

  get pass(): Pass | undefined {
    return this.way ? passAt(this.way, this.at) : undefined;
  }

  get place(): string {
    return this.way ? placeAt(this.way, this.at) : "";
  }

  get next(): Standing | null {
    return this.way && after(this.way, this.at);
  }

  get previous(): Standing | null {
    return this.way && before(this.way, this.at);
  }

  /** What the way onward is called: the next cup, or the pass or flight that begins. */
  get onward(): string {
    const next = this.next;
    if (next === null || this.way === null) return taster.seat.end;
    if (isBreak(this.way, this.at, next)) return taster.seat.nextFlight;
    return next.round === this.at.round ? taster.seat.next : taster.seat.nextPass(this.way.sheet.passes[next.round]?.title ?? "");
  }

  /** The act at the table now, or the next one; null before the clock is started and after the last act. */
  get due(): Due | null {
    const cues = this.cues;
    const now = presentAt(cues, this.now);
    const cue = now ?? momentOf(cues, this.now, 1).next[0] ?? null;
    return cue && { cue, isNow: now !== null };
  }

  /** Everything that is due at the table, as the device last heard it; with `now` it needs no server. */
  get cues(): readonly Cue[] {
    return this.known?.table.cues ?? [];
  }

  /** Whether the key is open, so that nothing can be written any more. */
  get closed(): boolean {
    return this.known?.table.step === "reveal";
  }

  go(to: Standing | null): void {
    if (to === null) return;
    this.at = to;
    this.#shelf.setItem(this.#key, JSON.stringify(to));
  }

  /** Where a place stands in the present pass. */
  standingAt(place: string): Standing | null {
    const stop = this.way?.order.indexOf(place) ?? -1;
    return stop < 0 ? null : { ...this.at, stop };
  }

  /** The answer that stands; null where there is none. */
  answer(pass: string, field: string, place = this.place): Value {
    return this.notebook.answer(place, pass, field);
  }

  /** Keep an answer for the place and pass named: a late one still belongs to where it was written. */
  write(place: string, pass: string, field: string, value: Value): Promise<void> {
    return this.#notebook.write(place, pass, field, value);
  }

  /** Reads this taster's notes, by the house's own words and the taster's corrections; null until the lexicon is here. */
  get reader(): Reader | null {
    const { own, corrections } = this.notebook.words;
    if (this.#lexicon === null) return null;
    if (this.#reader?.own !== own || this.#reader.corrections !== corrections) {
      this.#reader = { own, corrections, reader: new Reader(this.#lexicon, own, corrections) };
      void this.#reader.reader.getReady(this.#askedInWords);
    }
    return this.#reader.reader;
  }

  /** Have the lexicon at hand. The first time it needs the server; without it notes are kept all the same. */
  async prepare(): Promise<void> {
    if (this.#lexicon !== null) return;
    this.#lexicon = await loadLexicon().catch(() => null);
    void this.reader; // made now rather than when it is first read by
  }

  /** Keep what the taster says that words mean: a concept, none, or null for what is read without being told. */
  correct(surface: string, concept: string | null): Promise<void> {
    return this.#notebook.correct(surface, concept);
  }

  /** The notes as a file: its name and text. */
  async file(): Promise<{ name: string; text: string }> {
    const known = this.#notebook.known;
    const name = fileName(known?.table.name ?? "", known?.seat.name ?? "");
    return { name, text: await this.#notebook.exportFile() };
  }

  get #askedInWords(): string[] {
    const passes = this.way?.sheet.passes ?? [];
    return passes.filter((pass) => pass.fields.some((field) => field.kind === "words")).map((pass) => pass.id);
  }

  get #key(): string {
    return `cupwright.at.${this.#notebook.known?.seat.id ?? ""}`;
  }

  #kept(): unknown {
    try {
      return JSON.parse(this.#shelf.getItem(this.#key) ?? "null");
    } catch {
      return null;
    }
  }
}
