import { afterEach, beforeEach, expect, test } from "vitest";
import { Bench, until } from "../../local/phone.testing";
import { aTable, SEAT, TOKEN } from "../../local/server.testing";
import type { DeskSeat, Field, Joined, Pass, TableView } from "../../wire/types";
import { PaperState } from "./paper.svelte";

const points = { id: "worth", kind: "points", label: "Worth", hint: "", low: 6, high: 10, step: 0.25 } as Field;
const line = { id: "line", kind: "line", label: "Weight", hint: "", low: 0, high: 15, step: 0.5 } as Field;
const rank = { id: "rank", kind: "rank", label: "Order", hint: "", ties: true } as Field;
const pass = (id: string, over: Pass["over"], ...fields: Field[]) => ({ id, title: id, ask: "", moment: "hot", caution: "", over, fields }) as Pass;
const sheet = { name: "s", version: 1, title: "S", liking: null, passes: [pass("one", "places", points, line), pass("all", "table", rank)] };

let bench: Bench;
let asked: string[];
let clock = 0;
const phone = () => bench.phone({ now: () => ++clock });
beforeEach(() => {
  bench = new Bench();
  bench.server.table = aTable({ sheet });
  asked = [];
});
afterEach(() => bench.close());

function table(changes: Partial<TableView> = {}, taken = false): TableView {
  const seats: DeskSeat[] = [{ ...SEAT, taken }];
  return { ...aTable({ sheet }), seats, bowls: [{ place: "591", number: 1 }], ...changes } as unknown as TableView;
}

async function typing(view = table()): Promise<PaperState> {
  const state = new PaperState(
    {
      table: async () => view,
      takeSeat: async (_, name): Promise<Joined> => {
        asked.push(name);
        return { token: TOKEN, seat: SEAT, table: bench.server.table };
      },
    },
    "table-1",
    phone(),
  );
  await state.load();
  return state;
}

test("a free seat is taken on this machine and its cells become notes in the order of the paper", async () => {
  const state = await typing();
  await state.open(state.seats[0]!);
  expect(asked).toEqual(["Anna"]);
  expect(state.stops).toEqual(["591", "274"]);

  expect(await state.write("591", points, "7,25")).toBe("");
  expect(await state.write("591", line, "40")).toBe("");

  await until(() => bench.server.notes.length === 2);
  const devices = bench.server.notes.map((note) => note.stamp.device);
  expect(devices).toEqual([expect.stringMatching(/^paper-[0-9a-f]{16}$/), devices[0]]);
  expect([state.cell("591", points), state.cell("591", line), state.cell("274", points)]).toEqual(["7.25", "40", ""]);
  await state.leave();
});

test("what does not fit is said and not kept, and an emptied cell takes the answer back", async () => {
  const state = await typing();
  await state.open(state.seats[0]!);
  await state.write("591", points, "7.25");

  expect(await state.write("591", points, "7.3")).toBe("6 to 10 in steps of 0.25");
  expect(state.cell("591", points)).toBe("7.25");

  await state.write("591", points, "");
  expect(state.cell("591", points)).toBe("");
  await state.leave();
});

test("a pass over the whole table has one row", async () => {
  const state = await typing();
  await state.open(state.seats[0]!);
  state.round = 1;

  expect(state.stops).toEqual(["table"]);
  expect(await state.write("table", rank, "274 = 591")).toBe("");
  expect(state.cell("table", rank)).toBe("274 = 591");
  await state.leave();
});

test("a seat that a phone holds is not offered; one this machine holds is, and is not taken again", async () => {
  expect((await typing(table({}, true))).seats).toEqual([]);
  const before = phone();
  await before.open(SEAT.id, TOKEN, { table: bench.server.table, seat: SEAT });
  before.close();

  const state = await typing(table({}, true));
  await state.open(state.seats[0]!);

  expect(asked).toEqual([]);
  expect(state.seat?.name).toBe("Anna");
  await state.leave();
});

test("whoever sat on this machine sits here again when the sheet is put away", async () => {
  const own = phone();
  await own.open("own-seat", "own-token", { table: bench.server.table, seat: { ...SEAT, id: "own-seat" } });
  own.close();
  const state = await typing();
  await state.open(state.seats[0]!);
  await state.leave();

  expect((await phone().remembered())[0]?.seat).toBe("own-seat");
});

test.each(["plan", "reveal"] as const)("nothing is typed in while the table is at %s", async (step) => {
  expect((await typing(table({ step }))).running).toBe(false);
});

test("a cell that is left late is kept in the pass it was typed in", async () => {
  const state = await typing();
  await state.open(state.seats[0]!);
  state.turn(1);

  expect(await state.write("591", points, "7.5", "one")).toBe("");

  expect([state.pass?.id, state.cell("591", points, "one")]).toEqual(["all", "7.5"]);
  state.turn(1);
  expect(state.pass?.id).toBe("all");
  state.turn(-1);
  expect([state.pass?.id, state.fits("591", points, "7.3"), state.fits("591", points, "7.5")]).toEqual(["one", false, true]);
  await state.leave();
});
