import { afterEach, beforeEach, describe, expect, test } from "vitest";
import type { Note } from "../wire/types";
import { Bench, until } from "./phone.testing";
import { aTable, type FakeServer, SEAT, TOKEN } from "./server.testing";
import type { Surroundings } from "./surroundings";

let bench: Bench;
let server: FakeServer;

beforeEach(() => {
  bench = new Bench();
  server = bench.server;
});

afterEach(() => bench.close());

describe("with a server", () => {
  test("a note reaches the server by itself and stops counting as unsent", async () => {
    const notebook = await bench.seated();

    await notebook.write("274", "flavour", "words", "plum");
    await notebook.sync();

    expect(bench.values()).toEqual(["plum"]);
    expect(notebook.unsent).toBe(0);
    expect(notebook.answer("274", "flavour", "words")).toBe("plum");
    expect(notebook.trouble).toBe("");
  });

  test("what is sent is a note as on the wire and nothing more", async () => {
    const notebook = await bench.seated();

    await notebook.write("274", "touch", "weight", 40);
    await notebook.sync();

    const [note] = server.notes as [Note];
    expect(Object.keys(note).sort()).toEqual(["field", "id", "pass", "place", "stamp", "value", "written_at"]);
    expect(note).toMatchObject({ place: "274", pass: "touch", field: "weight", value: 40, stamp: { counter: 1 } });
  });

  test("a note carries the table's time, though this device's clock is a quarter of an hour slow", async () => {
    server.now = 1_700_000_900_000;
    const notebook = await bench.seated({ now: () => 1_700_000_000_000 });

    await notebook.write("274", "flavour", "words", "plum");
    await notebook.sync();

    expect(server.notes[0]?.written_at).toBe(1_700_000_900_000);
  });

  test("before the server has answered once, a note carries this device's own time", async () => {
    server.now = 1_700_000_900_000;
    server.down = true;
    const notebook = await bench.seated({ now: () => 1_700_000_000_000 });

    await notebook.write("274", "flavour", "words", "plum");
    server.down = false;
    await notebook.sync();

    expect(server.notes[0]?.written_at).toBe(1_700_000_000_000);
  });

  test("a correction is a newer note, and taking back is one too", async () => {
    const notebook = await bench.seated();

    await notebook.write("274", "flavour", "words", "plum");
    await notebook.write("274", "flavour", "words", "peach");
    await notebook.write("274", "flavour", "words", null);
    await notebook.sync();

    expect(bench.values()).toEqual(["plum", "peach", null]);
    expect(notebook.answer("274", "flavour", "words")).toBeNull();
    expect(notebook.answers().size).toBe(0);
  });

  test("an emptied text takes the answer back, and saying the same again makes no note", async () => {
    const notebook = await bench.seated();

    await notebook.write("274", "flavour", "words", "");
    await notebook.write("274", "flavour", "words", "plum");
    await notebook.write("274", "flavour", "words", "plum");
    await notebook.write("274", "colour", "colour", { l: 0.5, a: 0, b: 0 });
    await notebook.write("274", "colour", "colour", { l: 0.5, a: 0, b: 0 });
    await notebook.write("274", "flavour", "words", "");
    await notebook.sync();

    expect(bench.values()).toEqual(["plum", { l: 0.5, a: 0, b: 0 }, null]);
  });

  test("answers written faster than the phone can keep them all count, in the order they were given", async () => {
    const notebook = await bench.seated();
    const write = (value: string) => notebook.write("274", "flavour", "words", value);

    await Promise.all([write("p"), write("plum"), write("plum"), write(""), write(""), write("fig")]);
    await notebook.sync();

    expect(bench.values()).toEqual(["p", "plum", null, "fig"]);
    expect(notebook.answer("274", "flavour", "words")).toBe("fig");
  });

  test("half a character, as a cut emoji leaves it, is replaced instead of being refused later", async () => {
    const notebook = await bench.seated();

    await notebook.write("274", "flavour", "words", "peach \ud83c and 🍑\0");

    expect(notebook.answer("274", "flavour", "words")).toBe("peach \ufffd and 🍑\ufffd");
  });

  test("notes of the seat's other device come in and are written above", async () => {
    const notebook = await bench.seated();
    const theirs = { id: "other", place: "274", pass: "flavour", field: "words", value: "fig" };
    server.notes.push({ ...theirs, stamp: { counter: 9, device: "zz" }, written_at: 0 });

    await notebook.sync();
    expect(notebook.answer("274", "flavour", "words")).toBe("fig");
    expect(notebook.unsent).toBe(0);

    await notebook.write("274", "flavour", "words", "date");
    await notebook.sync();
    expect(server.notes.at(-1)?.stamp.counter).toBe(10);
    expect(notebook.answer("274", "flavour", "words")).toBe("date");
  });

  test("the table's step is followed and the server's clock measured", async () => {
    const notebook = await bench.seated();
    server.now += 90_000;
    server.table = aTable({ step: "reveal" });

    await notebook.sync();

    expect(notebook.known?.table.step).toBe("reveal");
    expect(notebook.ahead).toBe(90_000);
  });

  test("a quiet round asks only for what is new", async () => {
    const notebook = await bench.seated();
    await notebook.write("274", "flavour", "words", "plum");
    await notebook.sync();

    server.requests = [];
    await notebook.sync();

    expect(server.requests).toEqual(["GET /api/seat?after=1"]);
  });

  test("listeners hear at once, at each change, and no more after they leave", async () => {
    const notebook = await bench.seated();
    const heard: number[] = [];
    const leave = notebook.subscribe((it) => heard.push(it.unsent));
    expect(heard).toEqual([0]);

    server.down = true;
    await notebook.write("274", "flavour", "words", "plum");
    await until(() => heard.includes(1));

    leave();
    const before = heard.length;
    await notebook.write("274", "flavour", "words", "fig");
    expect(heard.length).toBe(before);
  });
});

describe("several tabs and seats", () => {
  test("a note written in one tab is seen in the other and sent once", async () => {
    const one = await bench.seated();
    const two = await bench.seated();

    await one.write("274", "flavour", "words", "plum");
    await until(() => two.answer("274", "flavour", "words") === "plum");
    await two.write("274", "flavour", "words", "fig");
    await Promise.all([one.sync(), two.sync()]);

    expect(bench.values().sort()).toEqual(["fig", "plum"]);
    await until(() => one.answer("274", "flavour", "words") === "fig");
    await until(() => one.unsent === 0 && two.unsent === 0);
    expect(new Set(server.notes.map((note) => note.stamp.counter)).size).toBe(2);
  });

  test("another seat on the same phone starts empty and leaves the first one's notes alone", async () => {
    const notebook = await bench.seated();
    server.down = true;
    await notebook.write("274", "flavour", "words", "plum");

    await notebook.open("seat-2", TOKEN, { table: aTable(), seat: { ...SEAT, id: "seat-2", name: "Bo" } });
    expect(notebook.answers().size).toBe(0);
    expect(notebook.unsent).toBe(0);

    const remembered = await notebook.remembered();
    expect(remembered.map((one) => [one.seat, one.waiting]).sort()).toEqual([
      ["seat-1", 1],
      ["seat-2", 0],
    ]);
    await notebook.open(SEAT.id, TOKEN);
    expect(notebook.answer("274", "flavour", "words")).toBe("plum");
  });

  test("changing seats while an answer is on its way mixes nothing up", async () => {
    let answer: () => void = () => undefined;
    const held = new Promise<void>((resolve) => (answer = resolve));
    const notebook = bench.phone({ fetch: async (input, init) => (await held, server.fetch(input, init)) });
    server.notes.push({
      id: "of-seat-1",
      place: "274",
      pass: "flavour",
      field: "words",
      value: "plum",
      stamp: { counter: 1, device: "zz" },
      written_at: 0,
    });
    await notebook.open(SEAT.id, TOKEN, { table: aTable(), seat: SEAT });
    const round = notebook.sync();

    await notebook.open("seat-2", "token-2", { table: aTable(), seat: { ...SEAT, id: "seat-2" } });
    answer();
    await round;
    await notebook.sync();

    expect(notebook.answers().size).toBe(0);
    expect(notebook.stranger).toBe(true);
    await notebook.open(SEAT.id, TOKEN);
    await notebook.sync();
    expect(notebook.answer("274", "flavour", "words")).toBe("plum");
  });

  test("writing before sitting down is a mistake of the program and says so", async () => {
    await expect(bench.phone().write("274", "flavour", "words", "plum")).rejects.toThrow("open()");
  });
});

describe("the surroundings", () => {
  test("the network's return begins a round", async () => {
    let back: () => void = () => undefined;
    const notebook = await bench.seated({
      whenBack: (call) => {
        back = call;
        return () => undefined;
      },
    });
    server.down = true;
    await notebook.write("274", "flavour", "words", "plum");
    await notebook.sync();
    server.down = false;

    back();

    await until(() => notebook.unsent === 0);
    expect(bench.values()).toEqual(["plum"]);
  });

  test("a page that is seen asks every 3 seconds, a hidden one every 30", async () => {
    const waits: number[] = [];
    let visible = true;
    const schedule: Surroundings["schedule"] = (_, ms) => {
      waits.push(ms);
      return () => undefined;
    };
    const notebook = await bench.seated({ schedule, visible: () => visible });
    visible = false;
    await notebook.sync();

    expect(waits.at(0)).toBe(3000);
    expect(waits.at(-1)).toBe(30_000);
  });

  test("the browser is asked not to clear the notes, and its answer is kept", async () => {
    for (const answer of [true, false, null]) {
      const notebook = await bench.seated({ persist: async () => answer });
      expect(notebook.persisted).toBe(answer);
    }
  });

  test("after closing, nothing is asked of the server and no listener is left", async () => {
    let left = 0;
    const notebook = await bench.seated({ whenBack: () => () => void left++ });
    notebook.close();
    server.requests = [];

    await notebook.sync();

    expect(server.requests).toEqual([]);
    expect(left).toBe(1);
  });
});
