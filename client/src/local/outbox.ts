/*
 * The outbox: unsent notes (or other messages with an id) go out in batches; none leaves it before the server
 * has named its id as safe.
 */
import { local } from "../words/local";
import type { Reply } from "./seat_server";

export const LARGEST_BATCH = 200;
// Halving a batch of 200 down to one note takes 8 failures in a row; two such notes side by side some more.
const MOST_FAULTS = 24;

/** What can be sent: known by its id, so that sending again does no harm. */
export interface Message {
  id: string;
}

/** What became of a note; called as soon as it is known, so that a break in the middle forgets nothing. */
export interface Ledger {
  sent(ids: string[]): Promise<void>;
  refused(id: string, why: string): Promise<void>;
}

/** done: every note was decided. later: try again. stranger: stop until somebody joins again. */
export type Outcome =
  | { end: "done" }
  | { end: "stranger"; sentence: string }
  | { end: "later"; sentence: string; reached: boolean };

/**
 * Send notes once. A batch that is refused, or over which the server fails, is halved until the note that
 * caused it stands alone, so that one bad note never holds up the others.
 */
export async function sendOut<Sent extends Message>(
  notes: Sent[],
  post: (batch: Sent[]) => Promise<Reply<{ kept: string[] }>>,
  ledger: Ledger,
): Promise<Outcome> {
  const queue = batches(notes);
  let faults = 0;
  let left = "";
  for (let batch = queue.shift(); batch; batch = queue.shift()) {
    const reply = await post(batch);
    if (reply.kind === "ok") {
      faults = 0;
      const safe = named(batch, reply.value.kept);
      await ledger.sent(safe);
      if (safe.length < batch.length) left = local.notAllKept;
    } else if (reply.kind === "stranger") {
      return { end: "stranger", sentence: reply.sentence };
    } else if (reply.kind === "later" && (!reply.fault || ++faults >= MOST_FAULTS)) {
      return { end: "later", sentence: reply.sentence, reached: reply.fault };
    } else if (batch.length > 1) {
      queue.unshift(...halves(batch));
    } else if (reply.kind === "refused") {
      await ledger.refused(batch[0]!.id, reply.sentence);
    } else {
      left = reply.sentence;
    }
  }
  return left ? { end: "later", sentence: left, reached: true } : { end: "done" };
}

function batches<Sent>(notes: Sent[]): Sent[][] {
  const cut: Sent[][] = [];
  for (let from = 0; from < notes.length; from += LARGEST_BATCH) cut.push(notes.slice(from, from + LARGEST_BATCH));
  return cut;
}

function halves<Sent>(batch: Sent[]): [Sent[], Sent[]] {
  const middle = Math.ceil(batch.length / 2);
  return [batch.slice(0, middle), batch.slice(middle)];
}

/** The ids of the batch that the server named; what it names beyond that is none of our business. */
function named(batch: Message[], kept: string[]): string[] {
  const safe = new Set(kept);
  return batch.map((note) => note.id).filter((id) => safe.has(id));
}
