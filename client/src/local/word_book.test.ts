import { afterEach, beforeEach, describe, expect, test } from "vitest";
import type { OwnWord } from "../wire/types";
import { tasterKey } from "./corrections";
import { Bench, until } from "./phone.testing";
import { problem } from "./server.testing";

const SODA: OwnWord = { concept: "quince_soda", label: "quince soda", parents: ["quince"], forms: [] };

let bench: Bench;
beforeEach(() => void (bench = new Bench()));
afterEach(() => bench.close());

const said = (all: readonly { surface: string; concept: string | null }[]) =>
  all.map(({ surface, concept }) => [surface, concept]);

describe("a correction", () => {
  test("is kept on the phone without a server, and sent when it is back", async () => {
    const notebook = await bench.seated();
    bench.server.down = true;

    await notebook.correct("grippy", "drying");
    await notebook.sync();
    expect(said(notebook.words.corrections)).toEqual([["grippy", "drying"]]);
    expect(bench.server.corrections).toEqual([]);

    bench.server.down = false;
    await notebook.sync();
    expect(said(bench.server.corrections)).toEqual([["grippy", "drying"]]);
    expect(notebook.trouble).toBe("");
  });

  test("outlives a closed page", async () => {
    bench.server.down = true;
    const first = await bench.seated();
    await first.correct("grippy", "none");
    first.close();

    const again = await bench.seated();

    expect(said(again.words.corrections)).toEqual([["grippy", "none"]]);
  });

  test("arrives once, however often its answer is lost", async () => {
    const notebook = await bench.seated();
    bench.server.deaf = true;
    await notebook.correct("grippy", "drying");
    await notebook.sync();
    await notebook.sync();
    bench.server.deaf = false;
    await notebook.sync();

    expect(bench.server.corrections).toHaveLength(1);
  });

  test("has a stamp above every note and correction the phone has seen", async () => {
    const notebook = await bench.seated();
    await notebook.write("274", "flavour", "words", "plum");
    await notebook.correct("plum", "prune");
    await notebook.write("274", "flavour", "words", "plum, tea");
    await notebook.sync();

    const [first, second] = bench.server.notes.map((note) => note.stamp.counter);
    const [between] = bench.server.corrections.map((one) => one.stamp.counter);
    expect([first, between, second]).toEqual([1, 2, 3]);
  });

  test("comes in from the taster's other devices and raises the counter", async () => {
    const stamp = { counter: 40, device: "other" };
    bench.server.corrections = [{ id: "c-1", surface: "grippy", concept: "rough", stamp, written_at: 1 }];

    const notebook = await bench.seated();
    await notebook.correct("grippy", "drying");
    await notebook.sync();

    expect(said(notebook.words.corrections).sort()).toEqual([["grippy", "drying"], ["grippy", "rough"]]);
    expect(bench.server.corrections[1]?.stamp.counter).toBe(41);
  });

  test("goes out again if the server was put back to an older copy", async () => {
    const notebook = await bench.seated();
    await notebook.correct("grippy", "drying");
    await notebook.sync();
    bench.server.corrections = [];
    bench.server.down = true;
    await notebook.sync(); // after a failure everything is asked for
    bench.server.down = false;
    await notebook.sync();
    await notebook.sync();

    expect(said(bench.server.corrections)).toEqual([["grippy", "drying"]]);
  });

  test("that the server refuses holds up no note and stays here", async () => {
    const notebook = await bench.seated();
    bench.server.trouble = (path) => (path.endsWith("/corrections") ? problem(422, "No.") : null);
    await notebook.correct("grippy", "drying");
    await notebook.write("274", "flavour", "words", "plum");
    await notebook.sync();
    await notebook.sync();

    expect(bench.values()).toEqual(["plum"]);
    expect(notebook.unsent).toBe(0);
    expect(said(notebook.words.corrections)).toEqual([["grippy", "drying"]]);
    expect(bench.server.requests.filter((asked) => asked.endsWith("/corrections"))).toHaveLength(1);
  });

  test("made in one tab is seen in the other", async () => {
    const one = await bench.seated();
    const other = await bench.seated();

    await one.correct("grippy", "drying");

    await until(() => other.words.corrections.length === 1);
  });
});

describe("own words", () => {
  test("come with the first view and are there without a server", async () => {
    bench.server.own = [SODA];
    (await bench.seated()).close();
    bench.server.down = true;

    const notebook = await bench.seated();

    expect(notebook.words.own).toEqual([SODA]);
  });

  test("that were removed at the desk are forgotten", async () => {
    bench.server.own = [SODA];
    (await bench.seated()).close();
    bench.server.own = [];

    const notebook = await bench.seated();

    expect(notebook.words.own).toEqual([]);
  });
});

test("a taster is the same, however the name is typed", () => {
  expect(tasterKey("  Ada  LOVE ")).toBe(tasterKey("ada love"));
  expect(tasterKey("José")).toBe(tasterKey("JOSE\u0301"));
  expect(tasterKey("Ada")).not.toBe(tasterKey("Ben"));
});
