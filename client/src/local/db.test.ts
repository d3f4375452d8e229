import Dexie from "dexie";
import { afterEach, expect, test, vi } from "vitest";
import { PhoneDb } from "./db";
import { markRefused, markSent, takeIn, tryRefusedAgain, writeDown } from "./kept_notes";

const DRAFT = { seat: "s", place: "274", pass: "flavour", field: "words", value: "plum" };
let names = 0;

function freshName(): string {
  return `db-test-${++names}`;
}

/** What every writing transaction asked of the browser while `act` ran. */
async function durabilities(act: () => Promise<unknown>): Promise<(string | undefined)[]> {
  const asked: (string | undefined)[] = [];
  const { transaction } = IDBDatabase.prototype;
  const spy = vi.spyOn(IDBDatabase.prototype, "transaction");
  spy.mockImplementation(function (this: IDBDatabase, stores, mode, options) {
    if (mode === "readwrite") asked.push(options?.durability);
    return transaction.call(this, stores, mode, options);
  });
  await act();
  return asked;
}

afterEach(() => vi.restoreAllMocks());

test("every write of the phone's database asks for strict durability", async () => {
  const db = new PhoneDb(freshName());

  const asked = await durabilities(async () => {
    const note = await writeDown(db, DRAFT, 5);
    await markSent(db, [note.id]);
    await markRefused(db, note.id, "No.");
    await tryRefusedAgain(db, "s");
    await takeIn(db, "s", [], true);
    await db.seats.put({ seat: "s", token: "t", opened_at: 0, table: null, who: null });
  });

  expect(asked.length).toBeGreaterThanOrEqual(6);
  expect(new Set(asked)).toEqual(new Set(["strict"]));
});

test("the check above would notice a database that was not told so", async () => {
  const lax = new Dexie(freshName());
  lax.version(1).stores({ notes: "id" });

  const asked = await durabilities(() => lax.table("notes").put({ id: "n" }));

  expect(asked).toHaveLength(1);
  expect(asked).not.toContain("strict");
});

test("a note that fails to be kept raises no counter", async () => {
  const db = new PhoneDb(freshName());
  await writeDown(db, DRAFT, 5);

  const unclonable = { ...DRAFT, value: (() => undefined) as unknown as string };
  await expect(writeDown(db, unclonable, 5)).rejects.toThrow();

  expect((await db.device.get("this"))?.seen).toBe(1);
  expect(await db.notes.count()).toBe(1);
});

test("two tabs that write in one moment never give one stamp twice", async () => {
  const name = freshName();
  const tabs = [new PhoneDb(name), new PhoneDb(name), new PhoneDb(name)];

  const notes = await Promise.all(Array.from({ length: 60 }, (_, i) => writeDown(tabs[i % 3]!, DRAFT, 5)));

  expect(new Set(notes.map((note) => note.stamp.device)).size).toBe(1);
  expect(notes.map((note) => note.stamp.counter).sort((a, b) => a - b)).toEqual(Array.from({ length: 60 }, (_, i) => i + 1));
});

test("a note is written above every stamp that came from the server", async () => {
  const db = new PhoneDb(freshName());
  const { seat: _, ...asked } = DRAFT;
  await takeIn(db, "s", [{ ...asked, id: "n", stamp: { counter: 41, device: "zz" }, written_at: 0 }], false);

  expect((await writeDown(db, DRAFT, 5)).stamp.counter).toBe(42);
});

test("a clock that shows nonsense still gives a time that can be sent", async () => {
  const db = new PhoneDb(freshName());
  for (const [now, kept] of [
    [-5, 0],
    [1.5, 1],
    [Number.MAX_VALUE, Number.MAX_SAFE_INTEGER],
  ] as const) {
    expect((await writeDown(db, DRAFT, now)).written_at).toBe(kept);
  }
});

test("a refusal does not undo what another tab has brought through", async () => {
  const db = new PhoneDb(freshName());
  const note = await writeDown(db, DRAFT, 5);

  await markSent(db, [note.id]);
  await markRefused(db, note.id, "No.");

  expect((await db.notes.get(note.id))?.state).toBe("sent");
});

test("ids that are not here are passed over", async () => {
  const db = new PhoneDb(freshName());

  await markSent(db, ["nobody"]);
  await markRefused(db, "nobody", "No.");

  expect(await db.notes.count()).toBe(0);
});
