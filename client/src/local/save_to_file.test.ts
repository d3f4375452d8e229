// @vitest-environment happy-dom
import { expect, test } from "vitest";
import shared from "../../../tests/contract/notes_file.json";
import type { Note } from "../wire/types";
import { fileName, fileText, type NotesFile, saveToFile } from "./save_to_file";

const note: Note = {
  id: "n1",
  place: "274",
  pass: "flavour",
  field: "words",
  value: 'plum "ripe"\n🍑',
  stamp: { counter: 3, device: "a" },
  written_at: 5,
};

test("the file says which table and seat, and holds each note as on the wire, one a line", () => {
  const text = fileText({ id: "t", name: 'Mor"ning' }, { id: "s", name: "Ånna" }, [note, { ...note, id: "n2" }]);

  expect(JSON.parse(text)).toEqual({
    cupwright_notes: 1,
    table: { id: "t", name: 'Mor"ning' },
    seat: { id: "s", name: "Ånna" },
    notes: [note, { ...note, id: "n2" }],
  });
  expect(text.trimEnd().split("\n")).toHaveLength(4);
});

test("the file says what the one says that the server is tested with", () => {
  const { table, seat, notes } = shared as NotesFile;

  expect(JSON.parse(fileText(table, seat, notes))).toEqual(shared);
});

test("a file without notes can be read too", () => {
  expect(JSON.parse(fileText({ id: "", name: "" }, { id: "s", name: "" }, []))).toMatchObject({ notes: [] });
});

test("the name of the file is plain on every system", () => {
  expect(fileName("Morning / table: 2", "Ånna")).toBe("cupwright-notes-morning-table-2-anna.json");
  expect(fileName("../../etc", "")).toBe("cupwright-notes-etc.json");
  expect(fileName("品茶", "x".repeat(100))).toBe(`cupwright-notes-${"x".repeat(40)}.json`);
});

test("saving hands the browser a file of that name", () => {
  const clicked: { name: string; href: string }[] = [];
  const { click } = HTMLAnchorElement.prototype;
  HTMLAnchorElement.prototype.click = function (this: HTMLAnchorElement) {
    clicked.push({ name: this.download, href: this.href });
  };

  saveToFile("notes.json", "{}");
  HTMLAnchorElement.prototype.click = click;

  expect(clicked).toHaveLength(1);
  expect(clicked[0]?.name).toBe("notes.json");
  expect(clicked[0]?.href).toMatch(/^blob:/);
});
