/* What this device knows of a taster's words: the installation's own ones, and the taster's corrections. */
import { liveQuery } from "dexie";
import type { Correction, OwnWord, SeatWords } from "../wire/types";
import {
  correctionOnTheWire,
  correctionsOf,
  keepCorrection,
  markCorrectionRefused,
  markCorrectionsSent,
  takeInCorrections,
  tasterKey,
} from "./corrections";
import type { KeptCorrection, PhoneDb } from "./db";
import { type Outcome, sendOut } from "./outbox";
import type { SeatServer } from "./seat_server";

export class WordBook {
  /** The installation's own words, as last seen. */
  own: readonly OwnWord[] = [];
  #db: PhoneDb;
  #tell: () => void;
  #taster: string | null = null;
  #corrections: readonly KeptCorrection[] = [];
  #letGo: () => void = () => undefined;

  constructor(db: PhoneDb, tell: () => void) {
    this.#db = db;
    this.#tell = tell;
  }

  /** Read what is here of a taster, and follow it, whichever tab changes it. Nothing to do if it is open. */
  async open(name: string): Promise<void> {
    const taster = tasterKey(name);
    if (taster === this.#taster) return;
    this.close();
    this.#taster = taster;
    const [corrections, own] = await Promise.all([correctionsOf(this.#db, taster), this.#db.words.get("own")]);
    if (taster !== this.#taster) return;
    this.own = own?.words ?? [];
    this.#take(taster, corrections);
    const heard = liveQuery(() => correctionsOf(this.#db, taster)).subscribe({
      next: (kept) => this.#take(taster, kept),
      // A database that fails here fails at the next correction too, where somebody is told.
      error: () => undefined,
    });
    this.#letGo = () => heard.unsubscribe();
  }

  close(): void {
    this.#letGo();
    this.#letGo = () => undefined;
    this.#taster = null;
    this.#corrections = [];
    this.own = [];
  }

  /** Every correction of the taster that this device knows. */
  get corrections(): readonly Correction[] {
    return this.#corrections;
  }

  /** Say what words mean: a concept, NOT_THAT, or null for what the program reads. Settled when on storage. */
  async correct(surface: string, concept: string | null, now: number): Promise<void> {
    const taster = this.#taster;
    if (taster === null) throw new Error("open() comes before correct()");
    await keepCorrection(this.#db, { taster, surface, concept }, now);
    await this.#readAgain();
  }

  /** Send what the server has not taken. */
  async send(server: SeatServer): Promise<Outcome> {
    const waiting = this.#corrections.filter((one) => one.state === "unsent").map(correctionOnTheWire);
    const outcome = await sendOut(waiting, (batch) => server.correct(batch), {
      sent: (ids) => markCorrectionsSent(this.#db, ids),
      refused: (id, why) => markCorrectionRefused(this.#db, id, why),
    });
    if (waiting.length > 0) await this.#readAgain();
    return outcome;
  }

  /** Take in what the server holds. */
  async takeIn({ own, corrections }: SeatWords): Promise<void> {
    const taster = this.#taster;
    if (taster === null) return;
    if (JSON.stringify(own) !== JSON.stringify(this.own)) {
      await this.#db.words.put({ key: "own", words: own });
      this.own = own;
    }
    await takeInCorrections(this.#db, taster, corrections);
    await this.#readAgain();
  }

  async #readAgain(): Promise<void> {
    const taster = this.#taster;
    if (taster !== null) this.#take(taster, await correctionsOf(this.#db, taster));
  }

  #take(taster: string, corrections: readonly KeptCorrection[]): void {
    if (taster !== this.#taster) return;
    this.#corrections = corrections;
    this.#tell();
  }
}
