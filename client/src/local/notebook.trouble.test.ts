import { afterEach, beforeEach, describe, expect, test } from "vitest";
import type { Note } from "../wire/types";
import { local } from "../words/local";
import { Bench } from "./phone.testing";
import { aTable, type FakeServer, json, problem, SEAT, TOKEN } from "./server.testing";

let bench: Bench;
let server: FakeServer;

beforeEach(() => {
  bench = new Bench();
  server = bench.server;
});

afterEach(() => bench.close());

describe("without a server", () => {
  test("notes are kept and counted, and go out when it is back", async () => {
    const notebook = await bench.seated();
    server.down = true;

    await notebook.write("274", "flavour", "words", "plum");
    await notebook.write("591", "flavour", "words", "fig");
    await notebook.sync();
    expect(notebook.unsent).toBe(2);
    expect(notebook.trouble).toBe(local.unreachable);
    expect(notebook.answer("591", "flavour", "words")).toBe("fig");

    server.down = false;
    await notebook.sync();
    expect(bench.values()).toEqual(["plum", "fig"]);
    expect(notebook.unsent).toBe(0);
    expect(notebook.trouble).toBe("");
  });

  test("a closed tab loses nothing: table, answers and unsent notes are there again", async () => {
    const before = await bench.seated();
    server.down = true;
    await before.write("274", "flavour", "words", "plum");
    before.close();

    const after = bench.phone();
    const [last] = await after.remembered();
    await after.open(last!.seat, last!.token);

    expect(last).toEqual({ seat: SEAT.id, token: TOKEN, name: "Anna", table: "Morning", waiting: 1 });
    expect(after.known).toEqual({ table: aTable(), seat: SEAT });
    expect(after.answer("274", "flavour", "words")).toBe("plum");
    expect(after.unsent).toBe(1);

    server.down = false;
    await after.sync();
    expect(bench.values()).toEqual(["plum"]);
  });

  test("an answer of the server that got lost leaves one note there and none unsent", async () => {
    const notebook = await bench.seated();
    server.deaf = true;
    await notebook.write("274", "flavour", "words", "plum");
    await notebook.sync();
    expect(bench.values()).toEqual(["plum"]);
    expect(notebook.unsent).toBe(1);

    server.deaf = false;
    await notebook.sync();

    expect(bench.values()).toEqual(["plum"]);
    expect(notebook.unsent).toBe(0);
  });

  test("a hotel's welcome page is no acknowledgement", async () => {
    const notebook = await bench.seated();
    server.trouble = () => new Response("<html>Welcome</html>", { status: 200 });

    await notebook.write("274", "flavour", "words", "plum");
    await notebook.sync();

    expect(notebook.unsent).toBe(1);
    expect(notebook.trouble).toBe(local.oddAnswer(200));
  });

  test("an acknowledgement of other ids leaves the note unsent", async () => {
    const notebook = await bench.seated();
    server.trouble = (path) => (path.includes("notes") ? json(200, { kept: ["other"], sequence: 9 }) : null);

    await notebook.write("274", "flavour", "words", "plum");
    await notebook.sync();

    expect(notebook.unsent).toBe(1);
    expect(notebook.trouble).toBe(local.notAllKept);
  });

  test("a server put back to an older copy gets its missing notes again", async () => {
    const notebook = await bench.seated();
    await notebook.write("274", "flavour", "words", "plum");
    await notebook.write("591", "flavour", "words", "fig");
    await notebook.sync();

    server.down = true;
    await notebook.sync();
    server.down = false;
    server.notes = server.notes.slice(0, 1);
    await notebook.sync();
    await notebook.sync();

    expect(bench.values()).toEqual(["plum", "fig"]);
    expect(notebook.unsent).toBe(0);
  });

  test("all notes can be saved as the text of a file", async () => {
    const notebook = await bench.seated();
    await notebook.write("274", "flavour", "words", "plum");
    await notebook.sync();
    server.down = true;
    await notebook.write("591", "touch", "weight", 40);

    const file = JSON.parse(await notebook.exportFile());

    expect(file).toMatchObject({ cupwright_notes: 1, table: { id: "table-1", name: "Morning" } });
    expect(file.seat).toEqual({ id: SEAT.id, name: "Anna" });
    expect(file.notes.map((note: Note) => note.value)).toEqual(["plum", 40]);
    expect(Object.keys(file.notes[0]).sort()).toEqual(Object.keys(server.notes[0]!).sort());
  });
});

describe("a refusal", () => {
  test("of one note keeps it, visible with its sentence, and lets all others through", async () => {
    const notebook = await bench.seated();
    server.down = true;
    for (const place of ["274", "nowhere", "591"]) await notebook.write(place, "flavour", "words", `at ${place}`);
    await notebook.sync();
    server.down = false;

    await notebook.sync();

    expect(bench.values()).toEqual(["at 274", "at 591"]);
    expect(notebook.refused.map((note) => [note.value, note.why])).toEqual([
      ["at nowhere", "There is no place 'nowhere'."],
    ]);
    expect(notebook.unsent).toBe(1);
    expect(notebook.answer("nowhere", "flavour", "words")).toBe("at nowhere");
  });

  test("is not asked for again by itself, only when the taster wishes", async () => {
    const notebook = await bench.seated();
    await notebook.write("nowhere", "flavour", "words", "plum");
    await notebook.sync();
    server.requests = [];

    await notebook.sync();
    expect(server.requests.filter((request) => request.startsWith("POST"))).toEqual([]);

    server.table = aTable({ places: ["nowhere"] });
    await notebook.tryAgain();
    expect(bench.values()).toEqual(["plum"]);
    expect(notebook.refused).toEqual([]);
    expect(notebook.unsent).toBe(0);
  });

  test("by a table that was closed meanwhile keeps every note", async () => {
    const notebook = await bench.seated();
    server.down = true;
    for (const place of ["274", "591"]) await notebook.write(place, "flavour", "words", "plum");
    await notebook.sync();
    server.down = false;
    server.table = aTable({ step: "reveal" });

    await notebook.sync();

    expect(notebook.refused.map((note) => note.why)).toEqual(["You cannot write notes now.", "You cannot write notes now."]);
    expect(JSON.parse(await notebook.exportFile()).notes).toHaveLength(2);
  });

  test("of the seat itself stops the rounds, says so, and keeps all until somebody joins again", async () => {
    const notebook = await bench.seated();
    server.tokens.clear();

    await notebook.write("274", "flavour", "words", "plum");
    await notebook.sync();
    expect(notebook.stranger).toBe(true);
    expect(notebook.trouble).toBe("This device holds no seat.");
    expect(notebook.unsent).toBe(1);

    server.tokens.add("token-2");
    await notebook.open(SEAT.id, "token-2");
    await notebook.sync();
    expect(notebook.stranger).toBe(false);
    expect(bench.values()).toEqual(["plum"]);
  });

  test("by a fault over one note does not hold up the others or the table's news", async () => {
    const notebook = await bench.seated();
    server.trouble = (_, notes) => (notes.some((note) => note.value === "poison") ? problem(500, "Broken.") : null);
    server.down = true;
    for (const value of ["poison", "plum", "fig"]) await notebook.write("274", "flavour", `f-${value}`, value);
    await notebook.sync();
    server.down = false;
    server.table = aTable({ name: "Renamed" });

    await notebook.sync();

    expect(bench.values()).toEqual(["plum", "fig"]);
    expect(notebook.unsent).toBe(1);
    expect(notebook.refused).toEqual([]);
    expect(notebook.known?.table.name).toBe("Renamed");
    expect(notebook.trouble).toBe("Broken.");
  });
});
