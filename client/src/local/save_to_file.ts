/* Notes as a file: the way out of a phone that does not reach its table. */
import { local } from "../words/local";
import type { Note } from "../wire/types";

const FORM = 1;

/** What stands in the file; notes are as on the wire. */
export interface NotesFile {
  cupwright_notes: typeof FORM;
  table: { id: string; name: string };
  seat: { id: string; name: string };
  notes: Note[];
}

/** The text of the file: one note a line, so that people can read it too. */
export function fileText(table: NotesFile["table"], seat: NotesFile["seat"], notes: Note[]): string {
  const head = `{"cupwright_notes":${FORM},"table":${JSON.stringify(table)},"seat":${JSON.stringify(seat)},"notes":[`;
  return `${head}\n${notes.map((note) => JSON.stringify(note)).join(",\n")}\n]}\n`;
}

/** A name that every file system takes: cupwright-notes-morning-table-anna.json. */
export function fileName(table: string, seat: string): string {
  const parts = [local.fileTitle, table, seat].map((part) =>
    part
      .normalize("NFKD")
      .replace(/\p{M}/gu, "")
      .replace(/[^A-Za-z0-9]+/g, "-")
      .replace(/^-+|-+$/g, "")
      .toLowerCase()
      .slice(0, 40),
  );
  return `${parts.filter((part) => part !== "").join("-")}.json`;
}

/** Hand the text to the browser's own way of saving a file. */
export function saveToFile(name: string, text: string): void {
  const url = URL.createObjectURL(new Blob([text], { type: "application/json" }));
  const link = document.createElement("a");
  link.href = url;
  link.download = name;
  link.click();
  // Not at once: some browsers begin to read only after the click has returned.
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}
