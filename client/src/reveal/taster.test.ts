// @vitest-environment happy-dom
import { afterEach, beforeEach, expect, test } from "vitest";
import { PhoneDb } from "../local/db";
import { Notebook } from "../local/notebook";
import { commitmentOf } from "../local/seal";
import { aTable, FakeServer, json, problem, SEAT, TOKEN } from "../local/server.testing";
import { Sitting } from "../taste/sitting.svelte";
import type { CoffeeComparison, Comparison, Field, OpenedKey, Pass, TasterWords } from "../wire/types";
import { TasterReveal } from "./taster.svelte";

const KEY: OpenedKey = { pairs: [["274", "a"], ["591", "b"]], nonce: "00ff" };
const BLUE = { l: 0.5, a: 0, b: -0.1 };
const colour: Pass = {
  id: "colour",
  title: "Colour",
  ask: "",
  moment: "hot",
  caution: "",
  fields: [{ id: "picked", kind: "colour", label: "" } as Field],
};
const words = (seat: string): TasterWords => ({ seat, name: seat, written: [], late: [], published: null, others: null }) as TasterWords;
const coffee = (id: string, place: string, ...seats: string[]) =>
  ({ coffee: { id }, places: [place], published: { text: "", words: [], unread: [] }, tasters: seats.map(words) }) as unknown as CoffeeComparison;
const OPENED: Comparison = {
  table_id: "table-1",
  commitment: commitmentOf(KEY),
  key: KEY,
  coffees: [coffee("a", "274", SEAT.id, "other"), coffee("b", "591", "other")],
};

let server: FakeServer;
let shelf: Map<string, string>;
let opened: Sitting[];
let database: string;
let names = 0;

beforeEach(() => {
  server = new FakeServer();
  server.table = aTable({
    step: "reveal",
    commitment: commitmentOf(KEY),
    sheet: { name: "s", version: 1, title: "S", liking: null, passes: [colour] },
  });
  server.trouble = (path) => (path === "/api/seat/reveal" ? json(200, OPENED) : null);
  shelf = new Map();
  opened = [];
  database = `reveal-test-${++names}`;
});
afterEach(() => opened.forEach((sitting) => sitting.close()));

function notebook(): Notebook {
  const world = { fetch: server.fetch, schedule: () => () => undefined, whenBack: () => () => undefined };
  return new Notebook(world, new PhoneDb(database));
}

async function revealing(): Promise<{ sitting: Sitting; reveal: TasterReveal }> {
  const first = notebook();
  await first.open(SEAT.id, TOKEN, { table: server.table, seat: SEAT });
  first.close();
  const store = { getItem: (key: string) => shelf.get(key) ?? null, setItem: (key: string, text: string) => void shelf.set(key, text) };
  const sitting = new Sitting(notebook(), store);
  opened.push(sitting);
  await sitting.open();
  return { sitting, reveal: new TasterReveal(sitting, store) };
}

test("the own words stand apart from the others', and where nothing was written that is no fault", async () => {
  const { reveal } = await revealing();

  await reveal.load();

  expect(reveal.coffees.map((seen) => seen.mine?.seat ?? null)).toEqual([SEAT.id, null]);
  expect(reveal.coffees.map((seen) => seen.others.map((other) => other.seat))).toEqual([["other"], ["other"]]);
});

test("the picked colour comes with the coffee it was picked for", async () => {
  server.notes = [
    { id: "n1", place: "591", pass: "colour", field: "picked", value: BLUE, stamp: { counter: 1, device: "d" }, written_at: 0 },
  ];
  const { sitting, reveal } = await revealing();
  await sitting.notebook.sync();

  await reveal.load();

  expect(reveal.coffees.map((seen) => seen.colours)).toEqual([[], [BLUE]]);
});

test("what was shown once opens again with the server away", async () => {
  await (await revealing()).reveal.load();
  server.down = true;

  const { reveal } = await revealing();
  await reveal.load();

  expect(reveal.comparison).toEqual(OPENED);
  expect(reveal.trouble).toBe("");
});

test("before it can be shown, the reason stands there, and the next try may bring it", async () => {
  server.trouble = (path) => (path === "/api/seat/reveal" ? problem(409, "The key is not open yet.") : null);
  const { reveal } = await revealing();

  await reveal.load();
  expect([reveal.comparison, reveal.trouble]).toEqual([null, "The key is not open yet."]);

  server.trouble = (path) => (path === "/api/seat/reveal" ? json(200, OPENED) : null);
  await reveal.load();
  expect([reveal.comparison, reveal.trouble]).toEqual([OPENED, ""]);
});

test("a key that was changed after the seal is seen on the phone itself", async () => {
  const { reveal } = await revealing();
  expect(reveal.sealMatches).toBeNull();
  await reveal.load();
  expect(reveal.sealMatches).toBe(true);

  reveal.comparison = { ...OPENED, key: { ...KEY, pairs: [["274", "b"], ["591", "a"]] } };

  expect(reveal.sealMatches).toBe(false);
});

test("a taster hears whether the own notes pick out the coffees, if anything can be said", async () => {
  const { reveal } = await revealing();
  await reveal.load();
  expect(reveal.fit).toBeNull();

  const said = { sentence: "Your notes …", coffees: 2, worse: 1, ways: 2, p_value: 0.5, exact: true };
  const nothing = { seat: SEAT.id, published: null, others: null };
  reveal.comparison = { ...OPENED, fits: [{ ...nothing, seat: "other", published: said }, nothing] };
  expect(reveal.fit).toBeNull();

  reveal.comparison = { ...OPENED, fits: [{ ...nothing, others: said }] };
  expect(reveal.fit?.others).toEqual(said);
});

test("what the own scores say comes along, and without it nothing is missing", async () => {
  const said = { block: "paragraph", text: "You set these coffees about where the others did.", lead: "Liking" };
  const own = { blocks: [said] };
  const { reveal } = await revealing();

  await reveal.load();
  expect([reveal.own, reveal.trouble]).toEqual([[], ""]);

  const elsewhere = server.trouble;
  server.trouble = (path, init) => (path === "/api/seat/own" ? json(200, own) : (elsewhere?.(path, init) ?? null));
  await reveal.load();
  expect(reveal.own).toEqual(own.blocks);
});
