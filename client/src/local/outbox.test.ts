import { expect, test } from "vitest";
import type { Kept, Note } from "../wire/types";
import { LARGEST_BATCH, type Ledger, sendOut } from "./outbox";
import type { Reply } from "./seat_server";

function some(count: number): Note[] {
  return Array.from({ length: count }, (_, i) => ({
    id: `n${i}`,
    place: "274",
    pass: "flavour",
    field: "words",
    value: "plum",
    stamp: { counter: i + 1, device: "a" },
    written_at: 0,
  }));
}

class Book implements Ledger {
  safe: string[] = [];
  no: Record<string, string> = {};
  async sent(ids: string[]) {
    this.safe.push(...ids);
  }
  async refused(id: string, why: string) {
    this.no[id] = why;
  }
}

const ids = (notes: Note[]) => notes.map((note) => note.id);
const ok = (kept: string[]): Reply<Kept> => ({ kind: "ok", value: { kept, sequence: 0 } });
const fault: Reply<Kept> = { kind: "later", sentence: "Broken.", fault: true };

test("nothing unsent asks nothing of the server", async () => {
  const asked: Note[][] = [];

  expect(await sendOut([], async (batch) => (asked.push(batch), ok([])), new Book())).toEqual({ end: "done" });
  expect(asked).toEqual([]);
});

test("notes go out in order, in batches of at most 200", async () => {
  const asked: string[][] = [];
  const book = new Book();

  const post = async (batch: Note[]) => (asked.push(ids(batch)), ok(ids(batch)));
  expect(await sendOut(some(450), post, book)).toEqual({ end: "done" });

  expect(LARGEST_BATCH).toBe(200);
  expect(asked.map((batch) => batch.length)).toEqual([200, 200, 50]);
  expect(asked.flat()).toEqual(ids(some(450)));
  expect(book.safe).toEqual(ids(some(450)));
});

test("only ids that the server has named count as sent", async () => {
  const book = new Book();

  const outcome = await sendOut(some(3), async () => ok(["n2", "n0", "somebody-else"]), book);

  expect(book.safe).toEqual(["n0", "n2"]);
  expect(outcome).toMatchObject({ end: "later", reached: true });
});

test("one refused note in 200 costs only itself, whichever it is", async () => {
  for (const bad of ["n0", "n1", "n99", "n100", "n199"]) {
    const book = new Book();
    let requests = 0;
    const post = async (batch: Note[]): Promise<Reply<Kept>> => {
      requests++;
      return ids(batch).includes(bad) ? { kind: "refused", sentence: "No such place." } : ok(ids(batch));
    };

    expect(await sendOut(some(200), post, book)).toEqual({ end: "done" });

    expect(book.no).toEqual({ [bad]: "No such place." });
    expect([...book.safe].sort()).toEqual(ids(some(200)).filter((id) => id !== bad).sort());
    expect(requests).toBeLessThanOrEqual(17);
  }
});

test("if all are refused, all are told so and none is lost", async () => {
  const book = new Book();

  await sendOut(some(5), async () => ({ kind: "refused", sentence: "The table is closed." }), book);

  expect(Object.keys(book.no).sort()).toEqual(ids(some(5)));
  expect(book.safe).toEqual([]);
});

test("a network that fails ends the round at once and decides nothing", async () => {
  let requests = 0;
  const book = new Book();

  const post = async (): Promise<Reply<Kept>> => {
    requests++;
    return { kind: "later", sentence: "No network.", fault: false };
  };
  const outcome = await sendOut(some(450), post, book);

  expect(outcome).toEqual({ end: "later", sentence: "No network.", reached: false });
  expect(requests).toBe(1);
  expect([book.safe, book.no]).toEqual([[], {}]);
});

test("what was safe before the network failed stays safe", async () => {
  const book = new Book();
  let requests = 0;
  const post = async (batch: Note[]): Promise<Reply<Kept>> =>
    ++requests === 1 ? ok(ids(batch)) : { kind: "later", sentence: "No network.", fault: false };

  await sendOut(some(300), post, book);

  expect(book.safe).toEqual(ids(some(200)));
});

test("a note over which the server fails does not hold up the others, nor do two side by side", async () => {
  for (const poison of [["n0"], ["n0", "n1"], ["n198", "n199"], ["n7", "n8", "n150"]]) {
    const book = new Book();
    const post = async (batch: Note[]) => (batch.some((note) => poison.includes(note.id)) ? fault : ok(ids(batch)));

    const outcome = await sendOut(some(200), post, book);

    expect(outcome).toEqual({ end: "later", sentence: "Broken.", reached: true });
    expect([...book.safe].sort()).toEqual(ids(some(200)).filter((id) => !poison.includes(id)).sort());
    expect(book.no).toEqual({});
  }
});

test("a server that fails over everything is left alone after two dozen tries", async () => {
  let requests = 0;

  const outcome = await sendOut(some(200), async () => (requests++, fault), new Book());

  expect(outcome).toEqual({ end: "later", sentence: "Broken.", reached: true });
  expect(requests).toBe(24);
});

test("a server that no longer knows the seat ends the round", async () => {
  let requests = 0;
  const book = new Book();

  const outcome = await sendOut(
    some(450),
    async () => (requests++, { kind: "stranger", sentence: "This device holds no seat." }),
    book,
  );

  expect(outcome).toEqual({ end: "stranger", sentence: "This device holds no seat." });
  expect(requests).toBe(1);
  expect([book.safe, book.no]).toEqual([[], {}]);
});
