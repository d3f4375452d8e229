/* What is done with notes in the phone's database. Each act is one transaction, so tabs cannot cross each other. */
import type { Note, Stamp, Value } from "../wire/types";
import { type Device, type KeptNote, onTheWire, type PhoneDb } from "./db";
import { newDevice, newId } from "./ids";
import { sameBody } from "./merge";
import { nextStamp } from "./stamp";

// Marks what was typed in later: its time tells nothing about the cup. As src/cupwright/core/taste/note.py has it.
const FROM_PAPER = "paper-";
const LAST_COUNTABLE = Number.MAX_SAFE_INTEGER;

export interface Draft {
  seat: string;
  place: string;
  pass: string;
  field: string;
  value: Value;
}

/** Keep a new note, with a stamp above every stamp this device has seen. Done means: on storage. */
export function writeDown(db: PhoneDb, draft: Draft, now: number, fromPaper = false): Promise<KeptNote> {
  return db.transaction("rw", db.notes, db.device, async () => {
    const note: KeptNote = { ...draft, ...(await newMessage(db, now, fromPaper ? FROM_PAPER : "")), state: "unsent" };
    await db.notes.add(note);
    return note;
  });
}

/** Id, stamp and time of a new message, the stamp above all that this device has seen; inside a transaction. */
export async function newMessage(db: PhoneDb, now: number, marked = ""): Promise<Pick<Note, "id" | "stamp" | "written_at">> {
  const device = await thisDevice(db);
  const stamp = nextStamp(device.seen, marked + device.name);
  await db.device.put({ ...device, seen: stamp.counter });
  return { id: newId(now), stamp, written_at: Math.floor(Math.min(Math.max(now, 0), LAST_COUNTABLE)) };
}

export function notesOf(db: PhoneDb, seat: string): Promise<KeptNote[]> {
  return db.notes.where("seat").equals(seat).toArray();
}

/** The server has named these ids as safe. */
export function markSent(db: PhoneDb, ids: string[]): Promise<void> {
  return db.transaction("rw", db.notes, async () => {
    const kept = (await db.notes.bulkGet(ids)).filter((note) => note !== undefined);
    await db.notes.bulkPut(kept.map(asSent));
  });
}

/** The server said no to a note. One that another tab has brought through meanwhile stays sent. */
export function markRefused(db: PhoneDb, id: string, why: string): Promise<void> {
  return db.transaction("rw", db.notes, async () => {
    const note = await db.notes.get(id);
    if (note?.state === "unsent") await db.notes.put({ ...note, state: "refused", why });
  });
}

/** Give refused notes another try. */
export function tryRefusedAgain(db: PhoneDb, seat: string): Promise<void> {
  return db.transaction("rw", db.notes, async () => {
    const refused = (await notesOf(db, seat)).filter((note) => note.state === "refused");
    await db.notes.bulkPut(refused.map(asUnsent));
  });
}

/**
 * Take in what the server holds of a seat: notes of its other devices, and the proof that our own arrived.
 *
 * `whole`: these are all notes it holds. Then a note that counts as sent and is missing there goes out
 * again: the server may have been put back to an older copy.
 */
export function takeIn(db: PhoneDb, seat: string, held: Note[], whole: boolean): Promise<void> {
  return db.transaction("rw", db.notes, db.device, async () => {
    const ours = new Map((await notesOf(db, seat)).map((note) => [note.id, note]));
    const arrived = held.filter((note) => isNews(note, ours.get(note.id)));
    await db.notes.bulkPut(arrived.map((note) => asSent({ ...onTheWire({ ...note, seat, state: "sent" }), seat })));
    if (whole) await db.notes.bulkPut(missing(ours, held).map(asUnsent));
    await haveSeen(db, held);
  });
}

/** Whether the server's note changes anything here. One of the same id that says something else does not. */
function isNews(held: Note, ours: KeptNote | undefined): boolean {
  return !ours || (ours.state !== "sent" && sameBody(held, ours));
}

function missing(ours: Map<string, KeptNote>, held: Note[]): KeptNote[] {
  const there = new Set(held.map((note) => note.id));
  return [...ours.values()].filter((note) => note.state === "sent" && !there.has(note.id));
}

/** Raise this device's counter to the greatest that messages carry; call it inside a transaction. */
export async function haveSeen(db: PhoneDb, messages: { stamp: Stamp }[]): Promise<void> {
  const device = await thisDevice(db);
  const seen = messages.reduce((most, message) => Math.max(most, message.stamp.counter), device.seen);
  if (seen > device.seen) await db.device.put({ ...device, seen });
}

async function thisDevice(db: PhoneDb): Promise<Device> {
  return (await db.device.get("this")) ?? { key: "this", name: newDevice(), seen: 0 };
}

function asSent(note: Omit<KeptNote, "state">): KeptNote {
  const { why: _, ...rest } = note;
  return { ...rest, state: "sent" };
}

function asUnsent(note: KeptNote): KeptNote {
  const { why: _, ...rest } = note;
  return { ...rest, state: "unsent" };
}
