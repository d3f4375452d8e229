import { describe, expect, test } from "vitest";
import type { Note } from "../wire/types";
import { question } from "./merge";
import { type Outcome, sendOut } from "./outbox";
import { complaints, REAL, run, type Rules } from "./simulation.testing";

const SEEDS = Number(import.meta.env["VITE_SIMULATION_SEEDS"] ?? 10_000);
const CONTROLS = 50;

/** How many of the first `seeds` runs under these rules break a promise. */
async function broken(rules: Rules, seeds: number): Promise<number> {
  let found = 0;
  for (let seed = 0; seed < seeds; seed++) if (complaints(await run(seed, rules)).length > 0) found++;
  return found;
}

test(`no note is lost, doubled, changed or misplaced in ${SEEDS} runs on a bad network`, { timeout: 600_000 }, async () => {
  for (let seed = 0; seed < SEEDS; seed++) {
    expect(complaints(await run(seed)), `seed ${seed}`).toEqual([]);
  }
});

test("a seed gives the same run each time, and another seed another", async () => {
  expect(await run(7)).toEqual(await run(7));
  expect((await run(7)).log).not.toEqual((await run(8)).log);
});

test("the runs do meet what they are about", async () => {
  const runs = await Promise.all(Array.from({ length: 50 }, (_, seed) => run(seed)));
  const logs = runs.flatMap((one) => one.log);
  const settled = runs.flatMap((one) => Object.values(one.latest)).filter((id) => id !== "");

  expect(logs.filter((line) => line.startsWith("restart")).length).toBeGreaterThan(20);
  expect(logs.filter((line) => line.endsWith("later")).length).toBeGreaterThan(100);
  expect(logs.filter((line) => line.endsWith("nowhere")).length).toBeGreaterThan(100);
  expect(settled.length).toBeGreaterThan(120);
});

describe("planted faults are found out:", () => {
  test("an outbox that clears itself on sending", async () => {
    const clearing: typeof sendOut = async (notes, post, ledger) => {
      await ledger.sent(notes.map((note) => note.id));
      return sendOut(notes, post, ledger);
    };

    expect(await broken({ ...REAL, send: clearing }, CONTROLS)).toBeGreaterThan(CONTROLS * 0.9);
  });

  test("an outbox that takes any answer of the server for yes", async () => {
    const trusting: typeof sendOut = (notes, post, ledger) =>
      sendOut(
        notes,
        async (batch) => {
          const reply = await post(batch);
          return reply.kind === "ok" ? { ...reply, value: { ...reply.value, kept: batch.map((note) => note.id) } } : reply;
        },
        // forgets what it was told about a note that stands alone
        { sent: (ids) => ledger.sent(ids), refused: (id) => ledger.sent([id]) },
      );

    expect(await broken({ ...REAL, send: trusting }, CONTROLS)).toBeGreaterThan(CONTROLS * 0.9);
  });

  test("an outbox in which one refused note blocks the rest", async () => {
    const blocked: typeof sendOut = async (notes, post, ledger): Promise<Outcome> => {
      const reply = await post(notes);
      if (reply.kind === "ok") await ledger.sent(reply.value.kept);
      return { end: "done" };
    };

    expect(await broken({ ...REAL, send: blocked }, CONTROLS)).toBeGreaterThan(CONTROLS * 0.9);
  });

  // A random clock is right by chance in about one run of ten: few places are corrected often in a run.
  test("a merge that goes by the clock", async () => {
    const byClock = (notes: Iterable<Note>): Map<string, Note> => {
      const held = new Map<string, Note>();
      for (const note of notes) {
        const asked = question(note.place, note.pass, note.field);
        const rival = held.get(asked);
        if (!rival || rival.written_at < note.written_at) held.set(asked, note);
      }
      return held;
    };

    expect(await broken({ ...REAL, hold: byClock }, CONTROLS)).toBeGreaterThan(CONTROLS * 0.7);
  });
});
