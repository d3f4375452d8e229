import { afterEach, beforeEach, describe, expect, test } from "vitest";
import type { Note } from "../wire/types";
import { local } from "../words/local";
import { PhoneDb } from "./db";
import { Notebook } from "./notebook";
import { aTable, FakeServer, json, problem, SEAT, TOKEN } from "./server.testing";
import type { Surroundings } from "./surroundings";

let server: FakeServer;
let opened: Notebook[];
let names = 0;
let database: string;

beforeEach(() => {
  server = new FakeServer();
  opened = [];
  database = `notebook-test-${++names}`;
});

afterEach(() => {
  for (const notebook of opened) notebook.close();
});

/** A phone whose rounds happen only when something asks for one. */
function phone(changes: Partial<Surroundings> = {}, name = database): Notebook {
  const notebook = new Notebook(
    {
      fetch: server.fetch,
      now: () => 1_700_000_000_000,
      random: () => 1,
      schedule: () => () => undefined,
      visible: () => true,
      whenBack: () => () => undefined,
      persist: async () => null,
      ...changes,
    },
    new PhoneDb(name),
  );
  opened.push(notebook);
  return notebook;
}

async function seated(changes: Partial<Surroundings> = {}, name = database): Promise<Notebook> {
  const notebook = phone(changes, name);
  await notebook.open(SEAT.id, TOKEN, { table: aTable(), seat: SEAT });
  await notebook.sync();
  return notebook;
}

async function until(holds: () => boolean): Promise<void> {
  for (let i = 0; i < 200 && !holds(); i++) await new Promise((resolve) => setTimeout(resolve, 5));
  expect(holds()).toBe(true);
}

const values = () => server.notes.map((note) => note.value);

describe("with a server", () => {
  test("a note reaches the server by itself and stops counting as unsent", async () => {
    const notebook = await seated();

    await notebook.write("274", "flavour", "words", "plum");
    await notebook.sync();

    expect(values()).toEqual(["plum"]);
    expect(notebook.unsent).toBe(0);
    expect(notebook.answer("274", "flavour", "words")).toBe("plum");
    expect(notebook.trouble).toBe("");
  });

  test("what is sent is a note as on the wire and nothing more", async () => {
    const notebook = await seated();

    await notebook.write("274", "touch", "weight", 40);
    await notebook.sync();

    const [note] = server.notes as [Note];
    expect(Object.keys(note).sort()).toEqual(["field", "id", "pass", "place", "stamp", "value", "written_at"]);
    expect(note).toMatchObject({ place: "274", pass: "touch", field: "weight", value: 40, stamp: { counter: 1 } });
  });

  test("a correction is a newer note, and taking back is one too", async () => {
    const notebook = await seated();

    await notebook.write("274", "flavour", "words", "plum");
    await notebook.write("274", "flavour", "words", "peach");
    await notebook.write("274", "flavour", "words", null);
    await notebook.sync();

    expect(values()).toEqual(["plum", "peach", null]);
    expect(notebook.answer("274", "flavour", "words")).toBeNull();
    expect(notebook.answers().size).toBe(0);
  });

  test("an emptied text takes the answer back, and saying the same again makes no note", async () => {
    const notebook = await seated();

    await notebook.write("274", "flavour", "words", "");
    await notebook.write("274", "flavour", "words", "plum");
    await notebook.write("274", "flavour", "words", "plum");
    await notebook.write("274", "colour", "colour", { l: 0.5, a: 0, b: 0 });
    await notebook.write("274", "colour", "colour", { l: 0.5, a: 0, b: 0 });
    await notebook.write("274", "flavour", "words", "");
    await notebook.sync();

    expect(values()).toEqual(["plum", { l: 0.5, a: 0, b: 0 }, null]);
  });

  test("answers written faster than the phone can keep them all count, in the order they were given", async () => {
    const notebook = await seated();
    const write = (value: string) => notebook.write("274", "flavour", "words", value);

    await Promise.all([write("p"), write("plum"), write("plum"), write(""), write(""), write("fig")]);
    await notebook.sync();

    expect(values()).toEqual(["p", "plum", null, "fig"]);
    expect(notebook.answer("274", "flavour", "words")).toBe("fig");
  });

  test("half a character, as a cut emoji leaves it, is replaced instead of being refused later", async () => {
    const notebook = await seated();

    await notebook.write("274", "flavour", "words", "peach \ud83c and 🍑\0");

    expect(notebook.answer("274", "flavour", "words")).toBe("peach \ufffd and 🍑\ufffd");
  });

  test("notes of the seat's other device come in and are written above", async () => {
    const notebook = await seated();
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
    const notebook = await seated();
    server.now += 90_000;
    server.table = aTable({ step: "reveal" });

    await notebook.sync();

    expect(notebook.known?.table.step).toBe("reveal");
    expect(notebook.ahead).toBe(90_000);
  });

  test("a quiet round asks only for what is new", async () => {
    const notebook = await seated();
    await notebook.write("274", "flavour", "words", "plum");
    await notebook.sync();

    server.requests = [];
    await notebook.sync();

    expect(server.requests).toEqual(["GET /api/seat?after=1"]);
  });

  test("listeners hear at once, at each change, and no more after they leave", async () => {
    const notebook = await seated();
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

describe("without a server", () => {
  test("notes are kept and counted, and go out when it is back", async () => {
    const notebook = await seated();
    server.down = true;

    await notebook.write("274", "flavour", "words", "plum");
    await notebook.write("591", "flavour", "words", "fig");
    await notebook.sync();
    expect(notebook.unsent).toBe(2);
    expect(notebook.trouble).toBe(local.unreachable);
    expect(notebook.answer("591", "flavour", "words")).toBe("fig");

    server.down = false;
    await notebook.sync();
    expect(values()).toEqual(["plum", "fig"]);
    expect(notebook.unsent).toBe(0);
    expect(notebook.trouble).toBe("");
  });

  test("a closed tab loses nothing: table, answers and unsent notes are there again", async () => {
    const before = await seated();
    server.down = true;
    await before.write("274", "flavour", "words", "plum");
    before.close();

    const after = phone();
    const [last] = await after.remembered();
    await after.open(last!.seat, last!.token);

    expect(last).toEqual({ seat: SEAT.id, token: TOKEN, name: "Anna", table: "Morning", waiting: 1 });
    expect(after.known).toEqual({ table: aTable(), seat: SEAT });
    expect(after.answer("274", "flavour", "words")).toBe("plum");
    expect(after.unsent).toBe(1);

    server.down = false;
    await after.sync();
    expect(values()).toEqual(["plum"]);
  });

  test("an answer of the server that got lost leaves one note there and none unsent", async () => {
    const notebook = await seated();
    server.deaf = true;
    await notebook.write("274", "flavour", "words", "plum");
    await notebook.sync();
    expect(values()).toEqual(["plum"]);
    expect(notebook.unsent).toBe(1);

    server.deaf = false;
    await notebook.sync();

    expect(values()).toEqual(["plum"]);
    expect(notebook.unsent).toBe(0);
  });

  test("a hotel's welcome page is no acknowledgement", async () => {
    const notebook = await seated();
    server.trouble = () => new Response("<html>Welcome</html>", { status: 200 });

    await notebook.write("274", "flavour", "words", "plum");
    await notebook.sync();

    expect(notebook.unsent).toBe(1);
    expect(notebook.trouble).toBe(local.oddAnswer(200));
  });

  test("an acknowledgement of other ids leaves the note unsent", async () => {
    const notebook = await seated();
    server.trouble = (path) => (path.includes("notes") ? json(200, { kept: ["other"], sequence: 9 }) : null);

    await notebook.write("274", "flavour", "words", "plum");
    await notebook.sync();

    expect(notebook.unsent).toBe(1);
    expect(notebook.trouble).toBe(local.notAllKept);
  });

  test("a server put back to an older copy gets its missing notes again", async () => {
    const notebook = await seated();
    await notebook.write("274", "flavour", "words", "plum");
    await notebook.write("591", "flavour", "words", "fig");
    await notebook.sync();

    server.down = true;
    await notebook.sync();
    server.down = false;
    server.notes = server.notes.slice(0, 1);
    await notebook.sync();
    await notebook.sync();

    expect(values()).toEqual(["plum", "fig"]);
    expect(notebook.unsent).toBe(0);
  });

  test("all notes can be saved as the text of a file", async () => {
    const notebook = await seated();
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
    const notebook = await seated();
    server.down = true;
    for (const place of ["274", "nowhere", "591"]) await notebook.write(place, "flavour", "words", `at ${place}`);
    await notebook.sync();
    server.down = false;

    await notebook.sync();

    expect(values()).toEqual(["at 274", "at 591"]);
    expect(notebook.refused.map((note) => [note.value, note.why])).toEqual([
      ["at nowhere", "There is no place 'nowhere'."],
    ]);
    expect(notebook.unsent).toBe(1);
    expect(notebook.answer("nowhere", "flavour", "words")).toBe("at nowhere");
  });

  test("is not asked for again by itself, only when the taster wishes", async () => {
    const notebook = await seated();
    await notebook.write("nowhere", "flavour", "words", "plum");
    await notebook.sync();
    server.requests = [];

    await notebook.sync();
    expect(server.requests.filter((request) => request.startsWith("POST"))).toEqual([]);

    server.table = aTable({ places: ["nowhere"] });
    await notebook.tryAgain();
    expect(values()).toEqual(["plum"]);
    expect(notebook.refused).toEqual([]);
    expect(notebook.unsent).toBe(0);
  });

  test("by a table that was closed meanwhile keeps every note", async () => {
    const notebook = await seated();
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
    const notebook = await seated();
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
    expect(values()).toEqual(["plum"]);
  });

  test("by a fault over one note does not hold up the others or the table's news", async () => {
    const notebook = await seated();
    server.trouble = (_, notes) => (notes.some((note) => note.value === "poison") ? problem(500, "Broken.") : null);
    server.down = true;
    for (const value of ["poison", "plum", "fig"]) await notebook.write("274", "flavour", `f-${value}`, value);
    await notebook.sync();
    server.down = false;
    server.table = aTable({ name: "Renamed" });

    await notebook.sync();

    expect(values()).toEqual(["plum", "fig"]);
    expect(notebook.unsent).toBe(1);
    expect(notebook.refused).toEqual([]);
    expect(notebook.known?.table.name).toBe("Renamed");
    expect(notebook.trouble).toBe("Broken.");
  });
});

describe("several tabs and seats", () => {
  test("a note written in one tab is seen in the other and sent once", async () => {
    const one = await seated();
    const two = await seated();

    await one.write("274", "flavour", "words", "plum");
    await until(() => two.answer("274", "flavour", "words") === "plum");
    await two.write("274", "flavour", "words", "fig");
    await Promise.all([one.sync(), two.sync()]);

    expect(values().sort()).toEqual(["fig", "plum"]);
    await until(() => one.answer("274", "flavour", "words") === "fig");
    await until(() => one.unsent === 0 && two.unsent === 0);
    expect(new Set(server.notes.map((note) => note.stamp.counter)).size).toBe(2);
  });

  test("another seat on the same phone starts empty and leaves the first one's notes alone", async () => {
    const notebook = await seated();
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
    const notebook = phone({ fetch: async (input, init) => (await held, server.fetch(input, init)) });
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
    await expect(phone().write("274", "flavour", "words", "plum")).rejects.toThrow("open()");
  });
});

describe("the surroundings", () => {
  test("the network's return begins a round", async () => {
    let back: () => void = () => undefined;
    const notebook = await seated({
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
    expect(values()).toEqual(["plum"]);
  });

  test("a page that is seen asks every 3 seconds, a hidden one every 30", async () => {
    const waits: number[] = [];
    let visible = true;
    const schedule: Surroundings["schedule"] = (_, ms) => {
      waits.push(ms);
      return () => undefined;
    };
    const notebook = await seated({ schedule, visible: () => visible });
    visible = false;
    await notebook.sync();

    expect(waits.at(0)).toBe(3000);
    expect(waits.at(-1)).toBe(30_000);
  });

  test("the browser is asked not to clear the notes, and its answer is kept", async () => {
    for (const answer of [true, false, null]) {
      const notebook = await seated({ persist: async () => answer });
      expect(notebook.persisted).toBe(answer);
    }
  });

  test("after closing, nothing is asked of the server and no listener is left", async () => {
    let left = 0;
    const notebook = await seated({ whenBack: () => () => void left++ });
    notebook.close();
    server.requests = [];

    await notebook.sync();

    expect(server.requests).toEqual([]);
    expect(left).toBe(1);
  });
});
