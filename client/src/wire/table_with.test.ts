import { expect, test } from "vitest";
import { Problem } from "./problem";
import { onceOpen, TableWith } from "./table_with.svelte";
import type { Step, TableView } from "./types";

function tableAt(step: Step): TableView {
  return { id: "t1", step } as TableView;
}

const gone = new Problem({ status: 404, title: "", detail: "Gone.", todo: "", where: null });

test("what a room shows is asked for only once the table is so far", async () => {
  let step: Step = "taste";
  const asked: string[] = [];
  const room = new TableWith({ table: async () => tableAt(step) }, "t1", (table) =>
    onceOpen(table, async () => {
      asked.push(table.id);
      return "shown";
    }),
  );

  await room.load();
  expect([room.table?.step, room.shown, asked]).toEqual(["taste", null, []]);

  step = "reveal";
  await room.load();
  expect([room.shown, asked]).toEqual(["shown", ["t1"]]);
});

test("a refusal is told and what was found before stays", async () => {
  const answers = [() => Promise.resolve("first"), () => Promise.reject(gone)];
  const room = new TableWith({ table: async () => tableAt("reveal") }, "t1", () => answers.shift()!());
  await room.load();

  await room.load();

  expect(room.shown).toBe("first");
  expect(room.asking.problem).toBe(gone);
  expect(room.asking.busy).toBe(false);
});

test("without the table nothing more is asked for", async () => {
  let asked = 0;
  const room = new TableWith({ table: () => Promise.reject(gone) }, "t1", async () => (asked += 1));

  await room.load();

  expect([room.table, room.shown, asked]).toEqual([null, null, 0]);
});
