/*
 * Corrections: what a taster says that some words of theirs mean. Kept on this device first, like notes.
 * Which one holds is decided as in src/cupwright/core/taste/correction.py; tests/contract/correction_cases.json
 * is run against both.
 */
import { tokens } from "../words/reading/tokens";
import type { Correction } from "../wire/types";
import type { KeptCorrection, PhoneDb } from "./db";
import { haveSeen, newMessage } from "./kept_notes";
import { compareStamps, compareText } from "./stamp";

export { NOT_THAT } from "../words/reading/corrections";

/** What two spellings of a taster's name have in common. */
export function tasterKey(name: string): string {
  return name.trim().split(/\s+/).join(" ").normalize("NFKC").toLowerCase();
}

/** What two surfaces have in common when they are the same words: no case, accents or punctuation. */
export function surfaceWords(surface: string): string {
  return tokens(surface).map((token) => token.word).join(" ");
}

/** What holds for each of a taster's words (`surfaceWords`): a concept or NOT_THAT. */
export function standingCorrections(corrections: Iterable<Correction>): Map<string, string> {
  const held = new Map<string, Correction>();
  for (const correction of corrections) {
    const words = surfaceWords(correction.surface);
    const rival = held.get(words);
    if (!rival || compareCorrections(rival, correction) < 0) held.set(words, correction);
  }
  const standing = [...held].flatMap(([words, { concept }]) => (concept === null ? [] : [[words, concept] as const]));
  return new Map(standing);
}

function compareCorrections(a: Correction, b: Correction): number {
  return compareStamps(a.stamp, b.stamp) || compareText(a.id, b.id);
}

/** The correction without what only this device knows. */
export function correctionOnTheWire(kept: KeptCorrection): Correction {
  const { id, surface, concept, stamp, written_at } = kept;
  return { id, surface, concept, stamp, written_at };
}

export function correctionsOf(db: PhoneDb, taster: string): Promise<KeptCorrection[]> {
  return db.corrections.where("taster").equals(taster).toArray();
}

/** Keep a new correction. Done means: on storage. */
export function keepCorrection(
  db: PhoneDb,
  draft: Pick<KeptCorrection, "taster" | "surface" | "concept">,
  now: number,
): Promise<void> {
  return db.transaction("rw", db.corrections, db.device, async () => {
    await db.corrections.add({ ...draft, ...(await newMessage(db, now)), state: "unsent" });
  });
}

/** The server has named these ids as safe. */
export function markCorrectionsSent(db: PhoneDb, ids: string[]): Promise<void> {
  return db.transaction("rw", db.corrections, async () => {
    const kept = (await db.corrections.bulkGet(ids)).filter((one) => one !== undefined);
    await db.corrections.bulkPut(kept.map((one) => inState(one, "sent")));
  });
}

/** The server said no to one. */
export function markCorrectionRefused(db: PhoneDb, id: string, why: string): Promise<void> {
  return db.transaction("rw", db.corrections, async () => {
    const one = await db.corrections.get(id);
    if (one?.state === "unsent") await db.corrections.put({ ...one, state: "refused", why });
  });
}

/** Take in all that the server holds of a taster; what counts as sent and is missing there goes out again. */
export function takeInCorrections(db: PhoneDb, taster: string, held: Correction[]): Promise<void> {
  return db.transaction("rw", db.corrections, db.device, async () => {
    const there = new Set(held.map((one) => one.id));
    const ours = await correctionsOf(db, taster);
    const safe = new Set(ours.filter((one) => one.state === "sent").map((one) => one.id));
    const news = held.filter((one) => !safe.has(one.id)).map((one) => inState({ ...one, taster, state: "sent" }, "sent"));
    const lost = ours.filter((one) => one.state === "sent" && !there.has(one.id));
    await db.corrections.bulkPut([...news, ...lost.map((one) => inState(one, "unsent"))]);
    await haveSeen(db, held);
  });
}

function inState(kept: KeptCorrection, state: "sent" | "unsent"): KeptCorrection {
  return { ...correctionOnTheWire(kept), taster: kept.taster, state };
}
