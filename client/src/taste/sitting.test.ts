import { afterEach, beforeEach, expect, test } from "vitest";
import { PhoneDb } from "../local/db";
import { Notebook } from "../local/notebook";
import { aTable, FakeServer, SEAT, TOKEN } from "../local/server.testing";
import type { Field, Pass, Sheet } from "../wire/types";
import { Sitting } from "./sitting.svelte";

const pass = (id: string): Pass => ({
  id,
  title: id,
  ask: "",
  moment: "hot",
  caution: "",
  fields: [{ id: "words", kind: "words", label: "" } as Field],
});
const sheet: Sheet = { name: "s", version: 1, title: "S", liking: null, passes: [pass("aroma"), pass("flavour")] };

const ALONE = { person: 0, done: false };

let server: FakeServer;
let shelf: Map<string, string>;
let opened: Sitting[];
let names = 0;
let database: string;

beforeEach(() => {
  server = new FakeServer();
  server.table = aTable({ sheet });
  shelf = new Map();
  opened = [];
  database = `sitting-test-${++names}`;
});
afterEach(() => opened.forEach((sitting) => sitting.close()));

function notebook(now: () => number = () => 0): Notebook {
  return new Notebook(
    {
      fetch: server.fetch,
      now,
      random: () => 1,
      schedule: () => () => undefined,
      visible: () => true,
      whenBack: () => () => undefined,
      persist: async () => null,
    },
    new PhoneDb(database),
  );
}

async function sitting(clock: () => number = () => 0): Promise<Sitting> {
  const made = new Sitting(
    notebook(clock),
    { getItem: (key) => shelf.get(key) ?? null, setItem: (key, value) => void shelf.set(key, value) },
    clock,
  );
  opened.push(made);
  await made.open();
  return made;
}

async function joined(): Promise<void> {
  const first = notebook();
  await first.open(SEAT.id, TOKEN, { table: server.table, seat: SEAT });
  first.close();
}

test("a device that never sat anywhere says so", async () => {
  expect((await sitting()).found).toBe("none");
});

test("the taster is asked in the seat's own order and ends after the last cup of the last pass", async () => {
  await joined();
  const here = await sitting();
  const seen: string[] = [];

  for (let i = 0; i < 4; i += 1) {
    seen.push(`${here.pass?.id} ${here.place}`);
    here.go(here.next);
  }

  expect(seen).toEqual(["aroma 591", "aroma 274", "flavour 591", "flavour 274"]);
  expect(here.next).toBeNull();
});

test("a reload brings the taster back to the same cup and what was written, with the server away", async () => {
  await joined();
  const first = await sitting();
  first.go(first.standingAt("274"));
  await first.write("274", "aroma", "words", "plum");
  first.close();
  server.down = true;

  const second = await sitting();

  expect(second.found).toBe("here");
  expect(second.place).toBe("274");
  expect(second.answer("aroma", "words")).toBe("plum");
  expect(second.notebook.unsent).toBe(1);
});

test("an answer belongs to the cup it was written for, even if the taster has moved on", async () => {
  await joined();
  const here = await sitting();

  const late = here.write("591", "aroma", "words", "fig");
  here.go(here.next);
  await late;

  expect(here.answer("aroma", "words")).toBeNull();
  expect(here.answer("aroma", "words", "591")).toBe("fig");
});

test("the act at the table is told by the server's time, not by the phone's", async () => {
  const cue = { kind: "break" as const, bowl: 0, place: "274", number: 1, earliest: 0, latest: 0, ends: 0, ...ALONE };
  server.table = aTable({ sheet, cues: [{ ...cue, due: server.now - 1 }, { ...cue, kind: "skim", due: server.now + 5_000 }] });
  await joined();
  const here = await sitting(() => 0);
  await here.notebook.sync();

  here.beat();

  expect(here.due).toMatchObject({ cue: { kind: "skim" }, isNow: false });
});

test("a phone that joins late shows the same second as one that was there, though their clocks are minutes apart", async () => {
  const cue = { kind: "break" as const, bowl: 0, place: "274", number: 1, earliest: 0, latest: server.now + 60_000, ends: 0, ...ALONE };
  server.table = aTable({ sheet, cues: [{ ...cue, due: server.now - 2_000 }] });
  await joined();
  const early = await sitting(() => server.now - 180_000);
  const late = await sitting(() => server.now + 300_000);

  for (const phone of [early, late]) {
    await phone.notebook.sync();
    phone.beat();
  }

  expect(late.now).toBe(early.now);
  expect(late.now).toBe(server.now);
  expect(late.due).toEqual(early.due);
});

test("an act that has come due stays in sight while it may still be done", async () => {
  const due = server.now - 30_000;
  const cue = { kind: "break" as const, bowl: 0, place: "274", number: 1, due, earliest: due - 60_000, latest: due + 60_000, ends: due, ...ALONE };
  server.table = aTable({ sheet, cues: [cue, { ...cue, bowl: 1, place: "591", due: server.now + 5_000, latest: server.now + 65_000 }] });
  await joined();
  const here = await sitting(() => 0);
  await here.notebook.sync();

  here.beat();

  expect(here.due).toMatchObject({ cue: { kind: "break", place: "274" }, isNow: true });
});

test("reads by the house's own words and by what the taster has said, and learns at once", async () => {
  server.own = [{ concept: "quince_soda", label: "quince soda", parents: ["quince"], forms: ["zonk fizz"] }];
  await joined();
  const seat = await sitting();
  await seat.prepare();
  await seat.notebook.sync();

  const read = (text: string) => seat.reader?.chips(text, "aroma").map((chip) => chip.concept);
  expect(read("zonk fizz, zonky")).toEqual(["quince_soda", null]);

  await seat.correct("Zonky", "earth");
  expect(read("zonky")).toEqual(["earth"]);
  const before = seat.reader;
  expect(seat.reader).toBe(before);
});

test("a first taste stays in sight while it may still be taken, with or without the server", async () => {
  const due = server.now - 30_000;
  const cue = { kind: "taste" as const, bowl: 0, place: "274", number: 1, due, earliest: due, latest: due + 60_000, ends: due + 60_000, ...ALONE };
  server.table = aTable({ sheet, cues: [cue] });
  await joined();
  let clock = server.now;
  const here = await sitting(() => clock);
  await here.notebook.sync();
  server.down = true;

  here.beat();
  expect(here.due).toMatchObject({ cue: { kind: "taste", place: "274" }, isNow: true });

  clock += 40_000;
  here.beat();
  expect(here.due).toBeNull();
});
