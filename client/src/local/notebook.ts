/*
 * The notebook of one seat: what a taster writes is kept on this device first, then sent, and read back
 * from here. It works without a server from the first note on, and in several tabs at once.
 */
import { liveQuery } from "dexie";
import type { Report } from "../wire/report";
import type { Comparison, Note, Seat, SeatTable, SeatView, Value } from "../wire/types";
import { type KeptNote, onTheWire, PhoneDb } from "./db";
import { type Draft, markRefused, markSent, notesOf, takeIn, tryRefusedAgain, writeDown } from "./kept_notes";
import { answers, merge, question } from "./merge";
import { type Outcome, sendOut } from "./outbox";
import { fileText } from "./save_to_file";
import { type Reply, SeatServer } from "./seat_server";
import { browser, type Surroundings } from "./surroundings";
import { type RoundEnd, SyncLoop } from "./sync";
import { WordBook } from "./word_book";

const SEEN_PAUSE_MS = 3_000;
const HIDDEN_PAUSE_MS = 30_000;
// Between them the server is asked only for what is new.
const ROUNDS_TO_A_WHOLE_PULL = 20;
const ROUND_END: Record<Outcome["end"], RoundEnd> = { done: "fine", later: "later", stranger: "stop" };

/** A seat this browser has sat on. `waiting` counts its notes that the server has not taken. */
export interface Remembered {
  seat: string;
  token: string;
  name: string;
  table: string;
  waiting: number;
}

/** What was last known of the table and who sits here. */
export interface Known {
  table: SeatTable;
  seat: Seat;
}

/** One opening of the notebook; whatever is still on its way from an earlier one is recognised by it. */
interface Sitting {
  seat: string;
  server: SeatServer;
}

type Listener = (notebook: Notebook) => void;

export class Notebook {
  /** The table and seat as last seen, also without a server; null before anything was seen. */
  known: Known | null = null;
  /** Milliseconds by which the server's clock is ahead of this device's. */
  ahead = 0;
  /** Why nothing gets through at present, in a sentence; empty if all is well. */
  trouble = "";
  /** The server no longer knows this seat; somebody has to join again. Notes stay. */
  stranger = false;
  /** Whether the browser promised not to clear the notes by itself; null if it could not be asked. */
  persisted: boolean | null = null;

  /** Own words of the installation, and what the taster said that words mean. */
  readonly words: WordBook;

  /** whether what is written here is typed in from a sheet that was filled in at another time */
  fromPaper = false;

  #db: PhoneDb;
  #world: Surroundings;
  #sitting: Sitting | null = null;
  #notes = new Map<string, KeptNote>();
  #answers: Map<string, Note> | null = null;
  /** Answers that are being written and do not stand yet: a quick second one is compared with these. */
  #underway = new Map<string, { value: Value; kept: Promise<void> }>();
  #listeners = new Set<Listener>();
  #loop: SyncLoop;
  #letGo: (() => void)[] = [];
  #pulled = 0;
  #untilWhole = 0;

  constructor(world: Partial<Surroundings> = {}, db = new PhoneDb()) {
    this.#db = db;
    this.#world = { ...browser, ...world };
    this.words = new WordBook(db, () => this.#tell());
    this.#loop = new SyncLoop({
      round: () => this.#round(),
      usual: () => (this.#world.visible() ? SEEN_PAUSE_MS : HIDDEN_PAUSE_MS),
      schedule: this.#world.schedule,
      random: this.#world.random,
    });
  }

  /** Sit down: read what is here, then begin to send and receive. `first` is what joining has answered. */
  async open(seat: string, token: string, first: Known | null = null): Promise<void> {
    this.close();
    const sitting = { seat, server: new SeatServer(this.#world.fetch, token) };
    this.#sitting = sitting;
    const before = await this.#db.seats.get(seat);
    const table = first?.table ?? before?.table ?? null;
    const who = first?.seat ?? before?.who ?? null;
    await this.#db.seats.put({ seat, token, opened_at: this.#world.now(), table, who });
    const notes = await notesOf(this.#db, seat);
    if (who) await this.words.open(who.name);
    if (sitting !== this.#sitting) return;
    this.known = table && who && { table, seat: who };
    this.#take(notes);
    this.#watch(sitting);
    this.#loop.start();
    void this.#askToPersist();
  }

  /** Stop sending and receiving. Notes stay where they are. */
  close(): void {
    this.#loop.stop();
    for (const letGo of this.#letGo.splice(0)) letGo();
    this.words.close();
    this.#notes.clear();
    this.#underway.clear();
    this.#answers = null;
    this.#sitting = null;
    this.#pulled = 0;
    this.#untilWhole = 0;
    this.known = null;
    this.trouble = "";
    this.stranger = false;
  }

  /**
   * Keep an answer; null takes it back, and so does an empty text. Settled when it is on storage.
   *
   * An answer that says what stands already makes no new note.
   */
  async write(place: string, pass: string, field: string, value: Value): Promise<void> {
    const sitting = this.#sitting;
    if (!sitting) throw new Error("open() comes before write()");
    const asked = question(place, pass, field);
    const draft = { seat: sitting.seat, place, pass, field, value: keepable(value) };
    const last = this.#underway.get(asked) ?? { value: this.answer(place, pass, field), kept: Promise.resolve() };
    if (same(last.value, draft.value)) return last.kept;
    const mine = { value: draft.value, kept: this.#keep(sitting, draft) };
    this.#underway.set(asked, mine);
    await mine.kept.finally(() => {
      if (this.#underway.get(asked) === mine) this.#underway.delete(asked);
    });
  }

  /** Keep what the taster says that words mean; settled when it is on storage. */
  async correct(surface: string, concept: string | null): Promise<void> {
    await this.words.correct(surface, concept, this.#world.now());
    void this.#loop.now();
  }

  /** The answer that stands, or null. */
  answer(place: string, pass: string, field: string): Value {
    return this.answers().get(question(place, pass, field))?.value ?? null;
  }

  /** The answers that stand, by `question(place, pass, field)`. */
  answers(): ReadonlyMap<string, Note> {
    this.#answers ??= answers(this.#notes.values());
    return this.#answers;
  }

  /** How many notes the server has not taken: unsent or refused. */
  get unsent(): number {
    return this.#in("unsent").length + this.#in("refused").length;
  }

  /** Notes the server said no to, each with the reason in `why`. */
  get refused(): readonly KeptNote[] {
    return this.#in("refused");
  }

  /** Calls at once and after every change; made so that it serves as a Svelte store. */
  subscribe(listener: Listener): () => void {
    this.#listeners.add(listener);
    listener(this);
    return () => this.#listeners.delete(listener);
  }

  /** Send and receive now; settled when that is over, well or not. */
  sync(): Promise<void> {
    return this.#loop.now();
  }

  /** Send refused notes once more. */
  async tryAgain(): Promise<void> {
    const sitting = this.#sitting;
    if (!sitting) return;
    await tryRefusedAgain(this.#db, sitting.seat);
    await this.#readAgain(sitting);
    await this.sync();
  }

  /** What was opened at the reveal; a refusal before it, or "later" while the server is away. */
  comparison(): Promise<Reply<Comparison>> {
    if (!this.#sitting) throw new Error("open() comes before comparison()");
    return this.#sitting.server.comparison();
  }

  /** What the own scores say, once the key is open. */
  own(): Promise<Reply<Pick<Report, "blocks">>> {
    if (!this.#sitting) throw new Error("open() comes before own()");
    return this.#sitting.server.own();
  }

  /** All notes of the seat, sent or not, as the text of a file. */
  async exportFile(): Promise<string> {
    const seat = this.#sitting?.seat ?? "";
    const kept = await this.#db.seats.get(seat);
    const table = { id: kept?.table?.id ?? "", name: kept?.table?.name ?? "" };
    const notes = merge((await notesOf(this.#db, seat)).map(onTheWire), []);
    return fileText(table, { id: seat, name: kept?.who?.name ?? "" }, notes);
  }

  /** The seats this browser has sat on, the latest first. */
  async remembered(): Promise<Remembered[]> {
    const seats = await this.#db.seats.orderBy("opened_at").reverse().toArray();
    const rows = seats.map(async ({ seat, token, table, who }) => {
      const waiting = (await notesOf(this.#db, seat)).filter((note) => note.state !== "sent").length;
      return { seat, token, name: who?.name ?? "", table: table?.name ?? "", waiting };
    });
    return Promise.all(rows);
  }

  async #keep(sitting: Sitting, draft: Draft): Promise<void> {
    // By the table's clock, as well as this device knows it: how warm a cup was is told by when its note was written.
    const note = await writeDown(this.#db, draft, Math.round(this.#world.now() + this.ahead), this.fromPaper);
    if (sitting !== this.#sitting) return;
    this.#take([note]);
    void this.#loop.now();
  }

  async #round(): Promise<RoundEnd> {
    const sitting = this.#sitting;
    if (!sitting) return "stop";
    const out = await this.#send(sitting);
    const back = out.end === "done" || (out.end === "later" && out.reached) ? await this.#pull(sitting) : out;
    if (sitting !== this.#sitting) return "stop";
    const trouble = back.end === "done" ? out : back;
    this.stranger = trouble.end === "stranger";
    this.trouble = trouble.end === "done" ? "" : trouble.sentence;
    if (trouble.end !== "done") this.#untilWhole = 0;
    this.#tell();
    return ROUND_END[trouble.end];
  }

  async #send(sitting: Sitting): Promise<Outcome> {
    const { seat, server } = sitting;
    const waiting = (await notesOf(this.#db, seat)).filter((note) => note.state === "unsent");
    const notes = merge(waiting.map(onTheWire), []);
    const outcome = await sendOut(notes, (batch) => server.post(batch), {
      sent: (ids) => markSent(this.#db, ids),
      refused: (id, why) => markRefused(this.#db, id, why),
    });
    if (waiting.length > 0) await this.#readAgain(sitting);
    return outcome.end === "done" ? this.words.send(server) : outcome;
  }

  async #pull(sitting: Sitting): Promise<Outcome> {
    const { seat, server } = sitting;
    const whole = this.#untilWhole === 0;
    const asked = this.#world.now();
    const reply = await server.view(whole ? 0 : this.#pulled);
    if (reply.kind === "stranger") return { end: "stranger", sentence: reply.sentence };
    if (reply.kind !== "ok") return { end: "later", sentence: reply.sentence, reached: true };
    await takeIn(this.#db, seat, reply.value.notes, whole);
    if (sitting !== this.#sitting) return { end: "done" };
    this.#untilWhole = whole ? ROUNDS_TO_A_WHOLE_PULL : this.#untilWhole - 1;
    this.#pulled = reply.value.sequence;
    this.ahead = reply.value.now_ms - (asked + this.#world.now()) / 2;
    if (reply.value.notes.length > 0 || whole) await this.#readAgain(sitting);
    await this.#know(reply.value);
    await this.words.open(reply.value.seat.name);
    if (reply.value.words) await this.words.takeIn(reply.value.words);
    return { end: "done" };
  }

  /** Keep the view for the next time without a server; only if it changed, since each write is flushed. */
  async #know({ table, seat }: SeatView): Promise<void> {
    const news: Known = { table, seat };
    if (JSON.stringify(news) === JSON.stringify(this.known)) return;
    this.known = news;
    await this.#db.seats.update(seat.id, { table, who: seat });
  }

  /** Hear of notes written in other tabs, and of the network's return. */
  #watch(sitting: Sitting): void {
    const heard = liveQuery(() => notesOf(this.#db, sitting.seat)).subscribe({
      next: (notes) => {
        if (sitting === this.#sitting) this.#take(notes);
      },
      // A database that fails here fails at the next write too, where somebody is told.
      error: () => undefined,
    });
    this.#letGo.push(() => heard.unsubscribe());
    this.#letGo.push(this.#world.whenBack(() => this.#loop.start()));
  }

  async #readAgain(sitting: Sitting): Promise<void> {
    const notes = await notesOf(this.#db, sitting.seat);
    if (sitting === this.#sitting) this.#take(notes);
  }

  #take(notes: KeptNote[]): void {
    for (const note of notes) this.#notes.set(note.id, note);
    this.#answers = null;
    this.#tell();
  }

  #tell(): void {
    for (const listener of this.#listeners) listener(this);
  }

  #in(state: KeptNote["state"]): KeptNote[] {
    return [...this.#notes.values()].filter((note) => note.state === state);
  }

  async #askToPersist(): Promise<void> {
    this.persisted = await this.#world.persist().catch(() => null);
    this.#tell();
  }
}

/** A text as it can be kept: half a character becomes the sign for that, and nothing is no answer. */
function keepable(value: Value): Value {
  if (typeof value !== "string") return value;
  const whole = value.replace(/[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]|\0/g, "\uFFFD");
  return whole === "" ? null : whole;
}

function same(a: Value, b: Value): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}
